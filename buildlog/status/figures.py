"""Figures to say in front of the camera: of this episode, and since the start."""

from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class Said:
    """From ``since`` up to ``until``. A print counts where it ended; pieces are good ones and seconds."""

    since: Moment | None
    until: Moment
    print_minutes: int
    drawn_mg: int
    pieces: int
    failures: int
    prints: int


@dataclass(frozen=True, slots=True)
class BuildFigures:
    build_id: int
    episode: Said
    all_time: Said


@dataclass(frozen=True, slots=True)
class Figures:
    by_build: dict[int, BuildFigures]


def figures_to_say(snapshot: Snapshot, now: Moment) -> Figures:
    raise NotImplementedError
