"""Where boxes stand, what lies in them, and what is away."""

from buildlog.facts.naming import lot_name
from buildlog.report.boxes_out import damaged_table, spares_table
from buildlog.report.table import Column, Table
from buildlog.status.boxes import Away, Boxes, lay_boxes
from buildlog.status.status import Status
from buildlog.wording import day

NOWHERE = "in no box"
NO_BOX = "There is no box yet: `buildlog add box CODE NAME` adds one."


def boxes_tables(status: Status) -> tuple[Table, ...]:
    """Boxes, missing, lent, damaged, spares."""
    laid = lay_boxes(status)
    return (
        _boxes(status, laid),
        _away(status, "missing", "Missing", laid.missing),
        _away(status, "lent", "Lent", laid.lent),
        damaged_table(status),
        spares_table(status),
    )


def _boxes(status: Status, laid: Boxes) -> Table:
    known = {box.id: box for box in status.snapshot.boxes}
    rows = []
    for box_id, contents in laid.of.items():
        box = known.get(box_id or 0)
        named = (box.code, box.name, box.place) if box is not None else (NOWHERE, "", "")
        rows.append((*named, contents.pieces, len(contents.spool_ids), len(contents.item_ids)))
    columns = (
        Column("box", "Box"),
        Column("name", "Name"),
        Column("place", "Stands"),
        Column("pieces", "Pieces", right=True),
        Column("spools", "Spools", right=True),
        Column("items", "Bought items", right=True),
    )
    return Table("boxes", "Boxes", columns, tuple(rows), NO_BOX)


def _away(status: Status, key: str, title: str, away: tuple[Away, ...]) -> Table:
    snapshot, zone = status.snapshot, status.snapshot.settings.home_zone
    rows = tuple((lot_name(snapshot, one.lot), one.pieces, one.since, one.told) for one in away)
    columns = (
        Column("lot", "Piece"),
        Column("pieces", "Pieces", right=True),
        Column("since", "Since", lambda at: day(at, zone)),
        Column("told", "Told"),
    )
    return Table(key, title, columns, rows, f"Nothing is {key}.")
