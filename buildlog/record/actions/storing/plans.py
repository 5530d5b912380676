"""Builds, milestones with what they want, goals of episodes."""

from datetime import UTC
from typing import Any

from sqlmodel import col

from buildlog.errors import BadWish, NotFound, Refused
from buildlog.methods.weeks import next_occurrence
from buildlog.proposals.lines import Target
from buildlog.proposals.recorded_apart import GOAL_OF
from buildlog.record.actions.storing.rows import live_row
from buildlog.record.actions.storing.storing import Storing
from buildlog.record.actions.storing.targets import refuse_side, target_columns
from buildlog.record.tables import Row
from buildlog.record.tables.builds import Episode, MilestoneTarget
from buildlog.record.writer import Work
from buildlog.terms import GoalKind, Side, when


def episode_numbered(build_code: str, number: int, work: Work) -> Episode:
    """The live episode of that number."""
    build = live_row(work, "build", build_code)
    found = work.first(
        Episode,
        col(Episode.build_id) == build.id,
        col(Episode.number) == number,
        col(Episode.retired_at).is_(None),
    )
    if found is None:
        raise NotFound("episode", f"{build_code}/{number}")
    return found


class BuildStoring(Storing):
    NOUN = "build"

    def more(self, _form: Any) -> dict[str, Any]:
        return {"created_at": self.work.at}

    def check(self, form: Any, _row: Row | None) -> None:
        if form.filming_rule:
            try:
                next_occurrence(form.filming_rule, when(self.work.at), UTC, when(self.work.at))
            except ValueError as error:
                raise BadWish((("filming_rule", str(error)),)) from error


class EpisodeStoring(Storing):
    NOUN = "episode"

    def check(self, form: Any, row: Row | None) -> None:
        if isinstance(row, Episode) and row.closed_at is not None and form.films_at != row.films_at:
            raise Refused(f"Episode {form.number} is closed: its filming moment stays. Undo the closing first.")


class GoalStoring(Storing):
    NOUN = "goal"

    def columns(self, form: Any) -> dict[str, Any]:
        things: dict[str, Any] = dict.fromkeys(("assembly_id", "part_id", "step_id", "question_id"))
        noun = GOAL_OF.get(GoalKind(form.kind))
        if noun is not None:
            things[f"{noun}_id"] = live_row(self.work, noun, form.code).id
        return (
            super().columns(form) | {"episode_id": episode_numbered(form.build, form.number, self.work).id} | things
        )

    def check(self, form: Any, _row: Row | None) -> None:
        if episode_numbered(form.build, form.number, self.work).closed_at is not None:
            raise Refused(f"Episode {form.number} is closed: set goals for a later one.")
        if form.side is not None:
            refuse_side(Target(form.code, Side(form.side)), ("assembly",), None, self.work)


class MilestoneStoring(Storing):
    NOUN = "milestone"

    def check(self, form: Any, _row: Row | None) -> None:
        build_id = None if form.build is None else live_row(self.work, "build", form.build).id
        for target in form.targets:
            refuse_side(target, ("assembly",), build_id, self.work)

    def added(self, row: Any, form: Any) -> None:
        for target in form.targets:
            columns = target_columns(target, ("assembly",), self.work)
            self.work.add(MilestoneTarget(milestone_id=row.id, side=target.side, wanted=target.wanted, **columns))

    def changed(self, row: Any, before: Any, after: Any) -> None:
        if before.targets == after.targets:
            return
        for target in self.work.all(MilestoneTarget, col(MilestoneTarget.milestone_id) == row.id):
            self.work.delete(target)
        self.added(row, after)
