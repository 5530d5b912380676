"""Reads what a line names: things of any noun, pieces, positions."""

import re
from collections.abc import Iterator
from typing import Any

from buildlog.intake.quick.here import Here, Reading
from buildlog.intake.quick.known import Known
from buildlog.intake.quick.words import Word, is_code, plain
from buildlog.proposals.field import Kind
from buildlog.proposals.lines import Target
from buildlog.proposals.places import PiecesNamed, Place
from buildlog.terms import Side

_SIDES = {"l": Side.LEFT, "left": Side.LEFT, "r": Side.RIGHT, "right": Side.RIGHT}
_AT_SIDE = re.compile(r"(?P<side>[lr])(?:\.(?P<of>\d{1,6}(?:\.\d{1,6})*))?|(?P<alone>\d{1,6}(?:\.\d{1,6})*)")


def named(here: Here, noun: str = "") -> Iterator[Reading]:
    """A code or a title of the slot's noun, or of another one."""
    sort = noun or here.slot.sort
    for first in dict.fromkeys((here.start, here.after_article(sort))):
        for end, span in here.spans(first):
            if not _may_name(here.context.known, sort, span):
                continue
            found = here.context.known.find(sort, plain(span))
            if found:
                value: Any = (found[0],) if here.slot.field.kind is Kind.LINES else found[0]
                yield Reading(end, value, found if len(found) > 1 else ())


def _may_name(known: Known, sort: str, span: tuple[Word, ...]) -> bool:
    """After a code all is said: words behind it name the thing no further, unless a title begins with the code."""
    code = known.by_code.get((sort, span[0].bare)) if len(span) > 1 else None
    return code is None or any(name.title == plain(span) for name in known.names.get(sort, ()))


def fit_test(here: Here) -> Iterator[Reading]:
    """A fit test by its name, or by that of the assembly that it belongs to."""
    yield from named(here)
    snapshot = here.context.known.snapshot
    for end, span in here.spans(here.after_article()):
        for code in here.context.known.find("assembly", plain(span))[:1]:
            tests = [t for t in snapshot.fit_tests if t.retired_at is None]
            of = tuple(t.code for t in tests if snapshot.assembly[t.assembly_id].code == code)
            if of:
                yield Reading(end, of[0], of if len(of) > 1 else ())


def touched(here: Here) -> Iterator[Reading]:
    """A piece or a part that a fit touched: ``FL07R-C``, ``the visor``."""
    known, start = here.context.known, here.after_article("part piece")
    if start < len(here.words) and here.words[start].bare in known.marks:
        yield Reading(start + 1, (known.marks[here.words[start].bare],))
    yield from named(here._replace(start=start), "part")


def running(here: Here) -> Iterator[Reading]:
    """A printer, or what runs on it."""
    for end, span in here.spans(here.after_article("print")):
        printers = here.context.known.running.get(plain(span), ())
        if printers:
            yield Reading(end, printers[0], printers if len(printers) > 1 else ())
    yield from named(here, "printer")


def pieces(here: Here) -> Iterator[Reading]:
    """``#12``, a marked piece, or a part with its side: ``FL07 L``, ``left FL07``, ``FL07 left``."""
    words, known, start = here.words, here.context.known, here.after_article()
    if start >= len(words):
        return
    word = words[start].bare
    if re.fullmatch(r"#\d{1,12}", word):
        yield Reading(start + 1, PiecesNamed(lot_id=int(word[1:])))
    if word in known.marks:
        yield Reading(start + 1, PiecesNamed(code=known.marks[word]))
    side = _SIDES.get(word) if len(word) > 1 else None
    for end, span in here.spans(start + (side is not None)):
        found = known.find("part", plain(span))
        if not found:
            continue
        after = _SIDES.get(words[end].bare) if side is None and end < len(words) else None
        values = [PiecesNamed(code=code, side=at) for code in found for at in _sides_of(known, code, side or after)]
        yield Reading(end + (after is not None), values[0], tuple(map(str, values)) if len(values) > 1 else ())


def marked_or_part(here: Here) -> Iterator[Reading]:
    """Pieces; or a code that nothing bears, as it is written: what is recorded of it says what is near."""
    yield from pieces(here)
    start, known = here.after_article(), here.context.known
    word = here.words[start] if start < len(here.words) else None
    if word is None or not is_code(word) or not any(letter.isdigit() for letter in word.bare):
        return
    if word.bare not in known.marks and all(bare != word.bare for _, bare in known.by_code):
        side = _SIDES.get(here.words[start + 1].bare) if start + 1 < len(here.words) else None
        yield Reading(start + 1 + (side is not None), PiecesNamed(code=word.bare.upper(), side=side))


def _sides_of(known: Known, part: str, side: Side | None) -> tuple[Side | None, ...]:
    if side is not None or not known.is_handed(part):
        return (side,)
    return (Side.LEFT, Side.RIGHT)


def position(here: Here) -> Iterator[Reading]:
    """``LEG L``, ``left LEG``, ``TOE R.2``, ``RING 3``, by code or title of the assembly; ``R``, ``3`` if it may."""
    words, known, start = here.words, here.context.known, here.after_article()
    spoken = _SIDES.get(words[start].bare) if start < len(words) else None
    if here.slot.optional:  # what is worked on or tested tells the assembly
        for stop, at_side, ordinals in _told_side(words, start, None):
            if stop > start:
                yield Reading(stop, Place("", at_side, ordinals))
    side = spoken if spoken is not None and len(words[start].bare) > 1 else None
    for end, span in here.spans(start + (side is not None)):
        codes = known.find("assembly", plain(span))
        for stop, at_side, ordinals in _told_side(words, end, side) if codes else ():
            places = [p for code in codes for p in known.places.get(code, ()) if fits(p, at_side, ordinals)]
            if places:
                yield Reading(stop, places[0], tuple(map(str, places)) if len(places) > 1 else ())


def _told_side(
    words: tuple[Word, ...], end: int, side: Side | None
) -> Iterator[tuple[int, Side | None, tuple[int, ...]]]:
    if end < len(words):
        word = words[end].bare
        if side is None and word in ("left", "right"):
            yield end + 1, _SIDES[word], ()
        elif match := _AT_SIDE.fullmatch(word):
            numbers = tuple(int(n) for n in (match["of"] or match["alone"] or "").split(".") if n)
            yield end + 1, _SIDES.get(match["side"] or "") or side, numbers
    yield end, side, ()


def fits(place: Place, side: Side | None, ordinals: tuple[int, ...]) -> bool:
    """Whether a place stands on a side and under these numbers; None and no numbers: wherever it stands."""
    return side in (None, place.side) and place.ordinals[: len(ordinals)] == ordinals


def held(here: Here) -> Iterator[Reading]:
    """Codes of what a question holds, as they are written: ``HEAD``, ``HEAD EYE L``; never a word of the question."""
    end, targets = here.start, []
    while end < len(here.words):
        word, side = here.words[end], None
        codes = here.context.known.by_code
        code = next((codes[noun, word.bare] for noun in ("assembly", "part") if (noun, word.bare) in codes), None)
        if code is None or code not in word.text:
            break
        end += 1
        if end < len(here.words):
            side = _SIDES.get(here.words[end].bare)
            end += side is not None
        targets.append(Target(code, side))
        yield Reading(end, tuple(targets))
