"""Wishes about orders."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.lines import Line, read_lines, write_lines
from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class PlaceOrder:
    """Packs of materials and amounts of bought items, ordered at one supplier."""

    code: str | None = asks("code", Kind.CODE, default=None, help="empty: the next one")
    supplier: str | None = asks(
        "supplier", Kind.REFERENCE, default=None, refers="supplier", help="empty: that of the first line"
    )
    lines: tuple[Line, ...] = asks(
        "lines",
        Kind.LINES,
        refers="material or bought item",
        read=read_lines,
        write=write_lines,
        help="packs of a material, an amount of an item: ABS-BLACK x2, SCREW-M4 x100",
    )
    expected: Moment | None = asks(
        "expected", Kind.MOMENT, default=None, future=True, help="empty: after the lead time of the supplier"
    )
    delivery: int | None = asks("delivery charge", Kind.MONEY, default=None, least=0, help="empty: the supplier's")


@dataclass(frozen=True, slots=True)
class ReceiveOrder:
    """All that is due has come, or the named lines; the order is closed when nothing is due any more."""

    order: str = asks("order", Kind.REFERENCE, refers="order")
    lines: tuple[Line, ...] = asks(
        "came",
        Kind.LINES,
        default=(),
        refers="material or bought item",
        read=read_lines,
        write=write_lines,
        help="empty: everything that is due",
    )
    box: str | None = asks("box", Kind.REFERENCE, default=None, refers="box", help="for the spools")


@dataclass(frozen=True, slots=True)
class ExpectOrder:
    """A parcel that has not come is expected on another day."""

    order: str = asks("order", Kind.REFERENCE, refers="order")
    expected: Moment = asks("expected", Kind.MOMENT, future=True, help="as +3d, or Fri")


@dataclass(frozen=True, slots=True)
class CloseOrder:
    """The rest will not come."""

    order: str = asks("order", Kind.REFERENCE, refers="order")
