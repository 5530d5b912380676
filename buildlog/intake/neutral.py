"""Keeps a spreadsheet from running a cell as a formula, and takes that protection off when the cell is read.

A text that begins with one of ``= + - @``, a tab or a carriage return gets an apostrophe in front, and so does
one that begins with an apostrophe, so that every text reads back as it was. Plain numbers stay as they are.
Source: OWASP Community, «CSV Injection» (the list of characters).
"""

import re

STARTS = ("=", "+", "-", "@", "\t", "\r")
_NUMBER = re.compile(r"-\d+([.,]\d+)?")


def neutral_cell(text: str) -> str:
    if text.startswith((*STARTS, "'")) and not _NUMBER.fullmatch(text):
        return f"'{text}"
    return text


def plain_cell(text: str) -> str:
    """The text behind a cell, trimmed."""
    text = text.strip()
    return text[1:] if text[:1] == "'" and text[1:2] in (*STARTS, "'") else text
