"""What the line between the lists says of the thing under the cursor: why to order, what a reading corrected."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.screens.acts.named import spool_of
from buildlog.screens.widgets.facts_line import Fact
from buildlog.screens.widgets.tones import Tone
from buildlog.wording import grams, hours, near, span

if TYPE_CHECKING:
    from buildlog.status.spool_account import Correction
    from buildlog.status.status import Status


def told_of(status: Status, key: str) -> list[Fact]:
    """Facts about the row with this key; its most telling one first."""
    noun, _, rest = key.partition(":")
    if noun == "material":
        return [Fact(status.snapshot.material[int(rest)].name, status.stock.materials[int(rest)].reason, Tone.PLAIN)]
    if noun == "hours":
        left = status.hours
        spread = f"{hours(left.total_minutes)}, likely {hours(left.low_minutes)} to {hours(left.high_minutes)}"
        usual = " usual" if left.on_top.usual else ""
        return [Fact("left", spread), Fact("on top", f"× {left.on_top.factor:.1f}{usual}")]
    if noun == "spool":
        return _spool(status, int(rest))
    if noun == "bought item":
        return _item(status, int(rest))
    if noun == "line":
        lines = (line for basket in status.stock.baskets for line in basket.lines)
        line = next((line for line in lines if line.code == rest.partition("-")[2]), None)
        return [Fact(line.code, line.reason, Tone.PLAIN)] if line is not None else []
    if noun == "alert":
        alert = status.alerts[int(rest)]
        return [Fact(alert.level.value, alert.text, Tone.PLAIN)]
    return []


def _spool(status: Status, spool_id: int) -> list[Fact]:
    """Flagged before all; what the last reading said and corrected; how long it has lain open, what runs of it."""
    state, code = status.accounts.spools[spool_id], spool_of(status, spool_id).code
    held = f"{grams(state.net_mg)} ± {state.pm_mg / 1000:.0f}"
    facts = [Fact(code, state.flagged, Tone.CAUTION) if state.flagged else Fact(code, held)]
    if state.last_reading_at is None:
        facts.append(Fact("never weighed,", "tare assumed" if state.tare_assumed else "tare known", Tone.PLAIN))
    else:
        read_at = near(state.last_reading_at, status.now, status.snapshot.settings.home_zone)
        told = f"{corrected(state.correction)}, {read_at}" if state.correction is not None else read_at
        facts.append(Fact("read", told, Tone.PLAIN))
    if not state.sealed:
        facts.append(Fact("open", span(state.open_minutes), Tone.CAUTION if state.wet else Tone.PLAIN))
    if state.still_to_draw_mg:
        facts.append(Fact("still runs", grams(state.still_to_draw_mg), Tone.PLAIN))
    return facts


def corrected(correction: Correction) -> str:
    """``531 g, reckoned 540 g: -9 g``."""
    sign = "+" if correction.difference > 0 else ""
    apart = f": {sign}{grams(correction.difference)}" if correction.difference else ""
    return f"{grams(correction.read)}, reckoned {grams(correction.computed)}{apart}"


def _item(status: Status, item_id: int) -> list[Fact]:
    item = next(item for item in status.snapshot.bought_items if item.id == item_id)
    state = status.accounts.bought[item_id]
    flagged = Fact(item.code, state.flagged, Tone.CAUTION)
    facts = [flagged if state.flagged else Fact(item.code, item.name, Tone.PLAIN)]
    if state.correction is not None:
        told = f"{state.correction.read}, reckoned {state.correction.computed}"
        facts.append(Fact("counted", told, Tone.PLAIN))
    if state.on_order:
        facts.append(Fact("on order", f"{state.on_order} {item.unit.value}", Tone.PLAIN))
    return facts
