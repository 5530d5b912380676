"""Wishes about spools and their accounts."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.limits import MOST_PACKS
from buildlog.proposals.lines import read_codes, write_codes


@dataclass(frozen=True, slots=True)
class ReceiveSpool:
    """Spools have come, sealed; without codes they get the next free ones, as ABS-BLACK-07."""

    material: str = asks("material", Kind.REFERENCE, refers="material")
    packs: int | None = asks("packs", Kind.WHOLE, default=None, least=1, most=MOST_PACKS, help="empty: one per code")
    codes: tuple[str, ...] = asks(
        "codes", Kind.LINES, default=(), read=read_codes, write=write_codes, help="empty: the next free ones"
    )
    order: str | None = asks("order", Kind.REFERENCE, default=None, refers="order")
    content: int | None = asks("content grams", Kind.GRAMS, default=None, least=1000, help="else the pack")
    tare: int | None = asks(
        "tare grams", Kind.GRAMS, default=None, least=0, help="the empty reel, weighed; else assumed"
    )
    price: int | None = asks("price", Kind.MONEY, default=None, least=0, help="of each; 0: free")
    box: str | None = asks("box", Kind.REFERENCE, default=None, refers="box")


@dataclass(frozen=True, slots=True)
class WeighSpool:
    """What the scale read, with the reel. ``surprise`` is what is odd about that by the account, in words."""

    spool: str = asks("spool", Kind.REFERENCE, refers="spool")
    gross: int = asks("grams", Kind.GRAMS, least=0, help="with the reel")
    cause: str = asks("cause", Kind.TEXT, default="", help="of a difference, if known")
    surprise: str = ""


@dataclass(frozen=True, slots=True)
class OpenSpool:
    spool: str = asks("spool", Kind.REFERENCE, refers="spool")


@dataclass(frozen=True, slots=True)
class SealSpool:
    spool: str = asks("spool", Kind.REFERENCE, refers="spool")


@dataclass(frozen=True, slots=True)
class DrySpool:
    """The spool was dried; ``at`` is when it came out."""

    spool: str = asks("spool", Kind.REFERENCE, refers="spool")
    time: int | None = asks(
        "dried for",
        Kind.DURATION,
        default=None,
        least=1,
        help="empty: as the material asks",
        caution="Drying heats the reel: keep to the data sheet of the material and the dryer's manual.",
    )


@dataclass(frozen=True, slots=True)
class EmptySpool:
    """The spool is used up; the weight of the empty reel makes its tare known."""

    spool: str = asks("spool", Kind.REFERENCE, refers="spool")
    reel: int | None = asks("empty reel grams", Kind.GRAMS, default=None, least=1000)


@dataclass(frozen=True, slots=True)
class DrawFilament:
    """Filament that went elsewhere than into a print."""

    spool: str = asks("spool", Kind.REFERENCE, refers="spool")
    grams: int = asks("grams", Kind.GRAMS, least=1)
    why: str = asks("what for", Kind.TEXT, default="")
