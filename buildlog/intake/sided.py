"""New handed parts whose assembly has no side: told with all else that is wrong in the files."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from buildlog.intake.form_rows import FormRow, Unreadable
from buildlog.proposals.file_problems import Problems
from buildlog.proposals.recorded import Rows, live_forms
from buildlog.proposals.sides import WITHOUT_A_SIDE, handed_without_side
from buildlog.terms import SideRule

Tree = Mapping[str, tuple[str | None, bool] | None]
"""By code of an assembly its parent and whether it is paired; None where its row cannot be read."""


def tell_handed_without_side(things: Iterable[FormRow | Unreadable], held: Rows, problems: Problems) -> None:
    """Only where the whole way up is known; a part that is kept already is left to the record."""
    things = tuple(things)
    parts = [read for read in things if read.noun == "part" and read.values.get("handed")]
    if not parts:
        return
    kept = {form.code for form in live_forms(held, "part")}
    tree = _tree(things, held)
    for read in parts:
        assembly = read.values.get("assembly")
        as_position = read.values.get("side_rule") in (None, SideRule.AS_POSITION)
        if read.key not in kept and as_position and assembly is not None and _has_no_side(assembly, tree):
            told = f"{handed_without_side(read.key, assembly)}: say {WITHOUT_A_SIDE}"
            problems.add(*read.columns.place("assembly", "assembly"), told)


def _tree(things: Iterable[FormRow | Unreadable], held: Rows) -> Tree:
    found: dict[str, tuple[str | None, bool] | None] = {
        form.code: (form.parent, form.paired) for form in live_forms(held, "assembly")
    }
    for read in things:
        if read.noun == "assembly":
            found[read.key] = (read.form.parent, read.form.paired) if isinstance(read, FormRow) else None
    return found


def _has_no_side(code: str, tree: Tree) -> bool:
    """Whether neither it nor anything above is paired; False where that cannot be told."""
    seen: set[str] = set()
    step: str | None = code
    while step is not None and step not in seen:
        seen.add(step)
        known = tree.get(step)
        if known is None or known[1]:
            return False
        step = known[0]
    return step is None
