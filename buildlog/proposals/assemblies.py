"""An assembly and the parts that go into it, told at once."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.lines import Ask, read_ask, write_ask
from buildlog.proposals.part_lines import LINE_SHAPE, NewPart, read_new_parts, write_new_parts
from buildlog.terms import Joined


@dataclass(frozen=True, slots=True)
class AddAssemblyWithParts:
    """Add an assembly, the parts that go into it and how many of each, in one."""

    code: str = asks("code", Kind.CODE)
    name: str = asks("name", Kind.TEXT)
    build: str | None = asks(
        "build", Kind.REFERENCE, default=None, refers="build", help="empty: that of the assembly it is in"
    )
    parent: str | None = asks("in assembly", Kind.REFERENCE, default=None, refers="assembly")
    paired: bool = asks("paired", Kind.YES_NO, default=True, help="exists once left and once right")
    count: int = asks("count", Kind.WHOLE, default=1, least=1, most=1000, help="per parent position")
    joined: str = asks("joined", Kind.CHOICE, default="comes apart", choices=tuple(Joined))
    material: Ask | None = asks(
        "material of the parts", Kind.LINES, default=None, refers="material", read=read_ask, write=write_ask
    )
    parts: tuple[NewPart, ...] = asks(
        "parts", Kind.LINES, default=(), read=read_new_parts, write=write_new_parts, help=LINE_SHAPE
    )
