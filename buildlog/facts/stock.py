"""Materials, spools, bought items, suppliers, orders."""

from buildlog.facts.frozen import frozen
from buildlog.terms import BoughtAccount, BoughtEntryKind, Level, Moment, SpoolEntryKind, Unit


@frozen
class Supplier:
    """``cutoff_weekday`` 0 is Monday: an order after the cut-off goes out in the next week."""

    id: int
    code: str
    name: str
    lead_days: int
    cutoff_weekday: int | None
    cutoff_minutes: int | None
    delivery_minor: int
    retired_at: Moment | None


@frozen
class Material:
    id: int
    code: str
    name: str
    polymer: str
    colour: str
    diameter_um: int
    density_mg_cm3: int
    pack_mg: int
    price_minor: int
    supplier_id: int | None
    lead_days: int | None
    safety_packs: int | None
    dry_celsius: int | None
    dry_minutes: int | None
    open_minutes: int | None
    smelly: bool
    cautions: str
    retired_at: Moment | None


@frozen
class Spool:
    """One reel, as received with ``content_mg`` of filament; the tare may be assumed, give or take ``tare_pm_mg``."""

    id: int
    code: str
    material_id: int
    received_at: Moment
    content_mg: int
    content_pm_mg: int
    tare_mg: int
    tare_pm_mg: int
    tare_assumed: bool
    price_minor: int | None
    box_id: int | None
    order_line_id: int | None
    retired_at: Moment | None


@frozen
class SpoolEntry:
    """``weighed`` keeps what the scale read (with the reel) in ``gross_mg``; ``drawn`` is a draw outside a print."""

    id: int
    spool_id: int
    at: Moment
    kind: SpoolEntryKind
    gross_mg: int | None
    net_mg: int | None
    cause: str


@frozen
class BoughtItem:
    id: int
    code: str
    name: str
    unit: Unit
    account: BoughtAccount
    pack_quantity: int
    price_minor: int
    supplier_id: int | None
    lead_days: int | None
    box_id: int | None
    retired_at: Moment | None


@frozen
class BoughtEntry:
    """``counted`` keeps the reading, ``level`` what a look said; others move ``amount`` of the item's unit."""

    id: int
    bought_item_id: int
    at: Moment
    kind: BoughtEntryKind
    amount: int
    level: Level | None
    fitting_id: int | None
    step_done_id: int | None
    order_line_id: int | None
    cause: str


@frozen
class Order:
    id: int
    code: str
    supplier_id: int | None
    placed_at: Moment
    expected_at: Moment
    delivery_minor: int
    closed_at: Moment | None


@frozen
class OrderLine:
    """Packs of a material, or an amount of a bought item in its unit."""

    id: int
    purchase_id: int
    material_id: int | None
    bought_item_id: int | None
    quantity: int
    price_minor: int | None
