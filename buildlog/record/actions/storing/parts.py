"""Parts with the figures of their current revision, and their first usage."""

import dataclasses
from typing import Any

from buildlog.errors import BadWish, Refused
from buildlog.proposals import forms_build
from buildlog.proposals.recorded_apart import current_revision, first_usage
from buildlog.record.actions.storing.figures import heads_changed, set_heads
from buildlog.record.actions.storing.rows import WorkRows, live_row
from buildlog.record.actions.storing.storing import Storing
from buildlog.record.actions.storing.usages import UsageStoring, refuse_wrong_side
from buildlog.record.tables import Row
from buildlog.record.tables.pieces import Lot
from buildlog.record.tables.printing import FileLine, JobLine
from buildlog.record.tables.tree import Demand, Part, Revision, Usage
from buildlog.terms import Origin

USAGE_FIELDS = ("assembly", "quantity", "side_rule", "spares", "second_will_do")
FIGURES = {"print_time": "print_minutes", "hand_time": "hand_minutes", "figures_from": "figures_from"}


class PartStoring(Storing):
    NOUN = "part"

    def complete(self, form: Any) -> Any:
        """A bought part takes one of its item where nothing else is said."""
        if form.origin == Origin.BOUGHT and form.bought_quantity is None:
            return dataclasses.replace(form, bought_quantity=1)
        return form

    def check(self, form: Any, row: Row | None) -> None:
        build = live_row(self.work, "build", form.build)
        self._refuse_variant_of_itself(form)
        if not isinstance(row, Part):
            return
        if row.build_id != build.id:
            raise Refused(f"{form.code} belongs to another build: add it to {build.code} as a part of its own.")
        if form.revision != current_revision(WorkRows(self.work), row.id or 0).letter:
            text = f"a new revision says what the old pieces are good for: revise {form.code} instead"
            raise BadWish((("revision", text),))
        if (form.handed, form.origin) != (row.handed, row.origin) and self._is_made(row):
            raise Refused(
                f"There are pieces or prints of {form.code}: whether it is handed and where it comes from stays. "
                "Add another part."
            )

    def added(self, row: Any, form: Any) -> None:
        revision = self.work.add(
            Revision(
                part_id=row.id,
                letter=form.revision,
                since_at=self.work.at,
                **{column: getattr(form, name) for name, column in FIGURES.items()},
            )
        )
        set_heads(form, [], Demand, {"revision_id": revision.id or 0}, self.work)
        if form.assembly is not None:
            UsageStoring(self.work).add(_usage_form(form))

    def changed(self, row: Any, before: Any, after: Any) -> None:
        revision = current_revision(WorkRows(self.work), row.id)
        figures = {column: getattr(after, name) for name, column in FIGURES.items()}
        if any(getattr(revision, column) != value for column, value in figures.items()):
            self.work.change(revision, **figures)
        if heads_changed(before, after):
            demands = self.work.all(Demand, revision_id=revision.id)
            set_heads(after, demands, Demand, {"revision_id": revision.id}, self.work)
        if any(getattr(before, name) != getattr(after, name) for name in USAGE_FIELDS):
            self._change_usage(row, before, after)
        if before.handed != after.handed:
            for usage in self.work.all(Usage, part_id=row.id, ended_at=None):
                refuse_wrong_side(usage, self.work)

    def _change_usage(self, row: Part, before: Any, after: Any) -> None:
        """The part's form shows its first usage: another assembly ends it and begins one there."""
        usage = first_usage(WorkRows(self.work), row.id or 0)
        usages = UsageStoring(self.work)
        if before.assembly == after.assembly:
            usages.change(usage, {name: getattr(after, name) for name in USAGE_FIELDS})
            return
        if usage is not None:
            usages.retire(usage)
        if after.assembly is not None:
            usages.add(_usage_form(after))

    def _is_made(self, row: Part) -> bool:
        return any(self.work.first(table, part_id=row.id) is not None for table in (Lot, FileLine, JobLine))

    def _refuse_variant_of_itself(self, form: Any) -> None:
        step = None if form.variant_of is None else live_row(self.work, "part", form.variant_of)
        names = [form.code]
        while step is not None:
            if step.code in names:
                raise Refused(
                    f"{' is a variant of '.join([*names, step.code])}: a variant needs an original. "
                    "Leave the last one without."
                )
            names.append(step.code)
            step = None if step.variant_of_id is None else self.work.get(Part, step.variant_of_id)


def _usage_form(form: Any) -> Any:
    return forms_build.Usage(part=form.code, **{name: getattr(form, name) for name in USAGE_FIELDS})
