"""Finds when something happened in a line: ``yesterday 23:10 …``, ``… at 21:40``, ``… -6h``."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from buildlog.intake.quick.words import Word
from buildlog.proposals.moments import MomentReader
from buildlog.terms import Moment

_DAYS = "mon(?:day)?|tue(?:sday)?|wed(?:nesday)?|thu(?:rsday)?|fri(?:day)?|sat(?:urday)?|sun(?:day)?"
_MONTHS = (
    "jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sep(?:tember)?|oct(?:ober)?|"
    "nov(?:ember)?|dec(?:ember)?"
)
_CLOCK = r"\d{1,2}:\d{2}"
_DATE = rf"\d{{4}}-\d{{2}}-\d{{2}}|\d{{1,2}} (?:{_MONTHS})(?: \d{{4}})?"
_DAY = rf"(?:{_DAYS}|yesterday|today|tomorrow|[+-]\d{{1,4}}d|{_DATE})"
_SHAPE = re.compile(
    rf"now|{_DAY}(?: (?:at )?{_CLOCK})?|{_CLOCK}|[+-](?:\d+d)? ?(?:\d+h)? ?(?:\d+m(?:in)?)?"
    r"|\d{4}-\d{2}-\d{2}t\d{2}:\d{2}\S*"
)
_ALONE_TOO_SHORT = frozenset({"mon", "sat", "sun", "wed", "-", "+", "now"})
"""Words that mean something else as often, where nothing but they would tell when."""
_MOST_WORDS = 5


class Said(NamedTuple):
    """The words from ``start`` to before ``end`` tell the moment; or why it cannot be one of a fact."""

    start: int
    end: int
    at: Moment | None
    problem: str = ""

    @property
    def likely(self) -> int:
        """Below nothing where a single word lies ahead: «tomorrow» is as often one of the fact's own words."""
        return -1 if self.problem and self.end - self.start == 1 else 1


def moments_in(words: tuple[Word, ...], read: MomentReader) -> Iterator[Said]:
    """Every way in which a line may tell when: at its beginning or end, or anywhere after «at»; longest first."""
    count = len(words)
    longer: list[range] = []
    for length in range(min(_MOST_WORDS, count), 0, -1):
        for start in range(count - length + 1):
            if any(start in one and start + length - 1 in one for one in longer):
                continue  # a part of a moment is no moment by itself
            opens = words[start].bare == "at" and length > 1
            if opens or start == 0 or start + length == count:
                inner = words[start + opens : start + length]
                found = _read(inner, read, opens)
                if found is not None:
                    longer.append(range(start, start + length))
                    yield Said(start, start + length, *found)


def leading(words: tuple[Word, ...], read: MomentReader) -> Said | None:
    """The moment that a line begins with."""
    return next((said for said in moments_in(words, read) if said.start == 0 and said.end < len(words)), None)


def _read(words: tuple[Word, ...], read: MomentReader, opens: bool) -> tuple[Moment | None, str] | None:
    text = " ".join(word.text.casefold().strip(",;") for word in words)
    if not _SHAPE.fullmatch(text) or (text in _ALONE_TOO_SHORT and not opens):
        return None
    try:
        return read(text, False), ""
    except ValueError as error:
        return (None, str(error)) if "future" in str(error) else None
