"""Mirror as an editor: what can be edited where its cursor stands."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from buildlog.screens.acts import revising, tree
from buildlog.screens.acts.assemblies import add_with_parts
from buildlog.screens.acts.slots import put_stand_in
from buildlog.screens.acts.things import add_thing, edit_thing, retire_thing
from buildlog.screens.dialogs.choose import Choice
from buildlog.terms import Side

if TYPE_CHECKING:
    from buildlog.screens.mirror_edit_keys import MirrorEditKeys

NO_ASSEMBLY = "There is no assembly here yet: {edit_here} adds the first, {add_with_parts} adds one with its parts."
HERE = (
    ("usage", "usages", "which parts go in, and how many"),
    ("step", "steps", "bench work, in order"),
    ("wait", "waits", "what it waits for"),
    ("question", "questions", "what is undecided"),
    ("fit test", "fits", "what must be checked"),
)
"""What belongs to an assembly: noun, what it is called in the list, what it is."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where the cursor stands: the assembly, the part and side of the blocker if there is one."""

    assembly_id: int
    part_id: int | None
    side: Side | None


def place_here(screen: MirrorEditKeys) -> Place | None:
    """The blocker under the cursor, else the row of the tree; None where there is neither."""
    status, leaf, row = screen.status, screen.leaf_here(), screen.row_here()
    if status is None:
        return None
    if leaf is not None:
        position = status.snapshot.position[leaf.position_id]
        part_id = leaf.about.id if leaf.about.noun == "part" else None
        return Place(position.assembly_id, part_id, None if position.side is Side.NONE else position.side)
    return None if row is None else Place(row.assembly_id, None, None)


async def edit_here(screen: MirrorEditKeys) -> None:
    """One list of all that can be edited; where the tree is empty, its first assembly."""
    place = place_here(screen)
    if place is None:
        await add_thing(screen, "assembly")
        return
    choices = _choices(screen, place)
    act = await screen.pick(f"Edit at {_code(screen, place)}", choices)
    if act is not None:
        await act()


async def move_here(screen: MirrorEditKeys) -> None:
    place = place_here(screen)
    if place is None:
        screen.live.tell(NO_ASSEMBLY)
    else:
        await tree.move_assembly(screen, place.assembly_id)


async def revise_here(screen: MirrorEditKeys) -> None:
    part_id = await _part_here(screen, place_here(screen), "Revise which part?")
    if part_id is not None:
        await revising.revise_part(screen, part_id)


async def add_beneath(screen: MirrorEditKeys) -> None:
    """With its parts, beneath the row; the first one of an empty tree too."""
    place = place_here(screen)
    screen.want(await add_with_parts(screen, None if place is None else _code(screen, place)))


Act = Callable[[], Awaitable[None]]


def _choices(screen: MirrorEditKeys, place: Place) -> list[Choice[Act]]:
    """What is done most often first: the first nine have a number."""
    code, assembly_id = _code(screen, place), place.assembly_id

    def here(noun: str) -> Act:
        return lambda: tree.edit_what_is_here(screen, noun, assembly_id, place.side)

    async def supersede() -> None:
        part_id = await _part_here(screen, place, "Supersede which part?")
        if part_id is not None:
            await revising.supersede_part(screen, part_id)

    async def change() -> None:
        await edit_thing(screen, "assembly", code)

    return [
        *(Choice(here(noun), label, what) for noun, label, what in HERE),
        Choice(here("part"), "parts", "their figures; a new part here"),
        Choice(lambda: revise_here(screen), "revise a part", "a new revision: what are old ones good for?"),
        Choice(supersede, "supersede a part", "another part in its place"),
        Choice(lambda: put_stand_in(screen, screen.positions_here()), "stand-in", "something temporary in a slot"),
        Choice(lambda: add_beneath(screen), "new assembly beneath", "with its parts, by one form"),
        Choice(change, f"change {code}", "its name, count, how it is joined, box"),
        Choice(lambda: tree.move_assembly(screen, assembly_id), "move it", "beneath another assembly"),
        Choice(lambda: tree.rank_assembly(screen, assembly_id), "rank it", "a lower number is served first"),
        Choice(lambda: tree.set_lead(screen, assembly_id), "lead side", "and the fit that proves it"),
        Choice(lambda: retire_thing(screen, "assembly", code), "retire it", "its past stays"),
    ]


async def _part_here(screen: MirrorEditKeys, place: Place | None, title: str) -> int | None:
    """The part of the blocker, else one of those in the assembly and beneath it, nearest first."""
    status = screen.status
    if status is None:
        return None
    if place is None:
        screen.live.tell(NO_ASSEMBLY)
        return None
    if place.part_id is not None:
        return place.part_id
    snapshot = status.snapshot
    homes = [snapshot.position[position_id].assembly_id for position_id in screen.positions_here()]
    order = {home: i for i, home in enumerate(dict.fromkeys((place.assembly_id, *homes)))}
    usages = [usage for usage in snapshot.usages if usage.ended_at is None and usage.assembly_id in order]
    usages.sort(key=lambda usage: order[usage.assembly_id])
    parts = {usage.part_id: snapshot.assembly[usage.assembly_id].code for usage in reversed(usages)}
    choices = [
        Choice(part_id, snapshot.part[part_id].code, f"{snapshot.part[part_id].name}, in {home}")
        for part_id, home in reversed(parts.items())
    ]
    return await screen.choose(title, choices, empty="No part is used here yet: {edit_here} adds a usage.")


def _code(screen: MirrorEditKeys, place: Place) -> str:
    assert screen.status is not None
    return screen.status.snapshot.assembly[place.assembly_id].code
