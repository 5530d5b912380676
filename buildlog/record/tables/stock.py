"""Materials, spools and their accounts, bought items, suppliers and orders."""

from sqlalchemy import CheckConstraint
from sqlmodel import Field

from buildlog.record.tables.columns import Row, choice, maybe_ref, ref
from buildlog.terms import BoughtAccount, BoughtEntryKind, Level, SpoolEntryKind, Unit


class Supplier(Row, table=True):
    """``cutoff_weekday`` 0 is Monday: an order after the cut-off goes out in the next week."""

    __tablename__ = "supplier"
    __table_args__ = (CheckConstraint("cutoff_weekday BETWEEN 0 AND 6", name="cutoff_weekday"),)

    code: str = Field(unique=True)
    name: str
    lead_days: int
    cutoff_weekday: int | None = None
    cutoff_minutes: int | None = None
    delivery_minor: int = 0
    retired_at: str | None = None


class Material(Row, table=True):
    __tablename__ = "material"

    code: str = Field(unique=True)
    name: str
    polymer: str
    colour: str = ""
    diameter_um: int
    density_mg_cm3: int
    pack_mg: int
    price_minor: int
    supplier_id: int | None = maybe_ref("supplier")
    lead_days: int | None = None
    safety_packs: int | None = None
    dry_celsius: int | None = None
    dry_minutes: int | None = None
    open_minutes: int | None = None
    smelly: bool = False
    cautions: str = ""
    retired_at: str | None = None


class Spool(Row, table=True):
    """One reel, as received with ``content_mg`` of filament; the tare may be assumed, give or take ``tare_pm_mg``."""

    __tablename__ = "spool"

    code: str = Field(unique=True)
    material_id: int = ref("material")
    received_at: str
    content_mg: int
    content_pm_mg: int = 0
    tare_mg: int
    tare_pm_mg: int = 0
    tare_assumed: bool
    price_minor: int | None = None
    box_id: int | None = maybe_ref("box")
    order_line_id: int | None = maybe_ref("order_line")
    retired_at: str | None = None


class SpoolEntry(Row, table=True):
    """``weighed`` keeps what the scale read (with the reel) in ``gross_mg``; ``drawn`` is a draw outside a print."""

    __tablename__ = "spool_entry"
    __table_args__ = (
        CheckConstraint("(kind = 'weighed') = (gross_mg IS NOT NULL)", name="weighed"),
        CheckConstraint("(kind = 'drawn') = (net_mg IS NOT NULL)", name="drawn"),
    )

    spool_id: int = ref("spool")
    at: str
    kind: SpoolEntryKind = choice(SpoolEntryKind, "kind")
    gross_mg: int | None = None
    net_mg: int | None = None
    cause: str = ""


class BoughtItem(Row, table=True):
    __tablename__ = "bought_item"

    code: str = Field(unique=True)
    name: str
    unit: Unit = choice(Unit, "unit")
    account: BoughtAccount = choice(BoughtAccount, "account")
    pack_quantity: int = 1
    price_minor: int = 0
    supplier_id: int | None = maybe_ref("supplier")
    lead_days: int | None = None
    box_id: int | None = maybe_ref("box")
    retired_at: str | None = None


class BoughtEntry(Row, table=True):
    """``counted`` keeps the reading, ``level`` what a look said; others move ``amount`` of the item's unit."""

    __tablename__ = "bought_entry"
    __table_args__ = (
        CheckConstraint("amount >= 0", name="amount"),
        CheckConstraint("(kind = 'level') = (level IS NOT NULL)", name="level_known"),
    )

    bought_item_id: int = ref("bought_item")
    at: str
    kind: BoughtEntryKind = choice(BoughtEntryKind, "kind")
    amount: int = 0
    level: Level | None = choice(Level, "level", default=None)
    fitting_id: int | None = maybe_ref("fitting")
    step_done_id: int | None = maybe_ref("step_done")
    order_line_id: int | None = maybe_ref("order_line")
    cause: str = ""


class Order(Row, table=True):
    __tablename__ = "purchase"

    code: str = Field(unique=True)
    supplier_id: int | None = maybe_ref("supplier")
    placed_at: str
    expected_at: str
    delivery_minor: int = 0
    closed_at: str | None = None


class OrderLine(Row, table=True):
    """Packs of a material, or an amount of a bought item in its unit."""

    __tablename__ = "order_line"
    __table_args__ = (CheckConstraint("(material_id IS NULL) <> (bought_item_id IS NULL)", name="one_thing"),)

    purchase_id: int = ref("purchase")
    material_id: int | None = maybe_ref("material")
    bought_item_id: int | None = maybe_ref("bought_item")
    quantity: int
    price_minor: int | None = None
