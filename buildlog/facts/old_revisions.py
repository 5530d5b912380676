"""What pieces of an older revision are good for, told from what every later revision said of its side."""

from collections.abc import Iterable
from typing import Protocol

from buildlog.terms import OldGoodFor, Side


class Answers(Protocol):
    """A revision row, of the facts or of the tables."""

    @property
    def id(self) -> int | None: ...
    @property
    def since_at(self) -> str: ...
    @property
    def old_left(self) -> OldGoodFor | None: ...
    @property
    def old_right(self) -> OldGoodFor | None: ...


_WORSE = (OldGoodFor.STILL_GOOD, OldGoodFor.STAND_INS, OldGoodFor.NO_GOOD)


def in_order(revisions: Iterable[Answers]) -> list[Answers]:
    """Revisions of one part, oldest first."""
    return sorted(revisions, key=lambda revision: (revision.since_at, revision.id or 0))


def good_for(revisions: Iterable[Answers], revision_id: int, side: Side) -> OldGoodFor:
    """*Still good* when every later revision says so for that side, else the worst later answer."""
    ordered = in_order(revisions)
    later = ordered[[revision.id for revision in ordered].index(revision_id) + 1 :]
    answers = [revision.old_right if side is Side.RIGHT else revision.old_left for revision in later]
    return max((answer or OldGoodFor.STILL_GOOD for answer in answers), key=_WORSE.index, default=_WORSE[0])
