"""Steps in their order, waits, questions with what they hold."""

import dataclasses
from typing import Any

from sqlmodel import col

from buildlog.errors import Refused
from buildlog.record.actions.storing.loops import refuse_loops
from buildlog.record.actions.storing.rows import live_row
from buildlog.record.actions.storing.storing import Storing
from buildlog.record.actions.storing.targets import refuse_side, target_columns
from buildlog.record.tables import Row
from buildlog.record.tables.bench import QuestionTarget, Step, StepDone, StepUse
from buildlog.terms import StepKind


class StepStoring(Storing):
    NOUN = "step"

    def complete(self, form: Any) -> Any:
        """Without a place it comes after the last one; a solvent bond cures as is usual where nothing was typed."""
        usual = self.work.reference.bonds["solvent_weld"]
        cures = form.kind == StepKind.SOLVENT_BOND
        clocks = {"handle_after": usual.handle_after_minutes.whole, "load_after": usual.load_after_minutes.whole}
        empty = {name: minutes if cures else 0 for name, minutes in clocks.items() if getattr(form, name) is None}
        form = dataclasses.replace(form, **empty)
        if form.place is not None:
            return form
        places = [step.place for step in self._beside(self.columns(dataclasses.replace(form, place=0)))]
        return dataclasses.replace(form, place=max(places, default=0) + 1)

    def check(self, form: Any, row: Row | None) -> None:
        if not isinstance(row, Step):
            return
        columns = self.columns(form)
        moved = (columns["assembly_id"], columns["part_id"]) != (row.assembly_id, row.part_id)
        if moved and self.work.first(StepDone, step_id=row.id):
            raise Refused(f"{form.code} was done where it is: retire it and add another step.")

    def added(self, row: Any, form: Any) -> None:
        self._make_room(row)
        for line in form.uses:
            item = live_row(self.work, "bought item", line.code)
            self.work.add(StepUse(step_id=row.id, bought_item_id=item.id, quantity=line.quantity))
        refuse_loops(self.work)

    def changed(self, row: Any, before: Any, after: Any) -> None:
        place = ("place", "assembly", "part")
        if any(getattr(before, name) != getattr(after, name) for name in place):
            self._make_room(row)
        if before.uses != after.uses:
            for use in self.work.all(StepUse, step_id=row.id):
                self.work.delete(use)
            for line in after.uses:
                item = live_row(self.work, "bought item", line.code)
                self.work.add(StepUse(step_id=row.id, bought_item_id=item.id, quantity=line.quantity))
        refuse_loops(self.work)

    def brought_back(self, row: Any, _form: Any) -> None:
        self._make_room(row)
        refuse_loops(self.work)

    def _beside(self, columns: dict[str, Any]) -> list[Step]:
        """Live steps of the same assembly or part."""
        return self.work.all(
            Step,
            assembly_id=columns["assembly_id"],
            part_id=columns["part_id"],
            retired_at=None,
            order_by=col(Step.place),
        )

    def _make_room(self, row: Step) -> None:
        """Steps at its place and right behind it move on by one."""
        place = row.place
        for step in self._beside({"assembly_id": row.assembly_id, "part_id": row.part_id}):
            if step.id != row.id and step.place == place:
                place += 1
                self.work.change(step, place=place)


class WaitStoring(Storing):
    NOUN = "wait"

    def check(self, form: Any, _row: Row | None) -> None:
        for assembly_code, step_code in ((form.assembly, form.step), (form.on_assembly, form.on_step)):
            assembly = live_row(self.work, "assembly", assembly_code)
            if step_code is None:
                continue
            step = live_row(self.work, "step", step_code)
            if step.assembly_id != assembly.id:
                raise Refused(f"{step_code} is no step of {assembly_code}: name one of its own steps.")

    def added(self, _row: Any, _form: Any) -> None:
        refuse_loops(self.work)

    def changed(self, _row: Any, _before: Any, _after: Any) -> None:
        refuse_loops(self.work)

    def brought_back(self, _row: Any, _form: Any) -> None:
        refuse_loops(self.work)


class QuestionStoring(Storing):
    NOUN = "question"

    def complete(self, form: Any) -> Any:
        answered = form.answered or (self.work.at if form.answer else None)
        return dataclasses.replace(form, asked=form.asked or self.work.at, answered=answered)

    def check(self, form: Any, _row: Row | None) -> None:
        build = live_row(self.work, "build", form.build)
        for target in form.holds:
            refuse_side(target, ("assembly", "part"), build.id, self.work)

    def added(self, row: Any, form: Any) -> None:
        for target in form.holds:
            columns = target_columns(target, ("assembly", "part"), self.work)
            self.work.add(QuestionTarget(question_id=row.id, side=target.side, **columns))

    def changed(self, row: Any, before: Any, after: Any) -> None:
        if before.holds == after.holds:
            return
        for target in self.work.all(QuestionTarget, question_id=row.id):
            self.work.delete(target)
        self.added(row, after)
