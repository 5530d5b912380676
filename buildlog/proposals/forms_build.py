"""Forms of the build itself: builds, assemblies, parts, usages, episodes, goals, milestones."""

from dataclasses import dataclass
from typing import ClassVar

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.limits import LAST_RANK
from buildlog.proposals.lines import Ask, Target, read_ask, read_targets, write_ask, write_targets
from buildlog.terms import (
    BuildState,
    Capability,
    GoalKind,
    Joined,
    MilestoneKind,
    Moment,
    Origin,
    Side,
    SideRule,
    Stage,
)

SIDES = (Side.LEFT.value, Side.RIGHT.value)


@dataclass(frozen=True, slots=True)
class Build:
    NOUN: ClassVar[str] = "build"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT)
    rank: int | None = asks(
        "rank", Kind.WHOLE, default=None, least=-LAST_RANK, most=LAST_RANK, help="a lower number is served first"
    )
    state: str = asks("state", Kind.CHOICE, default="open", choices=tuple(BuildState))
    filming_rule: str = asks(
        "filming days", Kind.TEXT, default="", help="a recurrence rule of RFC 5545, as FREQ=WEEKLY;BYDAY=SA"
    )


@dataclass(frozen=True, slots=True)
class Assembly:
    NOUN: ClassVar[str] = "assembly"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT)
    build: str = asks("build", Kind.REFERENCE, refers="build")
    parent: str | None = asks("in assembly", Kind.REFERENCE, default=None, refers="assembly")
    paired: bool = asks("paired", Kind.YES_NO, default=False, help="exists once left and once right")
    count: int = asks("count", Kind.WHOLE, default=1, least=1, most=1000, help="per parent position")
    joined: str = asks("joined", Kind.CHOICE, default="comes apart", choices=tuple(Joined))
    rank: int | None = asks("rank", Kind.WHOLE, default=None, least=-LAST_RANK, most=LAST_RANK)
    lead_side: str | None = asks("lead side", Kind.CHOICE, default=None, choices=SIDES)
    lead_test: str | None = asks("proven by fit", Kind.REFERENCE, default=None, refers="fit test")
    box: str | None = asks("box", Kind.REFERENCE, default=None, refers="box")


@dataclass(frozen=True, slots=True)
class Part:
    """A part with the figures of its current revision and, where it goes, its first usage."""

    NOUN: ClassVar[str] = "part"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT)
    build: str = asks("build", Kind.REFERENCE, refers="build")
    origin: str = asks("origin", Kind.CHOICE, default="printed", choices=tuple(Origin))
    handed: bool = asks("handed", Kind.YES_NO, default=False, help="left and right are mirror images")
    stage: str = asks("stage", Kind.CHOICE, default="drawn", choices=tuple(Stage))
    revision: str = asks("revision", Kind.CODE, default="A", apart=True)
    assembly: str | None = asks("assembly", Kind.REFERENCE, default=None, refers="assembly", apart=True)
    quantity: int = asks("quantity", Kind.WHOLE, default=1, least=1, most=10000, help="per position", apart=True)
    side_rule: str = asks("side rule", Kind.CHOICE, default="as the position", choices=tuple(SideRule), apart=True)
    spares: int = asks("spares wanted", Kind.WHOLE, default=0, least=0, most=10000, apart=True)
    second_will_do: bool = asks("second will do", Kind.YES_NO, default=False, apart=True)
    print_time: int | None = asks("print time", Kind.DURATION, default=None, least=0, apart=True)
    material: Ask | None = asks(
        "material", Kind.LINES, default=None, refers="material", read=read_ask, write=write_ask, apart=True
    )
    grams: int | None = asks("grams", Kind.GRAMS, default=None, least=0, apart=True)
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
    figures_from: str = asks("figures from", Kind.TEXT, default="", help="where the estimate came from", apart=True)
    hand_time: int | None = asks(
        "making time", Kind.DURATION, default=None, least=0, help="of a part made by hand", apart=True
    )
    one_lot: bool = asks("one lot", Kind.YES_NO, default=False, help="shown raw: all from one spool lot")
    matched_set: str = asks("matched set", Kind.TEXT, default="", help="changes whole or not at all")
    lead_side: str | None = asks("lead side", Kind.CHOICE, default=None, choices=SIDES)
    variant_of: str | None = asks("variant of", Kind.REFERENCE, default=None, refers="part")
    scale: float | None = asks("scale %", Kind.DECIMAL, default=None, least=1, most=10_000, column="scale_percent")
    bought_item: str | None = asks("bought item", Kind.REFERENCE, default=None, refers="bought item")
    bought_quantity: int | None = asks("per slot", Kind.WHOLE, default=None, least=1, help="in the item's unit")
    length: int | None = asks("length", Kind.MM, default=None, least=0)
    width: int | None = asks("width", Kind.MM, default=None, least=0)
    height: int | None = asks("height", Kind.MM, default=None, least=0)
    nozzle: int | None = asks("nozzle", Kind.MM, default=None, least=100, most=3000)
    needs: str = asks("needs", Kind.TEXT, default="", help=f"of a printer: {', '.join(Capability)}")


