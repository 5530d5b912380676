"""Dated notes on anything."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks

ABOUT = "part FL07, lot #12, episode LB/14, a marked piece as FL07R-C, a position as TOE R.2; empty: of the day"
BESIDE_NOUNS = ("lot", "position", "print", "order")
"""What has no form, and yet can be written about."""


@dataclass(frozen=True, slots=True)
class AddNote:
    text: str = asks("note", Kind.LONG_TEXT)
    about: str = asks("about", Kind.TEXT, default="", help=ABOUT)
    photo: str = asks("photo", Kind.TEXT, default="", help="path to a picture")


@dataclass(frozen=True, slots=True)
class RemoveNote:
    note: int = asks("note", Kind.WHOLE, least=1, help="its number")
