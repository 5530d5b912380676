"""What the reading of files hands to the record: facts with their place in the file, and forms as they were read."""

from dataclasses import dataclass
from typing import Any

from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class FromFile:
    """A wish that a row asks for. ``columns`` tells heading and line of each field, for messages."""

    wish: Any
    at: Moment | None
    source: str
    line: int
    columns: tuple[tuple[str, str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class KeptForm:
    """Fields of a row as they were read, to tell at the next reading what changed where.

    The record adds what each field holds after this reading, as some are filled in where nothing is typed.
    """

    noun: str
    key: str
    source: str
    given: tuple[tuple[str, str], ...]
    in_ledger: bool = True
