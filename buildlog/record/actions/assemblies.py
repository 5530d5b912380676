"""An assembly and the parts that go into it."""

from sqlmodel import col

from buildlog.errors import BadWish
from buildlog.proposals import assemblies as wishes
from buildlog.proposals.forms_build import Assembly, Part, Usage
from buildlog.proposals.lines import Ask
from buildlog.proposals.nouns import Add
from buildlog.proposals.part_lines import NewPart
from buildlog.proposals.recorded import is_live
from buildlog.record.actions.nouns import add
from buildlog.record.actions.storing.rows import live_row
from buildlog.record.tables.builds import Build
from buildlog.record.tables.stock import Material
from buildlog.record.tables.tree import Part as PartRow
from buildlog.record.writer import Work
from buildlog.terms import SideRule
from buildlog.wording import grams, hours


def add_assembly_with_parts(wish: wishes.AddAssemblyWithParts, work: Work) -> str:
    for part in wish.parts:
        _refuse_what_gets_lost(wish, part, work)
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
    sides = ", paired, left and right" if wish.paired else ", not paired"
    parts = "; ".join(map(_said, wish.parts))
    return f"Added assembly {wish.code} {wish.name}{sides}{f', with {parts}' if parts else ''}."


def _said(part: NewPart) -> str:
    """``FL07 shin handed ×2, 2:30 h, 45 g ABS-BLACK each``: what the line was understood as."""
    told = [f"{part.code} {part.name}".strip() + f"{' handed' if part.handed else ''} ×{part.quantity}"]
    told += [part.side_rule] if part.side_rule is not SideRule.AS_POSITION else []
    told += [hours(part.print_time)] if part.print_time is not None else []
    told += [" ".join(filter(None, (grams(part.grams), part.material)))] if part.grams is not None else []
    return ", ".join(told)


def _build_of(parent: str | None, work: Work) -> str:
    if parent is None:
        raise BadWish((("build", "an assembly in no other one needs its build"),))
    return work.get(Build, live_row(work, "assembly", parent).build_id).code


def _refuse_what_gets_lost(wish: wishes.AddAssemblyWithParts, part: NewPart, work: Work) -> None:
    """Grams need a material; a part that is there keeps its own figures; a material is no word of a name."""
    if part.name and part.grams is not None and (part.material or wish.material) is None:
        raise BadWish((("material", f"{part.code} has grams: say of which material"),))
    figures = part.handed or part.print_time is not None or part.grams is not None
    if not part.name and figures and work.first(PartRow, col(PartRow.code) == part.code) is not None:
        raise BadWish((("parts", f"{part.code} is there with its own figures: leave all but x{part.quantity} out"),))
    codes = {row.code for row in work.all(Material) if is_live(row)} if part.name else set()
    named = next((word for word in part.name.split() if word in codes), None)
    if named is not None:
        raise BadWish((("parts", f"{named} in the name of {part.code} is a material: write it behind the grams"),))


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
        material=None if part.grams is None else Ask(part.material, None) if part.material else wish.material,
        grams=part.grams,
    )


def _usage(wish: wishes.AddAssemblyWithParts, part: NewPart, work: Work) -> Usage:
    """A part that is there already comes into the assembly as well."""
    if work.first(PartRow, col(PartRow.code) == part.code) is None:
        raise BadWish((("parts", f"there is no part {part.code} yet: write its name behind the code"),))
    return Usage(assembly=wish.code, part=part.code, quantity=part.quantity, side_rule=part.side_rule)
