"""Journal groups and which of them stand, notes, and what was read from files."""

from collections.abc import Iterable
from typing import Generic, Protocol, TypeVar

from buildlog.facts.frozen import frozen
from buildlog.terms import Moment

UNDO, REDO, WISH = "undo", "redo", "wish"
SEVERAL = "several"
"""The action of a group of many wishes; its ``at`` is that of the first."""


@frozen
class JournalGroup:
    """One wish. ``undoes_id`` names the group that this one took back (or, for a redo, put back)."""

    id: int
    recorded_at: Moment
    at: Moment
    action: str
    summary: str
    program: str
    head: str
    kind: str
    undoes_id: int | None


class Turnable(Protocol):
    """What the journal says of a group, on the reading and on the writing side."""

    @property
    def id(self) -> int | None: ...
    @property
    def kind(self) -> str: ...
    @property
    def undoes_id(self) -> int | None: ...


G = TypeVar("G", bound=Turnable)


@frozen
class Standing(Generic[G]):
    """Wishes whose rows stand, oldest first, and what can be put back, newest last."""

    wishes: tuple[G, ...]
    redoable: tuple[G, ...]


def standing_of(groups: Iterable[G]) -> Standing[G]:
    """Replay groups, oldest first: a wish ends redo, an undo moves a wish over, a redo moves it back."""
    wishes: dict[int, G] = {}
    redoable: dict[int, G] = {}
    for group in groups:
        if group.kind == WISH:
            redoable.clear()
            wishes[group.id or 0] = group
        elif group.kind == UNDO and group.undoes_id in wishes:
            redoable[group.undoes_id] = wishes.pop(group.undoes_id)
        elif group.kind == REDO and group.undoes_id in redoable:
            wishes[group.undoes_id] = redoable.pop(group.undoes_id)
    return Standing(tuple(wishes[key] for key in sorted(wishes)), tuple(redoable.values()))


@frozen
class Note:
    id: int
    at: Moment
    noun: str
    row_id: int | None
    text: str
    photo: str


@frozen
class FileRow:
    """The form of one thing as it was last read from a file, to tell what changed where."""

    id: int
    noun: str
    key: str
    form: str
    read_at: Moment
    source: str
