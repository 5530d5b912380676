"""Shots with the step they come before, questions of viewers and promises with their episodes and moments."""

import dataclasses
from typing import Any

from buildlog.errors import Refused
from buildlog.record.actions.storing.plans import episode_numbered
from buildlog.record.actions.storing.rows import live_row
from buildlog.record.actions.storing.storing import Storing
from buildlog.record.actions.storing.tree import has_sides
from buildlog.record.tables import Row
from buildlog.record.tables.story import Shot
from buildlog.record.tables.tree import Assembly, Part


class ShotStoring(Storing):
    NOUN = "shot"

    def columns(self, form: Any) -> dict[str, Any]:
        episode = None if form.episode is None else episode_numbered(form.build, form.episode, self.work).id
        return super().columns(form) | {"episode_id": episode}

    def check(self, form: Any, row: Row | None) -> None:
        if form.step is not None:
            self._refuse_step(form)
        if form.episode is not None:
            episode = episode_numbered(form.build, form.episode, self.work)
            moved = not isinstance(row, Shot) or row.episode_id != episode.id
            if moved and episode.closed_at is not None:
                raise Refused(f"Episode {form.episode} is closed: plan the shot for a later one.")

    def _refuse_step(self, form: Any) -> None:
        """A step of another build, and a side where the step has none."""
        step = live_row(self.work, "step", form.step)
        if step.assembly_id is not None:
            of: Assembly | Part = self.work.get(Assembly, step.assembly_id)
            sided = isinstance(of, Assembly) and has_sides(of, self.work)
        else:
            of = self.work.get(Part, step.part_id)
            sided = of.handed
        if of.build_id != live_row(self.work, "build", form.build).id:
            raise Refused(f"step {form.step} belongs to another build: name a step of this one.")
        if form.side is not None and not sided:
            raise Refused(f"{of.code}, where step {form.step} is done, has no sides: leave out {form.side}.")


class ViewerQuestionStoring(Storing):
    NOUN = "viewer question"

    def columns(self, form: Any) -> dict[str, Any]:
        episodes = {
            column: None if number is None else episode_numbered(form.build, number, self.work).id
            for column, number in (("asked_episode_id", form.asked_in), ("answered_episode_id", form.answered_in))
        }
        return super().columns(form) | episodes

    def complete(self, form: Any) -> Any:
        answered = form.answered or (self.work.at if form.answer else None)
        return dataclasses.replace(form, asked=form.asked or self.work.at, answered=answered)


class PromiseStoring(Storing):
    NOUN = "promise"

    def complete(self, form: Any) -> Any:
        return dataclasses.replace(form, made=form.made or self.work.at)
