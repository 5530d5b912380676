"""The materials of Stock as rows, print hours as one more, and the headline, from a Status."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.screens.widgets.facts_line import Fact
from buildlog.screens.widgets.rows import Cell, GridRow, SpanCell
from buildlog.screens.widgets.tones import Tone
from buildlog.terms import Moment, minutes_between
from buildlog.wording import MONTHS, grams, home, hours, money

if TYPE_CHECKING:
    from buildlog.status.netting import MaterialOutlook
    from buildlog.status.status import Status

SOON_DAYS = 7
NONE = Cell("–", Tone.FAINT)


def headline(status: Status) -> list[Fact]:
    """What is short, what to order, at which pace."""
    stock, settings = status.stock, status.snapshot.settings
    if not stock.materials:
        return []
    pace = status.learning.pace
    total = sum(basket.total_minor for basket in stock.baskets)
    now = sum(basket.is_now for basket in stock.baskets)
    facts = [_first_out(status)]
    if stock.baskets:
        facts.append(Fact("to order", money(total, settings.currency)))
        facts.append(Fact("today", str(now), Tone.CAUTION) if now else Fact("today", "nothing"))
    usual = " usual" if pace.usual else ""
    return [*facts, Fact("pace", f"{pace.hours_per_week:.0f} h a week{usual}")]


def _first_out(status: Status) -> Fact:
    """What runs out first, or is short further on."""
    outlooks = status.stock.materials.values()
    out = min(((o.runs_out_at, o.material_id) for o in outlooks if o.runs_out_at is not None), default=None)
    if out is not None:
        code, days = status.snapshot.material[out[1]].code, minutes_between(status.now, out[0]) // 1440
        return Fact(
            "runs out", f"{code} {short_day(status, out[0])}", Tone.BAD if days <= SOON_DAYS else Tone.CAUTION
        )
    return Fact("all of it", "lasts", Tone.GOOD)


def material_rows(status: Status) -> list[GridRow]:
    """Key ``material:ID``, those that run out first on top; then ``hours:0``."""
    outlooks = sorted(
        status.stock.materials.values(),
        key=lambda o: (o.order_by or "9", o.runs_out_at or "9", status.snapshot.material[o.material_id].code),
    )
    rows = [_material(status, outlook) for outlook in outlooks]
    return [*rows, _hours(status)] if rows or status.hours.total_minutes else []


def _material(status: Status, outlook: MaterialOutlook) -> GridRow:
    material = status.snapshot.material[outlook.material_id]
    on_hand = SpanCell(((grams(outlook.on_hand_mg), Tone.PLAIN), (f" ± {outlook.pm_mg / 1000:.0f}", Tone.FAINT)))
    coming = f"{grams(outlook.on_order_mg)}, {short_day(status, outlook.due_at)}" if outlook.due_at else ""
    is_short = outlook.short_mg > 0
    short = Cell(grams(outlook.short_mg), Tone.BAD, "") if is_short else NONE
    return GridRow(
        f"material:{material.id}",
        (
            Cell(material.code, Tone.BAD if is_short else Tone.PLAIN),
            on_hand,
            Cell(grams(outlook.need_mg)) if outlook.need_mg else NONE,
            short,
            _runs_out(status, outlook),
            _order_by(status, outlook),
            Cell(str(outlook.packs_to_order) if outlook.packs_to_order else ""),
            Cell(coming, Tone.FAINT),
        ),
    )


def _runs_out(status: Status, outlook: MaterialOutlook) -> Cell:
    if outlook.runs_out_at is None:
        return NONE
    days = minutes_between(status.now, outlook.runs_out_at) // 1440
    return Cell(short_day(status, outlook.runs_out_at), Tone.BAD if days <= SOON_DAYS else Tone.CAUTION, "")


def _order_by(status: Status, outlook: MaterialOutlook) -> Cell:
    if outlook.order_by is None:
        return NONE
    days = minutes_between(status.now, outlook.order_by) // 1440
    tone = Tone.BAD if outlook.order_by <= status.now else Tone.CAUTION if days <= SOON_DAYS else Tone.PLAIN
    return Cell("now" if outlook.order_by <= status.now else short_day(status, outlook.order_by), tone)


def _hours(status: Status) -> GridRow:
    left = status.hours
    curve = status.stock.hours_burn_down.forecast
    ends = next((at for at, y in curve if y <= 0), None)
    cells = (
        Cell("print hours"),
        Cell(""),
        Cell(hours(left.total_minutes)),
        NONE,
        Cell(short_day(status, ends) or "–"),
        NONE,
    )
    return GridRow("hours:0", cells)


def short_day(status: Status, at: Moment | None) -> str:
    """``25 Nov``; empty for never."""
    if at is None:
        return ""
    there = home(at, status.snapshot.settings.home_zone)
    return f"{there.day} {MONTHS[there.month - 1]}"
