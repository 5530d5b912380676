"""On how many pieces of each lot a step is done, told from ticks and splits.

What is split off takes finished pieces along first. Moments are fixed-width text that sorts; at equal moments
ticks come before splits.
"""

from collections.abc import Iterable
from typing import NamedTuple


class Family(NamedTuple):
    """A lot; ``parent`` is the lot that it was split from at ``made_at``."""

    lot: int
    parent: int | None
    pieces: int
    made_at: str


class Tick(NamedTuple):
    lot: int
    at: str
    pieces: int


def done_by_lot(lots: Iterable[Family], ticks: Iterable[Tick]) -> dict[int, int]:
    """Pieces done by lot, of a whole family: parents must be among ``lots``, or have no ticks."""
    events: list[tuple[str, int, int, int | None, int]] = [(t.at, 0, t.lot, None, t.pieces) for t in ticks]
    left: dict[int, int] = {}
    for lot in lots:
        left[lot.lot] = lot.pieces
        if lot.parent is not None:
            events.append((lot.made_at, 1, lot.lot, lot.parent, lot.pieces))
    done = dict.fromkeys(left, 0)
    for _, _, lot_id, parent, pieces in sorted(events, key=lambda event: event[:3]):
        if parent is None:
            done[lot_id] = min(left[lot_id], done[lot_id] + pieces)
        elif parent in done:
            done[lot_id] = min(pieces, done[parent])
            done[parent] -= done[lot_id]
            left[parent] -= pieces
    return done
