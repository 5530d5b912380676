"""What may be typed next in a line: verbs, names that are known, and the words that lead to more."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from buildlog.intake.quick.here import Context
from buildlog.intake.quick.known import Known
from buildlog.intake.quick.matching import Matcher
from buildlog.intake.quick.moments_said import moments_in
from buildlog.intake.quick.shapes import Clause, Literal, Slot, shapes
from buildlog.intake.quick.words import Word, words_of
from buildlog.proposals.field import Kind
from buildlog.proposals.moments import MomentReader

MOST = 50
MOST_WORDS_OF_A_NAME = 3
_FILLERS = frozenset({"now"})
"""Words that may be said and lead to nothing more."""
_HINTS = {
    Kind.GRAMS.value: "812 g",
    Kind.WHOLE.value: "3",
    "print": "12",
    Kind.DURATION.value: "2:30",
    Kind.MM.value: "0.4 mm",
    Kind.MOMENT.value: "tomorrow 9:00",
    Kind.TEXT.value: "in words",
    Kind.LONG_TEXT.value: "in words",
    "held": "HEAD, FL07 L",
    "outcomes": "FL07 L good, FL08 R second",
}


class Completion(NamedTuple):
    """``line`` is the whole line with it, ``adds`` what it puts in place of what is typed last, ``what`` it is.

    ``adds`` is empty for a figure or free words: those are only told of.
    """

    line: str
    adds: str
    what: str


def completions(text: str, known: Known, read: MomentReader) -> tuple[Completion, ...]:
    """In the order of the phrases, each once; the names of a thing in the order in which they came."""
    words = words_of(text)
    open_end = not text or text[-1].isspace()
    found: dict[str, Completion] = {}
    for last in range(0 if open_end else 1, MOST_WORDS_OF_A_NAME + 1):
        if last > len(words):
            break
        head = words[: len(words) - last]
        typed = text[words[len(head)].start :] if last else ""
        kept = text[: len(text) - len(typed)]
        expected = list(_expected(head, known, read))
        for adds, what in expected if head else sorted(expected, key=lambda one: not one[0].islower()):
            begins = adds.casefold().startswith(typed.casefold()) and adds.casefold() != typed.casefold()
            if adds and begins:
                found.setdefault(adds, Completion(f"{kept}{adds} ", adds, what))
            elif not adds and not typed:
                found.setdefault(what, Completion(text, "", what))
        if len(found) >= MOST:
            break
    return tuple(found.values())[:MOST]


def _expected(head: tuple[Word, ...], known: Known, read: MomentReader) -> Iterator[tuple[str, str]]:
    """What may stand after these words: (what is typed, what it is)."""
    context = Context(known, read)
    whens = list(moments_in(head, read))
    lefts = [head, *((*head[: said.start], *head[said.end :]) for said in whens[:1])]
    spoken = {word.bare for word in head}
    seen: set[tuple[str, str]] = set()
    for left in lefts:
        for shape in shapes():
            if left and shape.begins_with_verb and not spoken & set(shape.verbs):
                continue
            matcher = Matcher(left, shape, context)
            for _ in matcher.ways():
                pass
            for expected in sorted(matcher.expected, key=lambda one: isinstance(one, Clause)):
                means = f"{shape.phrase.means}: {shape.phrase.example}" if not left else shape.phrase.means
                for one in _typed(expected, known, means):
                    if one not in seen:
                        seen.add(one)
                        yield one


def _typed(expected: Literal | Slot | Clause, known: Known, means: str) -> Iterator[tuple[str, str]]:
    if isinstance(expected, Literal):
        if expected.words[0] not in _FILLERS:
            yield expected.words[0], means
    elif isinstance(expected, Clause):
        yield expected.words[0], f"{expected.slot.label} may follow"
    else:
        names = tuple(_names(expected, known))
        if names:
            yield from ((name, expected.label) for name in names)
        else:
            hint = _HINTS.get(expected.sort, "")
            yield "", f"{expected.label}{f', as {hint}' if hint else ''}"


def _names(slot: Slot, known: Known) -> Iterable[str]:
    if slot.sort in ("pieces", "marked or part"):
        return known.pieces
    if slot.sort == "position":
        return (str(place) for places in known.places.values() for place in places)
    if slot.sort in ("ordered", "counted"):
        return (name.code for noun in ("material", "bought item") for name in known.names[noun])
    if slot.sort == "cause":
        return known.causes
    if slot.sort == "running print":
        return dict.fromkeys(printer for printers in known.running.values() for printer in printers)
    if slot.field.kind is Kind.CHOICE:
        return slot.field.choices
    return (name.code for name in known.names.get(slot.sort, ()))
