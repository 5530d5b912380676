"""How far a shot is at a moment, and whether it still holds its step: told from any rows that have its moments."""

from enum import StrEnum
from typing import Protocol

from buildlog.terms import Side


class ShotState(StrEnum):
    TO_FILM = "to film"
    FILMED = "filmed"
    SAFE = "footage safe"
    OVERRULED = "gone on without"


class Filmed(Protocol):
    @property
    def filmed_at(self) -> str | None: ...
    @property
    def safe_at(self) -> str | None: ...
    @property
    def overruled_at(self) -> str | None: ...


def shot_state(shot: Filmed, at: str) -> ShotState:
    """What was true at that moment, from the dated facts."""
    if shot.safe_at is not None and shot.safe_at <= at:
        return ShotState.SAFE
    if shot.filmed_at is not None and shot.filmed_at <= at:
        return ShotState.FILMED
    if shot.overruled_at is not None and shot.overruled_at <= at:
        return ShotState.OVERRULED
    return ShotState.TO_FILM


def still_holds(shot: Filmed, at: str) -> bool:
    """Until the footage is copied and looked at, or a person went on without it."""
    overruled = shot.overruled_at is not None and shot.overruled_at <= at
    return not overruled and shot_state(shot, at) is not ShotState.SAFE


def is_of_side(wanted: Side | None, side: Side) -> bool:
    """Whether a shot of one side (None: of any) is about a place or piece of that side."""
    return wanted is None or side in (wanted, Side.NONE)
