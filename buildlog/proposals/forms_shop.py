"""Forms of the workshop: printers, resources, boxes, suppliers, materials, spools, print files."""

from dataclasses import dataclass
from typing import ClassVar

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.lines import Ask, Line, read_ask, read_laid, write_ask, write_lines
from buildlog.terms import BoughtAccount, Moment, ResourceKind, Unit

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def read_weekday(text: str) -> int:
    """0 for Monday, from the name of a day or its beginning."""
    for number, day in enumerate(WEEKDAYS):
        if text[:3].title() == day:
            return number
    raise ValueError(f"«{text}» is none of: {', '.join(WEEKDAYS)}")


@dataclass(frozen=True, slots=True)
class Printer:
    NOUN: ClassVar[str] = "printer"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT)
    printer_class: str = asks("class", Kind.TEXT, default="", help="printers of one class run the same files")
    bed_x: int = asks("bed width", Kind.MM, least=1000)
    bed_y: int = asks("bed depth", Kind.MM, least=1000)
    bed_z: int = asks("height", Kind.MM, least=1000)
    heads: int = asks("heads", Kind.WHOLE, default=1, least=1, most=16)
    capabilities: str = asks("can", Kind.TEXT, default="", help="words parted by commas, as enclosed, flexible")
    nozzle: int = asks("nozzle", Kind.MM, default=400, least=100, most=3000, apart=True)
    runs_unattended: bool = asks("runs unattended", Kind.YES_NO, default=False)
    stops_at_filament_end: bool = asks("stops when filament ends", Kind.YES_NO, default=False)
    watts: int = asks("mean power W", Kind.WHOLE, default=0, least=0, most=20000)


@dataclass(frozen=True, slots=True)
class Resource:
    NOUN: ClassVar[str] = "resource"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT)
    kind: str = asks("kind", Kind.CHOICE, choices=tuple(ResourceKind))
    count: int = asks("how many", Kind.WHOLE, default=1, least=1, most=1000)
    calendar: str = asks("calendar", Kind.TEXT, default="")
    can: str = asks("can", Kind.TEXT, default="")


@dataclass(frozen=True, slots=True)
class Box:
    NOUN: ClassVar[str] = "box"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT)
    place: str = asks("stands", Kind.TEXT, default="")


@dataclass(frozen=True, slots=True)
class Supplier:
    NOUN: ClassVar[str] = "supplier"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT)
    lead_days: int = asks("lead time days", Kind.WHOLE, default=5, least=0, most=365)
    cutoff_day: int | None = asks(
        "cut-off day",
        Kind.CHOICE,
        default=None,
        choices=WEEKDAYS,
        read=read_weekday,
        write=WEEKDAYS.__getitem__,
        column="cutoff_weekday",
    )
    cutoff_time: int | None = asks(
        "cut-off time", Kind.DURATION, default=None, least=0, most=1439, help="by the clock, as 14:00"
    )
    delivery: int = asks("delivery charge", Kind.MONEY, default=0, least=0)


@dataclass(frozen=True, slots=True)
class Material:
    """Density, drying and open time stand in from the polymer where they are left empty."""

    NOUN: ClassVar[str] = "material"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT)
    polymer: str = asks("polymer", Kind.CODE, help="as ABS, PETG, TPU")
    colour: str = asks("colour", Kind.TEXT, default="")
    diameter: int = asks("diameter", Kind.MM, default=1750, least=500, most=5000)
    density: int | None = asks("density", Kind.DENSITY, default=None, least=100)
    pack: int = asks("pack grams", Kind.GRAMS, default=1_000_000, least=1000)
    price: int = asks("price per pack", Kind.MONEY, default=0, least=0)
    supplier: str | None = asks("supplier", Kind.REFERENCE, default=None, refers="supplier")
    lead_days: int | None = asks("lead time days", Kind.WHOLE, default=None, least=0, most=365)
    safety_packs: int | None = asks("sealed spools kept", Kind.WHOLE, default=None, least=0, most=100)
    dry_celsius: int | None = asks("drying °C", Kind.WHOLE, default=None, least=20, most=200)
    dry_time: int | None = asks("drying time", Kind.DURATION, default=None, least=0)
    open_time: int | None = asks("open before re-drying", Kind.DURATION, default=None, least=0)
    smelly: bool | None = asks("smelly", Kind.YES_NO, default=None, help="fumes: needs ventilation")
    cautions: str = asks("cautions", Kind.TEXT, default="")


