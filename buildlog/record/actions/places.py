"""Finds positions and slots as a person names them, and names them back."""

from dataclasses import dataclass
from typing import TypeVar

from sqlmodel import col

from buildlog.errors import NotFound, Refused
from buildlog.facts.naming import counting_ordinals
from buildlog.facts.slot_numbers import slot_sides
from buildlog.proposals.places import Place, SlotPlace
from buildlog.record.tables import Row
from buildlog.record.tables.tree import Assembly, Part, Position, Usage
from buildlog.record.writer import Work
from buildlog.terms import Side
from buildlog.wording import few

T = TypeVar("T", bound=Row)
MOST_NAMED = 6


@dataclass(frozen=True, slots=True)
class SlotKey:
    """A slot as found: rows, number from 1, and the side of the piece it takes."""

    position: Position
    usage: Usage
    part: Part
    number: int
    side: Side


def by_prefix(work: Work, table: type[T], text: str, noun: str) -> T:
    """The row of that code, or the only one whose code begins so."""
    wanted = text.strip().upper()
    exact = work.first(table, code=wanted)
    if exact is not None:
        return exact
    column = col(table.code)  # type: ignore[attr-defined]  # asked of tables with a code only
    begun = work.all(table, column.startswith(wanted, autoescape=True), order_by=column)
    live = [row for row in begun if getattr(row, "retired_at", None) is None]
    if len(live) == 1:
        return live[0]
    if live:
        raise NotFound(noun, wanted, tuple(row.code for row in live[:MOST_NAMED]))  # type: ignore[attr-defined]  # as above
    return work.by_code(table, wanted, noun)


def place_of(work: Work, position: Position) -> Place:
    """How a position is named: ordinals of the assemblies on the way down that come more than once."""
    ordinals = counting_ordinals(
        position, lambda id_: work.get(Assembly, id_).count, lambda id_: work.get(Position, id_)
    )
    return Place(work.get(Assembly, position.assembly_id).code, position.side, ordinals)


def position_name(work: Work, position_id: int) -> str:
    return str(place_of(work, work.get(Position, position_id)))


def positions_at(work: Work, place: Place) -> list[Position]:
    """All live positions that a name may mean."""
    assembly = by_prefix(work, Assembly, place.assembly, "assembly")
    found = []
    live = work.all(Position, assembly_id=assembly.id, retired_at=None, order_by=Position.id)
    for position in live:
        named = place_of(work, position)
        begins = named.ordinals[: len(place.ordinals)] == place.ordinals
        if begins and place.side in (None, position.side):
            found.append(position)
    if not found:
        near = tuple(str(place_of(work, position)) for position in live[:MOST_NAMED])
        raise NotFound("position", str(place), near)
    return found


def position_at(work: Work, place: Place) -> Position:
    """The one position of that name; Refused names all that it may mean."""
    found = positions_at(work, place)
    if len(found) > 1:
        names = [position_name(work, position.id or 0) for position in found]
        raise Refused(f"«{place}» may be {few(names)}: say which one.")
    return found[0]


def slots_of(work: Work, position: Position, usage: Usage) -> list[SlotKey]:
    """All slots of a usage in a position, in order of number."""
    part = work.get(Part, usage.part_id)
    sides = slot_sides(usage.side_rule, usage.quantity, position.side, part.handed)
    return [SlotKey(position, usage, part, number, side) for number, side in enumerate(sides, 1)]


def slots_at(work: Work, named: SlotPlace) -> list[SlotKey]:
    """The slots that a name may mean: of a part in one position, narrowed by side and number."""
    position = position_at(work, named.place)
    part = by_prefix(work, Part, named.part, "part")
    found = [slot for usage in live_usages(work, position, part) for slot in slots_of(work, position, usage)]
    place = position_name(work, position.id or 0)
    if not found:
        used = [slot.part.code for usage in live_usages(work, position) for slot in slots_of(work, position, usage)]
        known = f"it takes {', '.join(sorted(set(used)))}" if used else "say first that it goes there, as a usage"
        raise Refused(f"{place} has no slot for {part.code}: {known}.")
    fitting = [
        slot
        for slot in found
        if named.number in (None, slot.number) and (named.side is None or named.side is slot.side)
    ]
    if not fitting:
        numbers = ", ".join(f"{slot.number}{slot.side if slot.side is not Side.NONE else ''}" for slot in found)
        raise Refused(f"{place} has for {part.code} only the slots {numbers}: name one of these.")
    return fitting


def live_usages(work: Work, position: Position, part: Part | None = None) -> list[Usage]:
    """Usages of a position's assembly that hold at the moment of the work."""
    usages = work.all(Usage, assembly_id=position.assembly_id)
    return [
        usage
        for usage in usages
        if (usage.ended_at is None or usage.ended_at > work.at) and (part is None or usage.part_id == part.id)
    ]


def slot_name(work: Work, position_id: int, usage_id: int, number: int) -> str:
    """``TOE R.2 / FL07 3``; the number is left out where there is only one."""
    position, usage = work.get(Position, position_id), work.get(Usage, usage_id)
    part = work.get(Part, usage.part_id)
    alone = len(slots_of(work, position, usage)) == 1
    return str(SlotPlace(place_of(work, position), part.code, None, None if alone else number))


def below(work: Work, position: Position) -> list[Position]:
    """The position and every live one below it."""
    found, level = [position], [position]
    while level:
        ids = [step.id for step in level]
        level = work.all(Position, col(Position.parent_id).in_(ids), retired_at=None)
        found += level
    return found
