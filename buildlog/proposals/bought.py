"""Wishes about bought items and their accounts, each in its own unit."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.terms import Level


@dataclass(frozen=True, slots=True)
class ReceiveBought:
    item: str = asks("item", Kind.REFERENCE, refers="bought item")
    amount: int | None = asks("amount", Kind.WHOLE, default=None, least=1, help="empty: what is due, or a pack")
    order: str | None = asks("order", Kind.REFERENCE, default=None, refers="order")


@dataclass(frozen=True, slots=True)
class CountBought:
    """What a count found; it is kept as read."""

    item: str = asks("item", Kind.REFERENCE, refers="bought item")
    amount: int = asks("amount", Kind.WHOLE, least=0)


@dataclass(frozen=True, slots=True)
class SetLevel:
    """What a look said of an item that is not counted."""

    item: str = asks("item", Kind.REFERENCE, refers="bought item")
    level: str = asks("level", Kind.CHOICE, choices=tuple(Level))


@dataclass(frozen=True, slots=True)
class DrawBought:
    """Taken for something that is neither a slot nor a step."""

    item: str = asks("item", Kind.REFERENCE, refers="bought item")
    amount: int = asks("amount", Kind.WHOLE, default=1, least=1)
    why: str = asks("what for", Kind.TEXT, default="")


@dataclass(frozen=True, slots=True)
class ReturnBought:
    """Put back into stock."""

    item: str = asks("item", Kind.REFERENCE, refers="bought item")
    amount: int = asks("amount", Kind.WHOLE, default=1, least=1)
    why: str = asks("why", Kind.TEXT, default="")
