"""Reads one line in plain words: one wish and when it happened, or what it lacks, or a free note.

read = read_line("weighed BLACK-3 812 g", Known(snapshot), moment_reader(now, zone))
read.wish           # WeighSpool(spool="BLACK-3", gross=812_000); None where something is missing
read.lacks          # «weigh spool: grams», or which of several is meant
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from buildlog.intake.quick.free_notes import note_of
from buildlog.intake.quick.here import Context
from buildlog.intake.quick.known import Known
from buildlog.intake.quick.matching import Matcher, Way
from buildlog.intake.quick.moments_said import Said, moments_in
from buildlog.intake.quick.settling import Open, settled
from buildlog.intake.quick.shapes import Shape, Slot, shapes
from buildlog.intake.quick.words import Word, said, words_of
from buildlog.proposals.field import printable, quoted
from buildlog.proposals.moments import MomentReader
from buildlog.proposals.wishes import wishes
from buildlog.terms import Moment
from buildlog.wording import few

MOST_WORDS = 60
"""Our choice: what is longer is no fact in one line."""
NOTE_WORDS = 3
"""After the verb of a fact, so many words that say nothing of one make it a note."""
AS_NOTE = re.compile(r"\s*notes?\s*:\s*|\s*note\s+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Read:
    """``wish`` is whole, or ``lacks`` says in words what is missing; ``choices`` are names that it may be.

    ``told`` are the fields understood, with label and value as they may be typed; ``means`` says what the line does.
    """

    means: str
    wish: Any = None
    at: Moment | None = None
    told: tuple[tuple[str, str], ...] = ()
    lacks: str = ""
    choices: tuple[str, ...] = ()

    @property
    def plainly(self) -> str:
        """What the line says, with what is missing: «put a spool on the scale: spool BLACK-3; missing: grams»."""
        told = ", ".join(f"{label} {value}" for label, value in self.told)
        said = f"{self.means}: {told}" if self.means and told else self.means
        return "; ".join(part for part in (said, f"missing: {self.lacks}" if self.lacks else "") if part)


def read_line(text: str, known: Known, read: MomentReader) -> Read:
    """Never raises: any text is a fact, a note, or lacks something."""
    try:
        text = printable(text, 4000)
    except ValueError as error:
        return Read("write a note", lacks=f"a shorter text: it {error}")
    words = words_of(text)
    if not words:
        return Read("", lacks="a fact in words, or a note")
    forced = AS_NOTE.match(text)
    if forced:
        return _note(text[forced.end() :], known, read)
    begun = [verb for shape in shapes() for verb in shape.verbs if verb.startswith(words[0].bare)]
    if len(words) == 1 and begun and words[0].bare not in begun:
        return Read("", lacks=f"the rest of the first word: {few(tuple(dict.fromkeys(begun)))}")
    found = _best(words, known, read) if len(words) <= MOST_WORDS else None
    if found is None or _is_a_note(words, found[0]):
        return _note(text, known, read)
    return _told(*found, known)


def _best(words: tuple[Word, ...], known: Known, read: MomentReader) -> tuple[Way, Said | None, Open | None] | None:
    """The way that says most of the line; of alike ones the one that tells when by more words, then the first."""
    best: tuple[Way, Said | None, Open | None] | None = None
    most: Any = None
    spoken = {word.bare for word in words}
    wanted = [shape for shape in shapes() if spoken & set(shape.verbs)]
    for when in (*_moments(words, read), None):
        left = words if when is None else (*words[: when.start], *words[when.end :])
        for way, open_ in _ways(left, wanted, Context(known, read), known):
            rank = (way.is_whole and open_ is None, *way.rank[:4], when is not None, way.rank[4])
            if most is None or rank > most:
                best, most = (way, when, open_), rank
    return best


def _moments(words: tuple[Word, ...], read: MomentReader) -> Iterator[Said]:
    yield from moments_in(words, read)


def _ways(
    words: tuple[Word, ...], wanted: Iterable[Shape], context: Context, known: Known
) -> Iterator[tuple[Way, Open | None]]:
    for shape in wanted:
        for way in Matcher(words, shape, context).ways():
            values = {told.slot.name: told.value for told in way.told}
            open_ = settled(shape.phrase, values, known)[1] if way.is_whole else None
            yield way, open_


def _is_a_note(words: tuple[Word, ...], way: Way) -> bool:
    """The verb of a fact, and then many words that tell nothing of one: «found a better glue»."""
    plain_words = not any(re.search(r"[\d#]|-\w", word.text) or word.text.isupper() for word in words)
    return bool(way.missing) and not way.told and len(words) > NOTE_WORDS and plain_words


def _note(text: str, known: Known, read: MomentReader) -> Read:
    wish, at = note_of(text, known, read)
    if wish is None:
        return Read("write a note", lacks="the words of the note")
    about = (("about", wish.about),) if wish.about else ()
    return Read("write a note", wish, at, (("note", wish.text), *about))


def _told(way: Way, when: Said | None, open_: Open | None, known: Known) -> Read:
    phrase = way.shape.phrase
    shown = tuple((told.slot.label, _shown(told.slot, told.value)) for told in way.told if not told.choices)
    at = when.at if when is not None else None
    lacks, choices = _lacking(way, when, open_)
    if lacks:
        return Read(phrase.means, None, at, shown, lacks, choices)
    values, _ = settled(phrase, {told.slot.name: told.value for told in way.told}, known)
    return Read(phrase.means, wishes()[phrase.wish](**{**values, **dict(phrase.given)}), at, shown)


def _lacking(way: Way, when: Said | None, open_: Open | None) -> tuple[str, tuple[str, ...]]:
    """What keeps the line from being recorded, the first thing of all."""
    doubtful = next((told for told in way.told if told.choices), None)
    if doubtful is not None:
        return f"which {doubtful.slot.label}: {few(doubtful.choices)}", doubtful.choices
    if way.missing:
        unread = f"; {quoted(said(way.unread))} is not understood" if way.unread else ""
        return f"{_named(way.missing[0])}{unread}", ()
    if way.unread:
        return f"nothing, but {quoted(said(way.unread))} is not understood", ()
    if open_ is not None:
        which = f": {few(open_.choices)}" if open_.choices else ""
        return f"{open_.what}{which}", open_.choices
    if when is not None and when.problem:
        return f"a moment that is over: {when.problem}", ()
    return "", ()


def _named(slot: Slot) -> str:
    hint = slot.field.help if slot.sort not in ("pieces", "running print") else ""
    return f"{slot.label}{f' ({hint})' if hint else ''}"


def _shown(slot: Slot, value: Any) -> str:
    if slot.field.write is not None and not isinstance(value, str):
        return slot.field.write(value)
    shown = slot.field.show(value) if slot.field.write is None else str(value)
    return f"{shown} {slot.field.unit}" if slot.field.unit not in ("", "h:mm") else shown