@dataclass(frozen=True, slots=True)
class Usage:
    NOUN: ClassVar[str] = "usage"
    KEY: ClassVar[tuple[str, ...]] = ("assembly", "part")

    assembly: str = asks("assembly", Kind.REFERENCE, refers="assembly")
    part: str = asks("part", Kind.REFERENCE, refers="part")
    quantity: int = asks("quantity", Kind.WHOLE, default=1, least=1, most=10000)
    side_rule: str = asks("side rule", Kind.CHOICE, default="as the position", choices=tuple(SideRule))
    spares: int = asks("spares wanted", Kind.WHOLE, default=0, least=0, most=10000, column="spares_wanted")
    second_will_do: bool = asks("second will do", Kind.YES_NO, default=False)


@dataclass(frozen=True, slots=True)
class Episode:
    NOUN: ClassVar[str] = "episode"
    KEY: ClassVar[tuple[str, ...]] = ("build", "number")

    build: str = asks("build", Kind.REFERENCE, refers="build")
    number: int = asks("number", Kind.WHOLE, least=0, most=9999)
    title: str = asks("title", Kind.TEXT, default="")
    films_at: Moment = asks("films", Kind.MOMENT, future=True)


@dataclass(frozen=True, slots=True)
class Goal:
    """What an episode is to reach; ``code`` names an assembly, part, step or question by kind."""

    NOUN: ClassVar[str] = "goal"
    KEY: ClassVar[tuple[str, ...]] = ("build", "number", "kind", "code", "side", "text")

    build: str = asks("build", Kind.REFERENCE, refers="build", apart=True)
    number: int = asks("episode", Kind.WHOLE, least=0, most=9999, apart=True)
    kind: str = asks("goal", Kind.CHOICE, choices=tuple(GoalKind))
    code: str | None = asks("of", Kind.CODE, default=None, apart=True, help="an assembly, step, part or question")
    side: str | None = asks("side", Kind.CHOICE, default=None, choices=SIDES)
    text: str = asks("in words", Kind.TEXT, default="")


@dataclass(frozen=True, slots=True)
class Milestone:
    NOUN: ClassVar[str] = "milestone"
    KEY: ClassVar[tuple[str, ...]] = ("code",)

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT)
    build: str | None = asks("build", Kind.REFERENCE, default=None, refers="build", help="none: an event of all")
    kind: str = asks("kind", Kind.CHOICE, choices=tuple(MilestoneKind))
    due: Moment = asks("due", Kind.MOMENT, future=True)
    hard: bool = asks("hard", Kind.YES_NO, default=True, help="it does not move")
    targets: tuple[Target, ...] = asks(
        "by then",
        Kind.LINES,
        default=(),
        refers="assembly",
        read=read_targets,
        write=write_targets,
        help="as LEG L, HEAD shown; empty: the whole build",
        apart=True,
    )
