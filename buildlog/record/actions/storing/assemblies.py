"""Assemblies: nodes of the tree, with their positions."""

from typing import Any

from sqlmodel import col

from buildlog.errors import Refused
from buildlog.record.actions.storing.fit_tests import refuse_higher_than_needed
from buildlog.record.actions.storing.loops import refuse_loops
from buildlog.record.actions.storing.positions import lay_out
from buildlog.record.actions.storing.rows import live_row
from buildlog.record.actions.storing.storing import Storing
from buildlog.record.actions.storing.targets import refuse_lost_sides
from buildlog.record.actions.storing.tree import refuse_too_many_slots, subtree, usages_below, way_up
from buildlog.record.actions.storing.usages import refuse_wrong_side
from buildlog.record.tables import Row
from buildlog.record.tables.bench import FitTest, FitTestUsage
from buildlog.record.tables.builds import Build
from buildlog.record.tables.tree import Assembly
from buildlog.record.writer import Work


class AssemblyStoring(Storing):
    NOUN = "assembly"

    def more(self, form: Any) -> dict[str, Any]:
        parent = None if form.parent is None else live_row(self.work, "assembly", form.parent)
        return {"tree_order": _last_place(self.work, parent)}

    def check(self, form: Any, row: Row | None) -> None:
        build = live_row(self.work, "build", form.build)
        parent = None if form.parent is None else live_row(self.work, "assembly", form.parent)
        own = row if isinstance(row, Assembly) else None
        if own is not None and own.build_id != build.id:
            raise Refused(f"{form.code} belongs to another build: retire it there and add it to {build.code}.")
        if parent is None:
            self._refuse_second_root(build, own)
        else:
            self._refuse_parent(form, build, parent, own)
        self._refuse_second_pair(form, parent, own)
        if form.lead_test is not None:
            self._refuse_foreign_test(form, own)

    def added(self, row: Any, _form: Any) -> None:
        lay_out(row, self.work)

    def changed(self, row: Any, before: Any, after: Any) -> None:
        if after.parent != before.parent:
            parent = None if row.parent_id is None else self.work.get(Assembly, row.parent_id)
            self.work.change(row, tree_order=_last_place(self.work, parent))
        if (after.parent, after.paired, after.count) != (before.parent, before.paired, before.count):
            lay_out(row, self.work)
            self._refuse_what_no_longer_fits(row)

    def retired(self, row: Any) -> None:
        lay_out(row, self.work)

    def brought_back(self, row: Any, _form: Any) -> None:
        lay_out(row, self.work)
        self._refuse_what_no_longer_fits(row)

    def _refuse_second_root(self, build: Build, own: Assembly | None) -> None:
        roots = self.work.all(Assembly, build_id=build.id, parent_id=None, retired_at=None)
        for root in roots:
            if own is None or root.id != own.id:
                raise Refused(f"{build.code} has its root already, {root.code}: say in which assembly this one goes.")

    def _refuse_parent(self, form: Any, build: Build, parent: Assembly, own: Assembly | None) -> None:
        if parent.build_id != build.id:
            raise Refused(
                f"{parent.code} is not of build {build.code}: an assembly stays within its build. Name one of that."
            )
        if own is not None and any(step.id == own.id for step in way_up(parent, self.work)):
            raise Refused(f"{parent.code} is itself below {form.code}: it cannot hold it. Name another one.")

    def _refuse_second_pair(self, form: Any, parent: Assembly | None, own: Assembly | None) -> None:
        above = [] if parent is None else list(way_up(parent, self.work))
        below = [] if own is None else [step for step in subtree(own, self.work) if step.id != own.id]
        paired_above = next((step for step in above if step.paired), None)
        paired_below = next((step for step in below if step.paired), None)
        for other, place in ((paired_above, "above"), (paired_below, "below")):
            if form.paired and other is not None:
                raise Refused(
                    f"{form.code} cannot be paired: {other.code} {place} it is paired already, "
                    "and a side is given once on a way. Take «paired» off one of the two."
                )
        if parent and paired_above and paired_below:
            raise Refused(
                f"{form.code} cannot go into {parent.code}: {paired_above.code} above and {paired_below.code} below "
                "are both paired, and a side is given once on a way. Take «paired» off one of the two."
            )

    def _refuse_foreign_test(self, form: Any, own: Assembly | None) -> None:
        test = live_row(self.work, "fit test", form.lead_test)
        if own is None or test.assembly_id != own.id:
            raise Refused(
                f"{form.lead_test} is no fit test of {form.code}: a lead side needs a fit of that assembly. "
                f"Add {form.code}, then its fit test, then name the lead side."
            )

    def _refuse_what_no_longer_fits(self, row: Assembly) -> None:
        """Sides, numbers and fits that followed from where it stood before."""
        usages = usages_below(row, self.work)
        for usage in usages:
            refuse_wrong_side(usage, self.work)
        for below in subtree(row, self.work):
            refuse_lost_sides(below, self.work)
        refuse_too_many_slots(row, self.work)
        touched = self.work.all(FitTestUsage, col(FitTestUsage.usage_id).in_([u.id for u in usages]))
        for test_id in sorted({touch.fit_test_id for touch in touched}):
            test = self.work.get(FitTest, test_id)
            if test.retired_at is None:
                refuse_higher_than_needed(test, self.work)
        refuse_loops(self.work)


def _last_place(work: Work, parent: Assembly | None) -> int:
    column = col(Assembly.parent_id)
    siblings = work.all(Assembly, column.is_(None) if parent is None else column == parent.id)
    return max((sibling.tree_order for sibling in siblings), default=0) + 1
