"""Positions: where an assembly stands. Only changes of the tree write them, together with the tree."""

from sqlmodel import col

from buildlog.errors import Refused
from buildlog.record.actions.places import position_name
from buildlog.record.actions.storing.tree import MOST_SLOTS, children, counts_that_multiply
from buildlog.record.tables.tree import Assembly, Position
from buildlog.record.writer import Work
from buildlog.terms import Side
from buildlog.wording import few

_IN_USE = """
    SELECT p.id, 'a piece is fitted' FROM position p JOIN fitting f ON f.position_id = p.id
        WHERE p.assembly_id = :id AND f.until_at IS NULL
    UNION SELECT p.id, 'a step is done' FROM position p JOIN step_done d ON d.position_id = p.id
        WHERE p.assembly_id = :id AND d.reopened_at IS NULL
    UNION SELECT p.id, 'a fit is recorded' FROM position p JOIN fit_result r ON r.position_id = p.id
        WHERE p.assembly_id = :id
    ORDER BY 1, 2"""

Place = tuple[int | None, Side, int]


def lay_out(assembly: Assembly, work: Work) -> None:
    """Make the positions of an assembly and of all below it what the tree asks for; a retired one has none.

    Positions that go are retired, and refused while something is fitted or recorded there.
    """
    wanted = _wanted(assembly, work)
    standing = {_place(p): p for p in work.all(Position, col(Position.assembly_id) == assembly.id)}
    going = [p for place, p in standing.items() if p.retired_at is None and place not in wanted]
    _refuse_in_use(assembly, going, work)
    for position in going:
        work.change(position, retired_at=work.at)
    for place in wanted:
        if place in standing:
            work.change(standing[place], retired_at=None)
        else:
            parent_id, side, ordinal = place
            work.add(Position(assembly_id=assembly.id or 0, parent_id=parent_id, side=side, ordinal=ordinal))
    for child in children(assembly, work):
        lay_out(child, work)


def _place(position: Position) -> Place:
    return position.parent_id, Side(position.side), position.ordinal


def _wanted(assembly: Assembly, work: Work) -> list[Place]:
    if assembly.retired_at is not None:
        return []
    above: list[tuple[int | None, Side]] = [(None, Side.NONE)]
    if assembly.parent_id is not None:
        parents = work.all(
            Position, col(Position.assembly_id) == assembly.parent_id, col(Position.retired_at).is_(None)
        )
        above = [(p.id, Side(p.side)) for p in parents]
    sides = 2 if assembly.paired else 1
    if len(above) * sides * assembly.count > MOST_SLOTS:
        raise Refused(
            f"{counts_that_multiply(assembly, work)} makes {len(above) * sides * assembly.count:,} positions of "
            f"{assembly.code}: more than {MOST_SLOTS:,} are not kept. Lower one of the counts."
        )
    return [
        (parent_id, side, ordinal)
        for parent_id, inherited in above
        for side in ((Side.LEFT, Side.RIGHT) if assembly.paired else (inherited,))
        for ordinal in range(1, assembly.count + 1)
    ]


def _refuse_in_use(assembly: Assembly, going: list[Position], work: Work) -> None:
    if not going:
        return
    found = work.ask(_IN_USE, id=assembly.id).all()
    leaving = {position.id for position in going}
    held = [f"{position_name(work, row[0])} ({row[1]})" for row in found if row[0] in leaving]
    if held:
        raise Refused(f"These positions would go, and something is there: {few(held)}. Take it out or move it first.")