@dataclass(frozen=True, slots=True)
class Spool:
    NOUN: ClassVar[str] = "spool"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    material: str = asks("material", Kind.REFERENCE, refers="material")
    content: int | None = asks("content grams", Kind.GRAMS, default=None, least=0, help="as received; else the pack")
    tare: int | None = asks(
        "tare grams", Kind.GRAMS, default=None, least=0, help="the empty reel; else assumed", apart=True
    )
    price: int | None = asks("price", Kind.MONEY, default=None, least=0, help="empty: as the material; 0: free")
    received: Moment | None = asks("received", Kind.MOMENT, default=None)
    opened: Moment | None = asks("opened", Kind.MOMENT, default=None, apart=True)
    weighed: int | None = asks(
        "weighed grams", Kind.GRAMS, default=None, least=0, help="with the reel, now", apart=True
    )
    box: str | None = asks("box", Kind.REFERENCE, default=None, refers="box")


@dataclass(frozen=True, slots=True)
class BoughtItem:
    NOUN: ClassVar[str] = "bought item"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT)
    unit: str = asks("unit", Kind.CHOICE, default="each", choices=tuple(Unit))
    account: str = asks("account", Kind.CHOICE, default="counted", choices=tuple(BoughtAccount))
    stock: str | None = asks("in stock", Kind.TEXT, default=None, help="an amount, or plenty, low or out", apart=True)
    pack_quantity: int = asks("pack", Kind.WHOLE, default=1, least=1)
    price: int = asks("price per pack", Kind.MONEY, default=0, least=0)
    supplier: str | None = asks("supplier", Kind.REFERENCE, default=None, refers="supplier")
    lead_days: int | None = asks("lead time days", Kind.WHOLE, default=None, least=0, most=365)
    box: str | None = asks("box", Kind.REFERENCE, default=None, refers="box")


@dataclass(frozen=True, slots=True)
class PrintFile:
    """Grams are of the whole run."""

    NOUN: ClassVar[str] = "print file"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT, default="")
    printer_class: str = asks("printer class", Kind.TEXT)
    lines: tuple[Line, ...] = asks(
        "lays down",
        Kind.LINES,
        refers="part",
        read=read_laid,
        write=write_lines,
        help="as FL07 L x2, FL08 R",
        apart=True,
    )
    print_time: int = asks("print time", Kind.DURATION, least=1)
    material: Ask = asks("material", Kind.LINES, refers="material", read=read_ask, write=write_ask, apart=True)
    grams: int = asks("grams", Kind.GRAMS, least=0, apart=True)
    support: int = asks("support grams", Kind.GRAMS, default=0, least=0, apart=True)
    purge: int = asks("purge grams", Kind.GRAMS, default=0, least=0, apart=True)
    material_2: Ask | None = asks(
        "second material",
        Kind.LINES,
        default=None,
        refers="material",
        read=read_ask,
        write=write_ask,
        apart=True,
    )
    grams_2: int | None = asks("second grams", Kind.GRAMS, default=None, least=0, apart=True)
    purge_2: int = asks("second purge grams", Kind.GRAMS, default=0, least=0, apart=True)
    nozzle: int | None = asks("nozzle", Kind.MM, default=None, least=100, most=3000)
    settings_line: str = asks("settings", Kind.TEXT, default="")
    estimate_from: str = asks("estimate from", Kind.TEXT, default="")
    prepared: Moment | None = asks("prepared", Kind.MOMENT, default=None)
