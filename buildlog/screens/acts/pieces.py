"""Pieces made by hand, found again, repaired."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.facts.naming import part_name
from buildlog.proposals.lots import FoundPieces, MakePieces, RepairPieces
from buildlog.proposals.places import PiecesNamed
from buildlog.terms import Side

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen
    from buildlog.status.status import Status


async def make_pieces(screen: LiveScreen, part_id: int, side: Side, pieces: int) -> None:
    if screen.status is None:
        return
    part = screen.status.snapshot.part[part_id]
    values = {"part": part.code, "side": side.value if part.handed else None, "pieces": pieces}
    await screen.ask(MakePieces, f"How many {part.name} were made?", values=values, only=("pieces", "box"))


async def found_pieces(screen: LiveScreen, part_id: int, side: Side) -> None:
    if screen.status is not None:
        values = {"what": _named(screen.status, part_id, side)}
        title = f"{part_name(screen.status.snapshot, part_id, side)}: found again"
        await screen.ask(FoundPieces, title, values=values, only=("pieces", "box"))


async def repair_pieces(screen: LiveScreen, part_id: int, side: Side) -> None:
    if screen.status is not None:
        values = {"what": _named(screen.status, part_id, side)}
        title = f"{part_name(screen.status.snapshot, part_id, side)}: repaired"
        await screen.ask(RepairPieces, title, values=values, only=("pieces",))


def _named(status: Status, part_id: int, side: Side) -> PiecesNamed:
    return PiecesNamed(code=status.snapshot.part[part_id].code, side=side if side is not Side.NONE else None)
