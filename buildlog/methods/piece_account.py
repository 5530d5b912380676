"""The account of a lot of alike pieces: where they are, told from dated entries.

A count is kept as read: it says what lies in the box, and what it differs by is missing, or found again. At equal
moments entries come before counts. Whatever happened, quantity + found = in the box + fitted + lent + missing +
scrapped + split off. Kinds are the words of the record; moments are fixed-width text that sorts.
"""

from collections.abc import Iterable
from typing import NamedTuple


class Entry(NamedTuple):
    at: str
    kind: str
    pieces: int


class Pieces(NamedTuple):
    """How many pieces are where.

    ``out_of_use`` are among those in the box or fitted; ``found`` are those that no entry had known of.
    """

    box: int = 0
    fitted: int = 0
    lent: int = 0
    missing: int = 0
    scrapped: int = 0
    split_off: int = 0
    found: int = 0
    out_of_use: int = 0

    @property
    def free(self) -> int:
        """In the box and usable."""
        return max(0, min(self.box, self.box + self.fitted - self.out_of_use))

    @property
    def is_possible(self) -> bool:
        return min(self.box, self.fitted, self.lent, self.missing, self.out_of_use) >= 0


class Standing(NamedTuple):
    """What holds from a moment on, after the entry of that kind."""

    at: str
    kind: str
    pieces: Pieces


_MOVES = {  # kind: (from, to)
    "fitted": ("box", "fitted"),
    "taken out": ("fitted", "box"),
    "scrapped": ("box", "scrapped"),
    "missing": ("box", "missing"),
    "found": ("missing", "box"),
    "lent": ("box", "lent"),
    "returned": ("lent", "box"),
    "split off": ("box", "split_off"),
}


def standings(quantity: int, made_at: str, entries: Iterable[Entry]) -> tuple[Standing, ...]:
    """Every state of the account, oldest first; entries may come in any order, equal moments keep theirs."""
    now = Pieces(box=quantity)
    told = [Standing(made_at, "made", now)]
    for entry in sorted(entries, key=lambda e: (e.at, e.kind == "counted")):
        now = _after(now, entry)
        told.append(Standing(entry.at, entry.kind, now))
    return tuple(told)


def _after(now: Pieces, entry: Entry) -> Pieces:
    if entry.kind == "counted":
        return _counted(now, entry.pieces)
    if entry.kind == "out of use":
        return now._replace(out_of_use=now.out_of_use + entry.pieces)
    if entry.kind == "repaired":
        return now._replace(out_of_use=now.out_of_use - entry.pieces)
    if entry.kind not in _MOVES:
        return now
    source, target = _MOVES[entry.kind]
    moved = now._replace(**{source: getattr(now, source) - entry.pieces, target: getattr(now, target) + entry.pieces})
    if entry.kind in ("scrapped", "missing", "lent", "split off"):
        return moved._replace(out_of_use=min(moved.out_of_use, max(0, moved.box + moved.fitted)))
    return moved


def _counted(now: Pieces, read: int) -> Pieces:
    """A short count is missing pieces, a long one finds those first and then more than were known."""
    more = read - now.box
    back = min(max(0, now.missing), max(0, more))
    return now._replace(
        box=read,
        missing=now.missing - back + max(0, -more),
        found=now.found + max(0, more) - back,
        out_of_use=min(now.out_of_use, read + now.fitted),
    )


def least_free(told: tuple[Standing, ...], at: str) -> int:
    """How many pieces are free at a moment and at every later one that is told of."""
    return min([pieces_at(told, at).free, *(s.pieces.free for s in told if s.at > at)])


def pieces_at(told: tuple[Standing, ...], at: str) -> Pieces:
    """The state at a moment, what happened at it included; nothing before the lot was made."""
    state = Pieces()
    for standing in told:
        if standing.at > at:
            break
        state = standing.pieces
    return state
