"""A line that is no fact: a note on the thing that it names first, else on the build."""

from collections.abc import Iterator

from buildlog.intake.quick.known import Known
from buildlog.intake.quick.moments_said import leading
from buildlog.intake.quick.words import Word, words_of
from buildlog.proposals.field import printable
from buildlog.proposals.moments import MomentReader
from buildlog.proposals.notes import AddNote
from buildlog.terms import Moment

_NOUNS = (
    "build", "assembly", "part", "printer", "spool", "material", "print file", "fit test", "step", "question",
    "bought item", "box", "resource", "supplier", "milestone",
)  # fmt: skip


def note_of(text: str, known: Known, read: MomentReader) -> tuple[AddNote | None, Moment | None]:
    """The note and when it was; None for no words. A moment that the line begins with is not part of the text."""
    words = words_of(text)
    when = leading(words, read)
    at = when.at if when is not None else None
    if when is not None and at is not None:
        text = text[words[when.end].start :]
        words = words[when.end :]
    text = printable(text, 4000)
    return (AddNote(text=text, about=about(words, known)) if text else None), at


def about(words: tuple[Word, ...], known: Known) -> str:
    """The first thing that is named by its code, as ``part FL07``; else the build in view, or the first in rank."""
    for word in words:
        found = next(_named(word, known), "")
        if found:
            return found
    return f"build {known.main_build.code}" if known.main_build is not None else ""


def _named(word: Word, known: Known) -> Iterator[str]:
    if word.bare in known.marks:
        yield known.marks[word.bare]
    is_code = word.text.strip(".,;:!?()«»\"'").isupper() or any(c.isdigit() for c in word.bare)
    for noun in _NOUNS if is_code else ():
        code = known.by_code.get((noun, word.bare))
        if code is not None:
            yield f"{noun} {code}"
