"""Reads one value out of a line: every way in which the words from a place on may tell it, longest first."""

import re
from collections.abc import Callable, Iterator

from buildlog.intake.quick.here import Here, Reading
from buildlog.intake.quick.names_read import (
    fit_test,
    held,
    marked_or_part,
    named,
    pieces,
    position,
    running,
    touched,
)
from buildlog.intake.quick.ordered_read import counted, ordered
from buildlog.intake.quick.words import COUNTS, plain, said
from buildlog.proposals.field import Kind
from buildlog.proposals.outcomes import ways_out

_AMOUNT = re.compile(r"(?P<number>[\d.,]+)(?P<unit>[a-zµ%]*)")
_UNITS = {
    Kind.GRAMS: {"": 1, "g": 1, "gram": 1, "grams": 1, "kg": 1000},
    Kind.MM: {"": 1, "mm": 1},
    Kind.WHOLE: {"": 1, "x": 1, "×": 1},
}
BECAUSE = frozenset({"because", "since"})
_TAKES_BACK = frozenset({"but", "if", "unless"})
"""No reason, wherever it stands first: it says of what was said before that it may not be so."""
DASHES = frozenset({"-", "–", "—"})
_LENGTH = {"minutes": "min", "minute": "min", "hours": "h", "hour": "h"}


def readings(here: Here) -> Iterator[Reading]:
    """None where the words from there on do not tell the slot's value."""
    return _READERS.get(here.slot.sort, named)(here)


def _amount(here: Here) -> Iterator[Reading]:
    """``812 g``, ``812``, ``1.2 kg``, ``three``."""
    words, start, field = here.words, here.start, here.slot.field
    if start >= len(words):
        return
    units = _UNITS[field.kind]
    match = _AMOUNT.fullmatch(COUNTS.get(words[start].bare, words[start].bare))
    if match is None:
        return
    beside = words[start + 1].bare if start + 1 < len(words) else ""
    ways = [(start + 2, units[beside])] if not match["unit"] and beside and beside in units else []
    ways += [(start + 1, units[match["unit"]])] if match["unit"] in units else []
    for end, times in ways:
        try:
            value = field.parse(match["number"])
        except ValueError:
            continue
        if value is not None:
            yield Reading(end, value * times)


def _length(here: Here) -> Iterator[Reading]:
    """``2:30``, ``2h30``, ``6 h``, ``45 minutes``."""
    for end, span in here.spans(here.start, 2):
        yield from _parsed(here, end, " ".join(_LENGTH.get(word.bare, word.bare) for word in span))


def _choice(here: Here) -> Iterator[Reading]:
    for end, span in here.spans(here.start, 4):
        wanted = plain(span)
        yield from (Reading(end, choice) for choice in here.slot.field.choices if choice.casefold() == wanted)


def _moment(here: Here) -> Iterator[Reading]:
    for end, span in here.spans(here.start, 4):
        try:
            yield Reading(end, here.context.read(said(span), here.slot.field.future))
        except ValueError:
            continue


def _text(here: Here) -> Iterator[Reading]:
    """As few words as something else that is told after them leaves, else all up to the end."""
    for end, span in reversed(tuple(here.spans(here.start, len(here.words)))):
        if text := said(span):
            yield from _parsed(here, end, text)


def _reason(here: Here) -> Iterator[Reading]:
    """A text set off by «because» or by a mark: ``…, warped``, ``… (warped)``, ``… - warped``."""
    words, start = here.words, here.start
    if start >= len(words) or start == 0:
        return
    dashed = words[start].bare in DASHES
    before = words[start - 1]
    if dashed or before.text[-1] in ",;:.)" or before.bare in BECAUSE or words[start].text[0] == "(":
        start += dashed
        start += start < len(words) and words[start].bare in BECAUSE
        if start < len(words) and words[start].bare not in _TAKES_BACK:
            yield from _text(here._replace(start=start))


def _outcomes(here: Here) -> Iterator[Reading]:
    """``HUB good, FL07 L x2 second``; of a part without how it came out, what may be said."""
    here = here._replace(start=here.after_article())
    for end, span in here.spans(here.start, len(here.words)):
        yield from _parsed(here, end, said(span).replace(" and ", ", "))
    for told in pieces(here):
        ways = tuple(way for name in told.choices or (str(told.value),) for way in ways_out(name))
        yield Reading(told.end, None, ways)


def _parsed(here: Here, end: int, text: str) -> Iterator[Reading]:
    try:
        value = here.slot.field.parse(text)
    except ValueError:
        return
    if value is not None:
        yield Reading(end, value)


_READERS: dict[str, Callable[[Here], Iterator[Reading]]] = {
    "fit test": fit_test,
    "touched": touched,
    "running print": running,
    "pieces": pieces,
    "position": position,
    "held": held,
    "outcomes": _outcomes,
    "ordered": ordered,
    "counted": counted,
    "marked or part": marked_or_part,
    "reason": _reason,
    "cause": _text,
    "print": _amount,
    Kind.GRAMS.value: _amount,
    Kind.MM.value: _amount,
    Kind.WHOLE.value: _amount,
    Kind.DURATION.value: _length,
    Kind.CHOICE.value: _choice,
    Kind.MOMENT.value: _moment,
    Kind.TEXT.value: _text,
    Kind.LONG_TEXT.value: _text,
}
