"""Reads one line in plain words: one wish and when it happened, or what it lacks, or a free note.

read = read_line("weighed BLACK-3 812 g", Known(snapshot), moment_reader(now, zone))
read.wish           # WeighSpool(spool="BLACK-3", gross=812_000); None where something is missing
read.lacks          # «weigh spool: grams», or which of several is meant
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from difflib import get_close_matches
from typing import Any

from buildlog.intake.quick.elsewhere import told_elsewhere
from buildlog.intake.quick.free_notes import note_of
from buildlog.intake.quick.here import Context
from buildlog.intake.quick.known import Known
from buildlog.intake.quick.matching import Matcher, Way
from buildlog.intake.quick.moments_said import Said, moments_in
from buildlog.intake.quick.settling import Open, settled
from buildlog.intake.quick.shapes import Literal, Shape, Slot, shapes
from buildlog.intake.quick.words import Word, is_code, said, words_of
from buildlog.proposals.field import Kind, fields_of, printable, quoted
from buildlog.proposals.moments import MomentReader
from buildlog.proposals.wishes import wishes
from buildlog.terms import Moment
from buildlog.wording import day_and_clock, few

NEAR = 0.75
"""Our choice: how alike a word is to the verb that it may be meant for, 1 for the same."""
MOST_WORDS = 60
"""Our choice: what is longer is no fact in one line."""
TO_NOTE = "To write the words down as they are, begin with note: as in «note: weighed the frame by hand»."
ANYWAY = "anyway"
"""At the end of a line: what would be refused unless a person says that it is so all the same."""
TO_OVERRULE = f"Or say that it was so all the same: end the line with «{ANYWAY}»."
OVERRULES = ("overruled", "anyway")
AS_NOTE = re.compile(r"\s*notes?\s*:\s*|\s*note\s+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Read:
    """``wish`` is whole, or ``lacks`` says in words what is missing; ``choices`` are names that it may be.

    ``told`` are the fields understood, with label and value as they may be typed; ``means`` says what the line does,
    ``like`` is a line of its kind that is whole.
    """

    means: str
    wish: Any = None
    at: Moment | None = None
    told: tuple[tuple[str, str], ...] = ()
    lacks: str = ""
    choices: tuple[str, ...] = ()
    like: str = ""

    @property
    def plainly(self) -> str:
        """What the line says, with what is missing: «put a spool on the scale: spool BLACK-3; missing: grams»."""
        told = ", ".join(f"{label} {value}" for label, value in self.told)
        said = f"{self.means}: {told}" if self.means and told else self.means
        lacks = f"missing: {self.lacks}" if self.lacks else ""
        return "; ".join(filter(None, (said, lacks, f"as in «{self.like}»" if self.like else "")))


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
    elsewhere = told_elsewhere(words)
    if elsewhere:
        return Read("", lacks=elsewhere)
    begun = [verb for shape in shapes() for verb in shape.verbs if verb.startswith(words[0].bare)]
    if len(words) == 1 and begun and words[0].bare not in begun:
        return Read("", lacks=f"the rest of the first word: {few(tuple(dict.fromkeys(begun)))}")
    overruled = _overruled(text[: words[-1].start], known, read) if words[-1].bare == ANYWAY else None
    if overruled is not None:
        return overruled
    if len(words) > MOST_WORDS:
        return _note(text, known, read)
    found = _best(words, known, read)
    if found is not None:
        return _told(*found, known)
    meant = _misspelt(text, words[0], known, read)
    return _note(text, known, read) if meant is None else meant


def _overruled(text: str, known: Known, read: MomentReader) -> Read | None:
    """What a line before «anyway» says, so all the same; None where it says nothing that may be overruled."""
    told = read_line(text, known, read)
    fields = fields_of(type(told.wish)) if told.wish is not None else ()
    field = next((field for field in fields if field.name in OVERRULES), None)
    if field is None:
        return None
    return replace(told, wish=replace(told.wish, **{field.name: True}), told=(*told.told, (field.label, "yes")))


def _misspelt(text: str, first: Word, known: Known, read: MomentReader) -> Read | None:
    """What the line would say if its first word were the verb that it is nearly; None where that is no fact."""
    if any(first.bare in (code, title) for names in known.names.values() for code, title, _ in names):
        return None
    for verb in get_close_matches(first.bare, {v for shape in shapes() for v in shape.verbs}, 1, NEAR):
        line = f"{text[: first.start]}{verb}{text[first.end :]}"
        found = _best(words_of(line), known, read)
        if found is not None and found[0].is_whole:
            return Read(_told(*found, known).means, lacks=f"a verb: {quoted(first.text)} is none", like=line)
    return None


def _best(words: tuple[Word, ...], known: Known, read: MomentReader) -> tuple[Way, Said | None, Open | None] | None:
    """The way that says most of the line; of alike ones the one that tells when by more words, then the first."""
    best: tuple[Way, Said | None, Open | None] | None = None
    most: Any = None
    spoken = {word.bare for word in words}
    wanted = [shape for shape in shapes() if spoken & set(shape.verbs)]
    for when in (*_moments(words, read), None):
        left = words if when is None else (*words[: when.start], *words[when.end :])
        for way, open_ in _ways(left, wanted, Context(known, read), known):
            rank = (way.is_whole and open_ is None, *way.rank[:4], 0 if when is None else when.likely, way.rank[4])
            if most is None or rank > most:
                best, most = (way, when, open_), rank
    return best


def _moments(words: tuple[Word, ...], read: MomentReader) -> Iterator[Said]:
    """When it may have happened: not the moment that a word of the fact asks for, as «until Fri 9:00»."""
    clauses = (clause for shape in shapes() for clause in shape.clauses if clause.slot.field.kind is Kind.MOMENT)
    asks = {word for clause in clauses for word in clause.words}
    for found in moments_in(words, read):
        if found.start == 0 or words[found.start - 1].bare not in asks:
            yield found


def _ways(
    words: tuple[Word, ...], wanted: Iterable[Shape], context: Context, known: Known
) -> Iterator[tuple[Way, Open | None]]:
    for shape in wanted:
        for way in Matcher(words, shape, context).ways():
            if shape.phrase.clearly and not _is_clear(way, words):
                continue
            values = {told.slot.name: told.value for told in way.told}
            open_ = settled(shape.phrase, values, known)[1] if way.is_whole else None
            yield way, open_


def _is_clear(way: Way, words: tuple[Word, ...]) -> bool:
    """Whether the line says this and no more: as far as it goes, or but for the code of a thing that is unknown."""
    if words[-1].text.endswith("?") or any(isinstance(one, Literal) for one in way.missing):
        return False
    return not way.unread or any(map(is_code, way.unread))


def _note(text: str, known: Known, read: MomentReader) -> Read:
    wish, at = note_of(text, known, read)
    if wish is None:
        return Read("write a note", lacks="the words of the note")
    about = (("about", wish.about),) if wish.about else ()
    return Read("write a note", wish, at, (("note", wish.text), *about))


def _told(way: Way, when: Said | None, open_: Open | None, known: Known) -> Read:
    phrase = way.shape.phrase
    at = when.at if when is not None else None
    lacks, choices = _lacking(way, when, open_)
    values = {told.slot.name: told.value for told in way.told if not told.choices}
    if not lacks:
        values, _ = settled(phrase, values, known)
    told = tuple(
        (one.slot.label, _shown(one.slot, values[one.slot.name], known)) for one in way.told if not one.choices
    )
    if lacks:
        like = phrase.example if way.missing or way.unread else ""
        return Read(phrase.means, None, at, told, lacks, choices, like)
    return Read(phrase.means, wishes()[phrase.wish](**{**values, **dict(phrase.given)}), at, told)


def _lacking(way: Way, when: Said | None, open_: Open | None) -> tuple[str, tuple[str, ...]]:
    """What keeps the line from being recorded, the first thing of all."""
    doubtful = next((told for told in way.told if told.choices), None)
    if doubtful is not None:
        return f"which {doubtful.slot.label}: {few(doubtful.choices)}", doubtful.choices
    if way.missing:
        unread = f"; {quoted(said(way.unread))} is not understood" if way.unread else ""
        first = next((one for one in way.missing if isinstance(one, Slot)), None)
        choices = first.field.choices if first is not None else ()
        return f"{_named(first or way.missing[0])}{unread}", choices
    if way.unread:
        return f"what {quoted(said(way.unread))} means", ()
    if open_ is not None:
        which = f": {few(open_.choices)}" if open_.choices else ""
        return f"{open_.what}{which}", open_.choices
    if when is not None and when.problem:
        return f"a moment that is over, since a fact cannot lie ahead: {when.problem}", ()
    return "", ()


def _named(missing: Literal | Slot) -> str:
    if isinstance(missing, Literal):
        return f"the word {quoted(missing.words[0])}"
    slot = missing
    if slot.field.choices:
        return f"{slot.label}: {few(slot.field.choices)}"
    hint = slot.field.help if slot.sort not in ("pieces", "running print") else ""
    return f"{slot.label}{f' ({hint})' if hint else ''}"


def _shown(slot: Slot, value: Any, known: Known) -> str:
    if slot.field.kind is Kind.MOMENT:
        return day_and_clock(value, known.snapshot.settings.home_zone)
    if slot.field.write is not None and not isinstance(value, str):
        return slot.field.write(value)
    shown = slot.field.show(value) if slot.field.write is None else str(value)
    return f"{shown} {slot.field.unit}" if slot.field.unit not in ("", "h:mm") else shown
