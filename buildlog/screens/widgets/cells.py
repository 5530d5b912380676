"""Text measured, cut and padded by terminal cells, whatever characters a name holds.

Every text of a person's ledger goes through `clean` before it reaches a terminal: what could move the cursor,
reorder a line or join the cell beside it is made visible or taken out. Nothing here reads markup.
Widths are those of rich.cells, which Textual's strips use too, so both always agree.
Right-to-left letters are kept and measured; a terminal that reorders them does so within their own run.
"""

from __future__ import annotations

import unicodedata
from enum import StrEnum
from functools import lru_cache

from rich.cells import cell_len, split_graphemes

CUT_SIGN = "…"
UNSHOWABLE = "\N{REPLACEMENT CHARACTER}"
LONE_MARK_BASE = "\N{DOTTED CIRCLE}"
ZERO_WIDTH_JOINER = "\u200d"

# Unicode 15, chapter 23: embeddings, overrides and isolates reorder what follows them, beyond the cell too.
BIDI_CONTROLS = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
# Without ink and without width; variation selectors also change the width of what stands before them.
DROPPED = frozenset("\u00ad\u180e\u200b\u2060\ufeff") | {chr(code) for code in range(0xFE00, 0xFE10)}


class Align(StrEnum):
    LEFT = "left"
    RIGHT = "right"
    CENTRE = "centre"


@lru_cache(maxsize=16384)
def clean(text: str) -> str:
    """The text as one harmless line: whitespace to single cells, controls to a visible sign."""
    if text.isascii() and text.isprintable():
        return text
    shown = "".join(_shown(text, i) for i in range(len(text)))
    return LONE_MARK_BASE + shown if shown and unicodedata.combining(shown[0]) else shown


def _shown(text: str, i: int) -> str:
    char = text[i]
    if char.isspace():
        return " "
    if char in DROPPED:
        return ""
    if char == ZERO_WIDTH_JOINER:
        # Terminals disagree on how wide joined pictures are; scripts that need the joiner keep it.
        return char if i and unicodedata.category(text[i - 1])[0] in "LM" else ""
    if char < " ":
        return chr(0x2400 + ord(char))
    category = unicodedata.category(char)
    if char in BIDI_CONTROLS or category in ("Cc", "Cs", "Co", "Cn") or "\U000e0000" <= char <= "\U000e007f":
        return UNSHOWABLE
    return char


def width_of(text: str) -> int:
    """Terminal cells that the cleaned text takes."""
    safe = clean(text)
    return len(safe) if safe.isascii() else cell_len(safe)


@lru_cache(maxsize=16384)
def cut(text: str, cells: int) -> str:
    """The cleaned text in at most `cells` cells; whatever is left out is shown by `…` in its place."""
    safe = clean(text)
    if cells <= 0:
        return ""
    if width_of(safe) <= cells:
        return safe
    return safe[: _end_within(safe, cells - 1)] + CUT_SIGN


def _end_within(safe: str, cells: int) -> int:
    """So many characters of a cleaned text take at most `cells` cells, none of them torn apart."""
    if safe.isascii():
        return cells
    end = used = 0
    for _, after, width in split_graphemes(safe)[0]:
        if used + width > cells:
            break
        end, used = after, used + width
    return end


def wrapped(text: str, cells: int) -> list[str]:
    """The cleaned text in lines of at most `cells` cells, parted between words; a word that is longer within it."""
    lines: list[str] = []
    line = ""
    for word in clean(text).split(" "):
        longer = f"{line} {word}" if line else word
        if width_of(longer) <= cells:
            line = longer
            continue
        lines += [line] if line else []
        while width_of(word) > cells:
            end = max(1, _end_within(word, cells))
            lines.append(word[:end])
            word = word[end:]
        line = word
    return [*lines, line]


def fit(text: str, cells: int, align: Align = Align.LEFT) -> str:
    """The text in exactly `cells` cells, cut with `…` or padded with spaces where `align` leaves room."""
    shown = cut(text, cells)
    spare = max(0, cells - width_of(shown))
    before = {Align.LEFT: 0, Align.RIGHT: spare, Align.CENTRE: spare // 2}[align]
    return " " * before + shown + " " * (spare - before)
