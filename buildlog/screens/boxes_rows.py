"""The lines of Boxes: the boxes and lists at the left, what is in one of them at the right."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.facts.naming import lot_name, part_name
from buildlog.screens.acts.bought import told_of_item
from buildlog.screens.lines import BETWEEN
from buildlog.screens.widgets.facts_line import Fact
from buildlog.screens.widgets.rows import Cell, GridRow, group_row
from buildlog.screens.widgets.tones import Tone
from buildlog.terms import Side
from buildlog.wording import count, day, grams, span

if TYPE_CHECKING:
    from buildlog.facts.pieces import Lot
    from buildlog.status.boxes import Away, Boxes, Contents
    from buildlog.status.more_hands import HelperStep
    from buildlog.status.status import Status

NOWHERE = "nowhere:0"
LISTS = {
    "missing": "Nothing is missing.",
    "lent": "Nothing is lent.",
    "damaged": "Nothing is damaged.",
    "spares": "No spares are wanted: a usage says how many are.",
    "repairs": "No bought item was used in a repair yet.",
    "helper": "No step that a helper can do, or that needs two, can be done now.",
}
TITLES = {"spares": "spares wanted", "repairs": "used in repairs", "helper": "for a helper"}


def place_rows(status: Status, laid: Boxes, helping: tuple[HelperStep, ...]) -> list[GridRow]:
    """Keys ``box:ID``, ``nowhere:0``, ``list:NAME``."""
    boxes = [box for box in status.snapshot.boxes if box.retired_at is None]
    rows = [GridRow(f"box:{box.id}", (Cell(box.code), Cell(_lines(laid.of[box.id]), Tone.FAINT))) for box in boxes]
    if None in laid.of:
        rows.append(GridRow(NOWHERE, (Cell("in no box"), Cell(_lines(laid.of[None]), Tone.FAINT))))
    counts = {
        "missing": len(laid.missing),
        "lent": len(laid.lent),
        "damaged": len(laid.damaged),
        "spares": len(laid.spares),
        "repairs": len(laid.used_in_repairs),
        "helper": len(helping),
    }
    rows.append(group_row("group:lists", "Lists"))
    rows += [
        GridRow(f"list:{name}", (Cell(TITLES.get(name, name)), Cell(str(number or ""), Tone.FAINT)))
        for name, number in counts.items()
    ]
    return rows


def _lines(contents: Contents) -> str:
    return str(len(contents.lots) + len(contents.spool_ids) + len(contents.item_ids) or "")


def headline(status: Status, laid: Boxes, place: str) -> list[Fact]:
    """What the box is and where it stands; of a list what it is."""
    noun, _, name = place.partition(":")
    if noun == "box":
        box = next(box for box in status.snapshot.boxes if box.id == int(name))
        contents = laid.of[box.id]
        return [
            Fact(box.code, box.name),
            Fact("stands", box.place or "not said: {place_box} says it", Tone.PLAIN if box.place else Tone.FAINT),
            Fact("holds", _held(contents)),
        ]
    return (
        [Fact("in no box", "{move_pieces} puts it into one")]
        if place == NOWHERE
        else [Fact(TITLES.get(name, name), "")]
    )


def _held(contents: Contents) -> str:
    """``12 pieces, 3 spools``."""
    held = ((contents.pieces, "piece"), (len(contents.spool_ids), "spool"), (len(contents.item_ids), "bought item"))
    return ", ".join(count(number, noun) for number, noun in held if number) or "nothing"


def empty_words(place: str) -> str:
    return LISTS.get(place.removeprefix("list:"), "Nothing lies in it by the book.")


def lying_rows(status: Status, laid: Boxes, helping: tuple[HelperStep, ...], place: str) -> list[GridRow]:
    """Keys ``lot:ID``, ``spool:ID``, ``bought item:ID``, ``spare:PART-SIDE``, ``helper:NAME``."""
    noun, _, name = place.partition(":")
    if noun in ("box", "nowhere"):
        return _contents(status, laid.of.get(int(name) or None))
    if name == "missing":
        return _away(status, laid.missing)
    if name == "lent":
        return _away(status, laid.lent)
    if name == "damaged":
        return _damaged(status, laid)
    if name == "spares":
        return _spares(status, laid)
    if name == "repairs":
        return [_item(status, item_id, f"{used} used so far") for item_id, used in laid.used_in_repairs]
    return [_helper(found) for found in helping]


def _contents(status: Status, contents: Contents | None) -> list[GridRow]:
    if contents is None:
        return []
    snapshot = status.snapshot
    rows = [_lot(status, x.lot, x.pieces, "by default" if x.by_default else "") for x in contents.lots]
    spools = {spool.id: spool for spool in snapshot.spools}
    for spool_id in contents.spool_ids:
        material = snapshot.material[spools[spool_id].material_id]
        net = Cell(grams(status.accounts.spools[spool_id].net_mg))
        rows.append(GridRow(f"spool:{spool_id}", (net, Cell(spools[spool_id].code), Cell(material.name, Tone.FAINT))))
    return rows + [_item(status, item_id, "") for item_id in contents.item_ids]


def _lot(status: Status, lot: Lot, pieces: int, told: str) -> GridRow:
    snapshot = status.snapshot
    rest = (told, snapshot.part[lot.part_id].name, f"revision {snapshot.revision[lot.revision_id].letter}")
    named = Cell(BETWEEN.join(part for part in rest if part), Tone.FAINT)
    return GridRow(f"lot:{lot.id}", (Cell(str(pieces)), Cell(lot_name(snapshot, lot)), named))


def _item(status: Status, item_id: int, told: str) -> GridRow:
    item = next(item for item in status.snapshot.bought_items if item.id == item_id)
    rest = BETWEEN.join(part for part in (item.name, told) if part)
    return GridRow(
        f"bought item:{item_id}", (Cell(told_of_item(status, item)), Cell(item.code), Cell(rest, Tone.FAINT))
    )


def _away(status: Status, away: tuple[Away, ...]) -> list[GridRow]:
    zone = status.snapshot.settings.home_zone
    return [
        _lot(status, one.lot, one.pieces, BETWEEN.join(filter(None, (one.told, f"since {day(one.since, zone)}"))))
        for one in away
    ]


def _damaged(status: Status, laid: Boxes) -> list[GridRow]:
    """One line a lot, whatever broke at it."""
    by_lot: dict[int, list[str]] = {}
    lots = {lot.id: lot for lot, _ in laid.damaged}
    for lot, damage in laid.damaged:
        why = f" ({damage.why})" if damage.why else ""
        state = "out of use" if damage.out_of_use else "repaired for now"
        by_lot.setdefault(lot.id, []).append(f"{damage.place}{why}, {state}")
    return [_lot(status, lots[lot_id], 1, "; ".join(told)) for lot_id, told in by_lot.items()]


def _spares(status: Status, laid: Boxes) -> list[GridRow]:
    rows = []
    for part_id, side, wanted, to_get in laid.spares:
        name = part_name(status.snapshot, part_id, Side(side))
        there = "all there or under way" if not to_get else f"{to_get} still to get"
        told = Cell(f"{status.snapshot.part[part_id].name}{BETWEEN}{there}", Tone.FAINT)
        rows.append(GridRow(f"spare:{part_id}{side}", (Cell(str(wanted)), Cell(name), told)))
    return rows


def _helper(found: HelperStep) -> GridRow:
    hands = "two of you" if found.doable.needs_two else "one can"
    told = BETWEEN.join((found.where, hands, found.step.code))
    cells = (Cell(span(found.doable.minutes)), Cell(found.doable.text), Cell(told, Tone.FAINT))
    return GridRow(f"helper:{found.name}", cells)
