"""Wishes about the set-up of a printer."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class LoadSpool:
    """Load a spool; where else it was loaded, it is unloaded, and a sealed one is opened."""

    printer: str = asks("printer", Kind.REFERENCE, refers="printer")
    spool: str = asks("spool", Kind.REFERENCE, refers="spool")
    head: int = asks("head", Kind.WHOLE, default=1, least=1, most=16)


@dataclass(frozen=True, slots=True)
class UnloadSpool:
    printer: str = asks("printer", Kind.REFERENCE, refers="printer")
    head: int = asks("head", Kind.WHOLE, default=1, least=1, most=16)


@dataclass(frozen=True, slots=True)
class SetNozzle:
    printer: str = asks("printer", Kind.REFERENCE, refers="printer")
    nozzle: int = asks("nozzle", Kind.MM, least=100, most=3000)
    head: int = asks("head", Kind.WHOLE, default=1, least=1, most=16)


@dataclass(frozen=True, slots=True)
class SetBed:
    printer: str = asks("printer", Kind.REFERENCE, refers="printer")
    surface: str = asks("bed surface", Kind.TEXT)


@dataclass(frozen=True, slots=True)
class PrinterDown:
    printer: str = asks("printer", Kind.REFERENCE, refers="printer")
    why: str = asks("why", Kind.TEXT, default="")
    until: Moment | None = asks("until", Kind.MOMENT, default=None, future=True, help="when it should be up again")


@dataclass(frozen=True, slots=True)
class PrinterUp:
    printer: str = asks("printer", Kind.REFERENCE, refers="printer")
