"""What to order where: one basket per supplier."""

from dataclasses import dataclass

from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class BasketLine:
    """``quantity`` packs of a material, or an amount of a bought item in its unit (whole packs of it)."""

    material_id: int | None
    bought_item_id: int | None
    code: str
    quantity: int
    price_minor: int
    order_by: Moment
    reason: str


@dataclass(frozen=True, slots=True)
class Basket:
    """``supplier_id`` None: nobody has said who sells it. ``order_by`` is that of its first line; ``is_now``: today or
    past. ``total_minor`` is with the delivery charge.
    """

    supplier_id: int | None
    supplier: str
    lines: tuple[BasketLine, ...]
    order_by: Moment
    delivery_minor: int
    total_minor: int
    is_now: bool
