"""An assembly and the parts that go into it."""

from sqlmodel import col

from buildlog.errors import BadWish
from buildlog.proposals import assemblies as wishes
from buildlog.proposals.forms_build import Assembly, Part, Usage
from buildlog.proposals.nouns import Add
from buildlog.proposals.part_lines import NewPart
from buildlog.record.actions.nouns import add
from buildlog.record.actions.storing.rows import live_row
from buildlog.record.tables.builds import Build
from buildlog.record.tables.tree import Part as PartRow
from buildlog.record.writer import Work


def add_assembly_with_parts(wish: wishes.AddAssemblyWithParts, work: Work) -> str:
    _refuse_grams_of_nothing(wish)
    build = wish.build or _build_of(wish.parent, work)
    assembly = Assembly(
        code=wish.code,
        name=wish.name,
        build=build,
        parent=wish.parent,
        paired=wish.paired,
        count=wish.count,
        joined=wish.joined,
    )
    add(Add(assembly), work)
    for part in wish.parts:
        add(Add(_usage(wish, part, work) if not part.name else _part(wish, build, part)), work)
    parts = ", ".join(part.code for part in wish.parts)
    return f"Added assembly {wish.code}{f' with {parts}' if parts else ''}."


def _build_of(parent: str | None, work: Work) -> str:
    if parent is None:
        raise BadWish((("build", "an assembly in no other one needs its build"),))
    return work.get(Build, live_row(work, "assembly", parent).build_id).code


def _refuse_grams_of_nothing(wish: wishes.AddAssemblyWithParts) -> None:
    weighed = next((part.code for part in wish.parts if part.grams is not None), None)
    if weighed is not None and wish.material is None:
        raise BadWish((("material", f"{weighed} has grams: say of which material"),))


def _part(wish: wishes.AddAssemblyWithParts, build: str, part: NewPart) -> Part:
    return Part(
        code=part.code,
        name=part.name,
        build=build,
        handed=part.handed,
        assembly=wish.code,
        quantity=part.quantity,
        side_rule=part.side_rule,
        print_time=part.print_time,
        material=wish.material if part.grams is not None else None,
        grams=part.grams,
    )


def _usage(wish: wishes.AddAssemblyWithParts, part: NewPart, work: Work) -> Usage:
    """A part that is there already comes into the assembly as well."""
    if work.first(PartRow, col(PartRow.code) == part.code) is None:
        raise BadWish((("parts", f"there is no part {part.code} yet: write its name behind the code"),))
    return Usage(assembly=wish.code, part=part.code, quantity=part.quantity, side_rule=part.side_rule)
