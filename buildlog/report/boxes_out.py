"""The label list of a box, and the repair kit for the van, as Markdown."""

from collections.abc import Iterable

from buildlog.errors import NotFound
from buildlog.facts.naming import lot_name, part_name
from buildlog.facts.pieces import Box
from buildlog.report.table import Column, Table, escape, to_markdown
from buildlog.status.boxes import Contents, lay_boxes
from buildlog.status.status import Status
from buildlog.terms import Level, Side
from buildlog.wording import day, day_and_clock, grams

MOST_ROWS = 45
"""Our choice: so many lines go on one printed page; what is more is counted below them."""


def box_named(status: Status, code: str) -> Box:
    """The box of that code; NotFound names those that are there."""
    boxes = [box for box in status.snapshot.boxes if box.retired_at is None]
    found = next((box for box in boxes if box.code == code.strip().upper()), None)
    if found is None:
        raise NotFound("box", code, tuple(box.code for box in boxes))
    return found


def box_label(status: Status, code: str) -> str:
    """One page: name, place, and all that lies in it; ends with a line break."""
    box = box_named(status, code)
    zone = status.snapshot.settings.home_zone
    stands = f"Stands: {box.place}. " if box.place else ""
    parts = [
        f"# {escape(box.code)}",
        escape(box.name),
        escape(f"{stands}As of {day_and_clock(status.now, zone)}."),
        to_markdown(contents_table(status, lay_boxes(status).of.get(box.id, Contents())), title=False),
    ]
    return "\n\n".join(parts) + "\n"


def contents_table(status: Status, contents: Contents, most: int = MOST_ROWS) -> Table:
    """How many, what, which: pieces, then spools, then bought items."""
    snapshot = status.snapshot
    spools = {spool.id: spool for spool in snapshot.spools}
    items = {item.id: item for item in snapshot.bought_items}
    rows: list[tuple[str, str, str]] = [
        (
            str(lying.pieces),
            lot_name(snapshot, lying.lot),
            snapshot.part[lying.lot.part_id].name + (", by default" if lying.by_default else ""),
        )
        for lying in contents.lots
    ]
    for spool_id in contents.spool_ids:
        net = status.accounts.spools[spool_id].net_mg
        rows.append((grams(net), spools[spool_id].code, snapshot.material[spools[spool_id].material_id].name))
    for item_id in contents.item_ids:
        rows.append((_amount(status, item_id), items[item_id].code, items[item_id].name))
    columns = (Column("amount", "How many", right=True), Column("code", "What"), Column("name", "Which"))
    remarks = (f"… and {len(rows) - most} more lines.",) if len(rows) > most else ()
    return Table(
        "contents", "In the box", columns, tuple(rows[:most]), "Nothing lies in it by the book.", remarks=remarks
    )


def repair_kit(status: Status) -> str:
    """What to take in the van: spares wanted, what is damaged, and what repairs use; ends with a line break."""
    zone = status.snapshot.settings.home_zone
    tables = (spares_table(status), damaged_table(status), repairs_table(status))
    parts = [f"# Repair kit, {day_and_clock(status.now, zone)}"]
    parts += [to_markdown(table) for table in tables]
    return "\n\n".join(parts) + "\n"


def spares_table(status: Status) -> Table:
    snapshot = status.snapshot
    rows = tuple(
        (part_name(snapshot, part_id, Side(side)), snapshot.part[part_id].name, wanted, wanted - to_get, to_get)
        for part_id, side, wanted, to_get in lay_boxes(status).spares
    )
    columns = (
        Column("part", "Part"),
        Column("name", "Name"),
        Column("wanted", "Wanted", right=True),
        Column("there", "There or under way", right=True),
        Column("to_get", "Still to get", right=True),
    )
    return Table("spares", "Spares wanted", columns, rows, "No spares are wanted.")


def damaged_table(status: Status) -> Table:
    snapshot, zone = status.snapshot, status.snapshot.settings.home_zone
    rows = tuple(
        (
            lot_name(snapshot, lot),
            snapshot.part[lot.part_id].name,
            damage.place,
            damage.why,
            "out of use" if damage.out_of_use else "repaired for now",
            damage.at,
        )
        for lot, damage in lay_boxes(status).damaged
    )
    columns = (
        Column("lot", "Piece"),
        Column("name", "Name"),
        Column("place", "Broke at"),
        Column("why", "Why"),
        Column("state", "Now"),
        Column("at", "Since", lambda at: day(at, zone)),
    )
    return Table("damaged", "Damaged", columns, rows, "Nothing is damaged.")


def repairs_table(status: Status) -> Table:
    """Bought items that steps of rework use, and those drawn for a repair."""
    items = {item.id: item for item in status.snapshot.bought_items}
    rows = tuple(
        (items[item_id].code, items[item_id].name, used, _amount(status, item_id))
        for item_id, used in lay_boxes(status).used_in_repairs
    )
    columns = (
        Column("item", "Item"),
        Column("name", "Name"),
        Column("used", "Used in repairs", right=True),
        Column("there", "There", right=True),
    )
    return Table("repairs", "For repairs", columns, rows, "No bought item was used in a repair yet.")


def _amount(status: Status, item_id: int) -> str:
    state = status.accounts.bought[item_id]
    item: Iterable[str] = (i.unit.value for i in status.snapshot.bought_items if i.id == item_id)
    if state.amount is not None:
        return f"{state.amount} {next(iter(item))}"
    return state.level.value if isinstance(state.level, Level) else "not looked at yet"
