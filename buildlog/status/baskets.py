"""What to order where: one basket per supplier."""

from collections import defaultdict
from collections.abc import Iterable
from zoneinfo import ZoneInfo

from buildlog.facts.frozen import frozen
from buildlog.facts.snapshot import Snapshot
from buildlog.methods.weeks import local_day
from buildlog.status.netting import MaterialOutlook
from buildlog.terms import Moment, Unit, when
from buildlog.wording import so_many


@frozen
class BasketLine:
    """``quantity`` packs of a material, or an amount of a bought item in its unit (whole packs of it). ``is_short``:
    there will not be enough; else only the reserve is touched.
    """

    material_id: int | None
    bought_item_id: int | None
    code: str
    quantity: int
    unit: Unit
    price_minor: int
    order_by: Moment
    reason: str
    is_short: bool

    @property
    def told(self) -> str:
        """``TPU-BLACK ×2``, ``CORD-4 20000 mm``."""
        return f"{self.code} {so_many(self.quantity, self.unit)}"


@frozen
class Basket:
    """``supplier_id`` None: nobody has said who sells it. ``order_by`` is that of its most urgent line; ``is_now``:
    today or past. ``total_minor`` is with the delivery charge.
    """

    supplier_id: int | None
    supplier: str
    lines: tuple[BasketLine, ...]
    order_by: Moment
    delivery_minor: int
    total_minor: int
    is_now: bool


def fill_baskets(
    snapshot: Snapshot,
    now: Moment,
    zone: ZoneInfo,
    outlooks: Iterable[MaterialOutlook],
    bought: Iterable[BasketLine],
) -> tuple[Basket, ...]:
    """All lines by supplier, the most urgent basket first. What is to be ordered later rides along: the charge for
    delivery is paid once.
    """
    suppliers = {supplier.id: supplier for supplier in snapshot.suppliers}
    seller = {item.id: item.supplier_id for item in snapshot.bought_items}
    lines: defaultdict[int | None, list[BasketLine]] = defaultdict(list)
    for outlook in outlooks:
        if outlook.order_by is not None and outlook.packs_to_order:
            material = snapshot.material[outlook.material_id]
            lines[material.supplier_id].append(
                BasketLine(
                    material.id,
                    None,
                    material.code,
                    outlook.packs_to_order,
                    Unit.EACH,
                    outlook.packs_to_order * material.price_minor,
                    outlook.order_by,
                    outlook.reason,
                    outlook.runs_out_at is not None,
                )
            )
    for line in bought:
        lines[seller[line.bought_item_id or 0]].append(line)
    today = local_day(when(now), zone)
    baskets = []
    for supplier_id, found in lines.items():
        supplier = suppliers.get(supplier_id) if supplier_id is not None else None
        in_order = tuple(sorted(found, key=lambda line: (line.order_by, line.code)))
        delivery = supplier.delivery_minor if supplier else 0
        total = delivery + sum(line.price_minor for line in in_order)
        by = in_order[0].order_by
        is_now = local_day(when(by), zone) <= today
        baskets.append(Basket(supplier_id, supplier.name if supplier else "", in_order, by, delivery, total, is_now))
    return tuple(sorted(baskets, key=lambda basket: (basket.order_by, basket.supplier)))
