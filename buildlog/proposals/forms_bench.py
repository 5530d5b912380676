"""Forms of the bench: steps, waits, questions, fit tests."""

from dataclasses import dataclass
from typing import ClassVar

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.limits import DEAREST_KWH
from buildlog.proposals.lines import (
    Line,
    Target,
    read_codes,
    read_lines,
    read_targets,
    write_codes,
    write_lines,
    write_targets,
)
from buildlog.terms import FitKind, FitRule, Moment, StepKind

BY_THE_CLOCK = "by the clock, as 7:30"


@dataclass(frozen=True, slots=True)
class Step:
    """Bench work in an assembly (per position) or on a part (per piece)."""

    NOUN: ClassVar[str] = "step"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT)
    assembly: str | None = asks(
        "assembly", Kind.REFERENCE, default=None, refers="assembly", help="or part, one of both"
    )
    part: str | None = asks("part", Kind.REFERENCE, default=None, refers="part")
    place: int | None = asks("order", Kind.WHOLE, default=None, least=1, help="empty: after the last one")
    kind: str = asks("kind", Kind.CHOICE, choices=tuple(StepKind))
    bench_time: int = asks("bench time", Kind.DURATION, least=0)
    handle_after: int | None = asks(
        "handle after",
        Kind.DURATION,
        default=None,
        least=0,
        help="the next step may begin; empty: at once, a solvent bond as usual",
    )
    load_after: int | None = asks(
        "load after",
        Kind.DURATION,
        default=None,
        least=0,
        help="it may bear weight, and be worn; empty: at once, a solvent bond as usual",
    )
    jig: str | None = asks("jig", Kind.REFERENCE, default=None, refers="resource")
    uses: tuple[Line, ...] = asks(
        "uses up",
        Kind.LINES,
        default=(),
        refers="bought item",
        read=read_lines,
        write=write_lines,
        help="as SCREW x4, GLUE",
        apart=True,
    )
    helper_can: bool = asks("helper can", Kind.YES_NO, default=False)
    needs_two: bool = asks("needs two", Kind.YES_NO, default=False)
    cannot_be_undone: bool = asks("cannot be undone", Kind.YES_NO, default=False)


@dataclass(frozen=True, slots=True)
class Wait:
    NOUN: ClassVar[str] = "wait"
    KEY: ClassVar[tuple[str, ...]] = ("assembly", "step", "on_assembly", "on_step")

    assembly: str = asks("assembly", Kind.REFERENCE, refers="assembly")
    step: str | None = asks("its step", Kind.REFERENCE, default=None, refers="step")
    on_assembly: str = asks("waits for", Kind.REFERENCE, refers="assembly")
    on_step: str | None = asks("that one's step", Kind.REFERENCE, default=None, refers="step")


@dataclass(frozen=True, slots=True)
class Question:
    """``holds`` names assemblies and parts that wait for the answer."""

    NOUN: ClassVar[str] = "question"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    build: str = asks("build", Kind.REFERENCE, refers="build")
    text: str = asks("question", Kind.TEXT)
    holds: tuple[Target, ...] = asks(
        "holds",
        Kind.LINES,
        default=(),
        read=read_targets,
        write=write_targets,
        help="what waits for the answer, as LEG L, VISOR",
        apart=True,
    )
    asked: Moment | None = asks("asked", Kind.MOMENT, default=None)
    answer: str = asks("answer", Kind.TEXT, default="")
    answered: Moment | None = asks("answered", Kind.MOMENT, default=None)


@dataclass(frozen=True, slots=True)
class FitTest:
    """``parts`` are the usages it touches, below its assembly; it is the lowest that holds them all."""

    NOUN: ClassVar[str] = "fit test"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT)
    assembly: str = asks("assembly", Kind.REFERENCE, refers="assembly")
    parts: tuple[str, ...] = asks(
        "parts",
        Kind.LINES,
        default=(),
        refers="part",
        read=read_codes,
        write=write_codes,
        help="that it touches, as SHIN, TOE",
        apart=True,
    )
    kind: str = asks("kind", Kind.CHOICE, choices=tuple(FitKind))
    rule: str | None = asks("goes stale by", Kind.CHOICE, default=None, choices=tuple(FitRule))
    bench_time: int = asks("bench time", Kind.DURATION, default=10, least=0)
    face: str = asks("face", Kind.TEXT, default="", help="where it is measured")
    low: int | None = asks("least", Kind.MM, default=None, least=0)
    high: int | None = asks("most", Kind.MM, default=None, least=0)


@dataclass(frozen=True, slots=True)
class Settings:
    """Whose clock and money; there is one."""

    NOUN: ClassVar[str] = "settings"
    KEY: ClassVar[tuple[str, ...]] = ()

    home_zone: str = asks("home zone", Kind.TEXT, default="Europe/Berlin")
    currency: str = asks("currency", Kind.TEXT, default="EUR")
    kwh_price: int = asks("price of a kWh", Kind.MONEY, default=30, least=0, most=DEAREST_KWH)
    not_building: int = asks("share of the week not for building", Kind.PERCENT, default=40, least=0, most=100)
    day_starts: int = asks("day starts", Kind.DURATION, default=480, least=0, most=1439, help=BY_THE_CLOCK)
    day_ends: int = asks("day ends", Kind.DURATION, default=1380, least=0, most=1439, help=BY_THE_CLOCK)
