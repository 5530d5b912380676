"""Reads what was ordered: ``2 ABS-BLACK, 60 M4 screws``, ``3 × ABS-BLACK and glue``, ``SCREW-M4 x60``."""

import re
from collections.abc import Iterator

from buildlog.intake.quick.here import Here, Reading
from buildlog.intake.quick.known import Known
from buildlog.intake.quick.words import COUNTS, Word, plain
from buildlog.proposals.lines import Line
from buildlog.terms import BoughtAccount, Unit

_BEFORE = re.compile(r"(\d{1,6})[x×]?")
_BEHIND = re.compile(r"[x×](\d{1,6})")
_ONE = frozenset({"a", "an", "another"})
_BETWEEN = frozenset({"of", "more", "the", "our", "my"})
_AND = frozenset({"and", "plus", "&", "+"})
_PACKS = frozenset({"spool", "spools", "reel", "reels", "roll", "rolls", "pack", "packs"})
_UNITS = {
    "piece": Unit.EACH,
    "pieces": Unit.EACH,
    "pcs": Unit.EACH,
    "mm": Unit.MM,
    "sheet": Unit.SHEET,
    "sheets": Unit.SHEET,
    "ml": Unit.ML,
}


def ordered(here: Here) -> Iterator[Reading]:
    """One line of an order after the other; what is bought in numbers needs its amount."""
    return _lines(here, here.start, (), (), False)


def counted(here: Here) -> Iterator[Reading]:
    """The same, where each line says how many."""
    return _lines(here, here.start, (), (), True)


def _lines(
    here: Here, start: int, before: tuple[Line, ...], choices: tuple[str, ...], counted: bool
) -> Iterator[Reading]:
    for one in _line(here, start, counted):
        if one.unfinished:
            yield one
            continue
        lines, doubtful = (*before, one.value), choices or one.choices
        follows = _follows(here.words, one.end)
        if follows is not None:
            yield from _lines(here, follows, lines, doubtful, counted)
        yield Reading(one.end, lines, doubtful)


def _line(here: Here, start: int, counted: bool) -> Iterator[Reading]:
    """One thing with its amount; unfinished where the words end before the thing is named."""
    words, known = here.words, here.context.known
    amount, first = _amount(words, start)
    if first >= len(words):
        yield Reading(first, None, unfinished=True)
        return
    packed = words[first].bare in _PACKS
    unit = _UNITS.get(words[first].bare)
    for at, by_word in ((first + 1, True), (first, False)) if packed or unit else ((first, False),):
        at = _past(words, at)
        if at >= len(words):
            yield Reading(at, None, unfinished=True)
        for end, span in here.spans(at):
            found = _found(known, plain(span), packed and by_word, unit if by_word else None)
            quantity, stop = _behind(words, end) if amount is None else (amount, end)
            if quantity is None and found and not counted:
                quantity = _unsaid(known, found[0])
            if found and quantity:
                yield Reading(stop, Line(found[0], quantity=quantity), found if len(found) > 1 else ())


def _amount(words: tuple[Word, ...], start: int) -> tuple[int | None, int]:
    """``3``, ``3x``, ``3 ×``, ``three``, ``a``, and where what it counts begins."""
    word = words[start].bare if start < len(words) else ""
    match = _BEFORE.fullmatch(COUNTS.get(word, "1" if word in _ONE else word))
    if match is None:
        return None, _past(words, start)
    times = start + 1 < len(words) and words[start + 1].bare in ("x", "×")
    return int(match[1]), _past(words, start + 1 + times)


def _past(words: tuple[Word, ...], start: int) -> int:
    while start < len(words) and words[start].bare in _BETWEEN:
        start += 1
    return start


def _behind(words: tuple[Word, ...], end: int) -> tuple[int | None, int]:
    """``x60``, ``× 60`` behind a name."""
    for stop in (end + 1, end + 2):
        match = _BEHIND.fullmatch("".join(word.bare for word in words[end:stop]))
        if match is not None and stop <= len(words):
            return int(match[1]), stop
    return None, end


def _follows(words: tuple[Word, ...], end: int) -> int | None:
    """Where the next line of the order begins: after a comma or «and», or with an amount."""
    if end < len(words) and words[end].bare in _AND:
        return end + 1
    goes_on = words[end - 1].text[-1] in ",;" or (end < len(words) and words[end].bare[:1].isdigit())
    return end if goes_on else None


def _found(known: Known, text: str, packed: bool, unit: Unit | None) -> tuple[str, ...]:
    """Materials and bought items that it may mean; a code that is typed out is that thing."""
    nouns = ("material",) if packed else ("bought item",) if unit else ("material", "bought item")
    exact = tuple(known.by_code[noun, text] for noun in nouns if (noun, text) in known.by_code)
    found = exact or tuple(code for noun in nouns for code in known.find(noun, text))
    if unit is None:
        return found
    units = {item.code: item.unit for item in known.snapshot.bought_items}
    return tuple(code for code in found if units[code] is unit)


def _unsaid(known: Known, code: str) -> int | None:
    """One, of what comes in packs or is not counted; of what is bought in numbers it has to be said."""
    accounts = {item.code: item.account for item in known.snapshot.bought_items if item.retired_at is None}
    return None if accounts.get(code) is BoughtAccount.COUNTED else 1
