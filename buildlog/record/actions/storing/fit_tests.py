"""Fit tests and the usages that they touch."""

import dataclasses
from typing import Any

from buildlog.errors import BadWish, Refused
from buildlog.record.actions.storing.rows import live_row
from buildlog.record.actions.storing.storing import Storing
from buildlog.record.actions.storing.tree import usages_below, way_up
from buildlog.record.tables.bench import FitResult, FitTest, FitTestUsage
from buildlog.record.tables.tree import Assembly, Part, Usage
from buildlog.record.writer import Work
from buildlog.terms import FitKind, FitRule


class FitTestStoring(Storing):
    NOUN = "fit test"

    def complete(self, form: Any) -> Any:
        """Load and on-person fits go stale by any new piece; all parts directly in the assembly are touched."""
        rule = form.rule
        if rule is None:
            strict = form.kind in (FitKind.LOAD, FitKind.ON_PERSON)
            rule = (FitRule.ANY_NEW_PIECE if strict else FitRule.NEW_REVISION).value
        parts = form.parts
        if not parts:
            assembly = live_row(self.work, "assembly", form.assembly)
            usages = self.work.all(Usage, assembly_id=assembly.id, ended_at=None)
            parts = tuple(dict.fromkeys(self.work.get(Part, usage.part_id).code for usage in usages))
            if not parts:
                raise BadWish((("parts", f"{form.assembly} holds no part directly: name the parts below it"),))
        return dataclasses.replace(form, rule=rule, parts=parts)

    def check(self, form: Any, row: Any) -> None:
        assembly = live_row(self.work, "assembly", form.assembly)
        if row is None or row.assembly_id == assembly.id:
            return
        if self.work.first(FitResult, fit_test_id=row.id):
            raise Refused(f"{form.code} has results in its assembly: retire it and add another fit test.")
        leading = self.work.first(Assembly, lead_test_id=row.id)
        if leading is not None:
            raise Refused(f"{form.code} proves the lead side of {leading.code}: take that away first.")

    def added(self, row: Any, form: Any) -> None:
        for usage in self._usages(form):
            self.work.add(FitTestUsage(fit_test_id=row.id, usage_id=usage.id or 0))
        refuse_higher_than_needed(row, self.work)

    def changed(self, row: Any, before: Any, after: Any) -> None:
        if (before.parts, before.assembly) == (after.parts, after.assembly):
            return
        for touched in self.work.all(FitTestUsage, fit_test_id=row.id):
            self.work.delete(touched)
        self.added(row, after)

    def _usages(self, form: Any) -> list[Usage]:
        """The usages of the named parts in the assembly and below it, in the order of the names."""
        assembly = live_row(self.work, "assembly", form.assembly)
        below = usages_below(assembly, self.work)
        found: list[Usage] = []
        for code in form.parts:
            part = live_row(self.work, "part", code)
            usages = [usage for usage in below if usage.part_id == part.id]
            if not usages:
                raise BadWish((("parts", self._where_instead(assembly, part)),))
            found.extend(usages)
        return found

    def _where_instead(self, assembly: Assembly, part: Part) -> str:
        """What to name where the assembly holds no such part: the lowest one above that does."""
        told = f"{part.code} is not used in {assembly.code} nor below it"
        for above in way_up(assembly, self.work):
            if any(usage.part_id == part.id for usage in usages_below(above, self.work)):
                sides = " (one test of both sides together; for a result on each side, add a test for each)"
                per_side = sides if any(step.paired for step in way_up(assembly, self.work)) else ""
                return f"{told}: put the test on {above.code}, the lowest that holds both{per_side}"
        return f"{told}, nor elsewhere in its tree: add it to an assembly first"


def refuse_higher_than_needed(test: FitTest, work: Work) -> None:
    """Refuse when the assembly of the test is not the lowest that holds all that it touches."""
    touched = work.all(FitTestUsage, fit_test_id=test.id)
    homes = {work.get(Usage, touch.usage_id).assembly_id for touch in touched}
    ways = [[step.id for step in way_up(work.get(Assembly, home), work)] for home in sorted(homes)]
    shared = [step for step in ways[0] if all(step in way for way in ways[1:])] if ways else []
    if not shared or shared[0] == test.assembly_id:
        return
    lowest = work.get(Assembly, shared[0])
    own = work.get(Assembly, test.assembly_id)
    raise Refused(
        f"{test.code} belongs to {lowest.code}, the lowest assembly that holds all it touches, "
        f"not to {own.code}: name {lowest.code}."
    )
