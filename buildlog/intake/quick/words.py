"""A line as its words, each with its place in the line."""

import re
from typing import NamedTuple

_WORD = re.compile(r"\S+")
_AROUND = "«»\"'“”()[],;:!?"
_AROUND_WORDS = _AROUND.replace("?", "").replace("!", "")
_PAIRS = (("(", ")"), ("[", "]"), ("«", "»"), ("“", "”"))
_NUMBERS = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
COUNTS = {word: str(number) for number, word in enumerate(_NUMBERS)}
ARTICLES = frozenset({"the", "a", "an", "my", "our"})


class Word(NamedTuple):
    """``bare`` is small and without the marks around it; ``text`` as typed, from ``start`` to ``end`` of the line."""

    text: str
    bare: str
    start: int
    end: int


def words_of(text: str) -> tuple[Word, ...]:
    """The words of a line; what is nothing but marks belongs to no word."""
    found = []
    for match in _WORD.finditer(text):
        bare = match[0].strip(_AROUND).rstrip(".").casefold()
        if bare or match[0] == "-":
            found.append(Word(match[0], bare, match.start(), match.end()))
    return tuple(found)


def is_code(word: Word) -> bool:
    """Whether it is written as codes are: in capitals."""
    text = word.text.strip(_AROUND + ".")
    return len(text) > 1 and text.isupper()


def said(words: tuple[Word, ...]) -> str:
    """The words as they were typed, without the marks around them; a question keeps its own, brackets both halves."""
    typed = " ".join(word.text for word in words)
    begun = typed.lstrip(_AROUND_WORDS + " ")
    bare = begun.rstrip(_AROUND_WORDS + " ")
    before, behind = typed.removesuffix(begun), begun.removeprefix(bare)
    for opening, closing in _PAIRS:
        halves = re.sub(rf"\{opening}[^\{opening}\{closing}]*\{closing}", "", bare)
        if closing in halves and opening in before:
            bare = opening + bare
        if opening in halves and closing in behind:
            bare += closing
    return bare


def plain(words: tuple[Word, ...]) -> str:
    """The words bare and small: what names are looked up by."""
    return " ".join(word.bare for word in words)
