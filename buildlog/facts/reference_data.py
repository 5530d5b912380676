"""What is known before a ledger holds anything: usual numbers, polymers, cautions, tolerance tables.

`buildlog.reference` fills these from the folder shared/; the ledger puts them into the Snapshot.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Any, Generic, TypeVar

from buildlog.facts.frozen import frozen


class Basis(StrEnum):
    """What a figure rests on."""

    COMMON_PRACTICE = "common practice"
    ARITHMETIC = "arithmetic"
    OUR_CHOICE = "our choice"


@frozen
class Figure:
    """One figure in the unit its key ends with; `low` and `high` equal the value where no span is usual."""

    value: float
    low: float
    high: float

    @property
    def whole(self) -> int:
        """The value as an integer; ValueError when it is none."""
        if self.value != int(self.value):
            raise ValueError(f"{self.value} is no whole number")
        return int(self.value)

    @property
    def half_span(self) -> float:
        """Half of high − low: the ± of an assumed value."""
        return (self.high - self.low) / 2


@frozen
class Usual(Figure):
    """A usual number: what it is about, what it is used for and what it rests on."""

    key: str
    subject: str
    use: str
    basis: Basis


@frozen
class ClearanceClass:
    """Clearance in micrometres per face, not on the diameter."""

    key: str
    name: str
    per_face_um: Figure
    basis: Basis


@frozen
class PrintClass:
    """How large a share of jobs of one class usually fails."""

    key: str
    name: str
    failed_share: Figure
    basis: Basis


@frozen
class BondKind:
    """The clocks of a bond at 20 °C, in minutes."""

    key: str
    name: str
    let_go_after_minutes: Figure
    handle_after_minutes: Figure
    load_after_minutes: Figure
    basis: Basis


@frozen
class Polymer:
    """What a material starts from; a printed shrink of None has to be measured."""

    key: str
    density_mg_cm3: Figure
    density_source: str
    moulded_shrink_percent: Figure
    moulded_shrink_source: str
    printed_shrink_percent: Figure | None
    dry_celsius: Figure
    dry_minutes: Figure
    open_minutes: Figure
    loss_when_dried_percent: Figure
    smelly: bool
    styrene_bearing: bool
    basis: Basis


@frozen
class Caution:
    """One or two plain sentences for the moment where the work can hurt someone; never a verdict."""

    key: str
    title: str
    text: str
    source: str


T = TypeVar("T")


class Known(Mapping[str, T], Generic[T]):
    """A read-only table by key; a key that it lacks is a slip in the program, named with near ones."""

    __slots__ = ("_noun", "_rows")

    def __init__(self, noun: str, rows: Mapping[str, T]) -> None:
        self._noun = noun
        self._rows = MappingProxyType(dict(rows))

    def __getitem__(self, key: str) -> T:
        try:
            return self._rows[key]
        except KeyError:
            from difflib import get_close_matches  # only for the message

            near = ", ".join(get_close_matches(key, self._rows)) or "nothing near"
            raise KeyError(f"shared/ holds no {self._noun} «{key}» ({near})") from None

    def __iter__(self) -> Iterator[str]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)


@dataclass(frozen=True, slots=True, eq=False)
class Reference:
    """All of it. `tolerance_tables` holds the parsed ISO tables by file name without its ending."""

    usual: Known[Usual]
    clearances: Known[ClearanceClass]
    print_classes: Known[PrintClass]
    bonds: Known[BondKind]
    default_tolerance_class: str
    polymers: Known[Polymer]
    cautions: Known[Caution]
    deferral: str
    tolerance_tables: Known[Mapping[str, Any]]
