"""Goals of an episode in words, and which of them were reached."""

from collections.abc import Iterator

from buildlog.facts.builds import Goal
from buildlog.facts.snapshot import Snapshot
from buildlog.report.period import Period


def goal_name(snapshot: Snapshot, goal: Goal) -> str:
    """``ready: fore leg L``, ``answer: Which hinge?``, or a free goal in its own words."""
    side = f" {goal.side.value}" if goal.side else ""
    if goal.assembly_id is not None:
        named = snapshot.assembly[goal.assembly_id].name + side
    elif goal.part_id is not None:
        named = snapshot.part[goal.part_id].name + side
    elif goal.step_id is not None:
        named = next(step.name for step in snapshot.steps if step.id == goal.step_id) + side
    elif goal.question_id is not None:
        named = next(question.text for question in snapshot.questions if question.id == goal.question_id)
    else:
        return goal.text
    return f"{goal.kind.value}: {named}" + (f", {goal.text}" if goal.text else "")


def goals_reached(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    """Goals ticked in the period."""
    numbers = {episode.id: episode.number for episode in snapshot.episodes if episode.build_id == build_id}
    for goal in snapshot.goals:
        if goal.episode_id in numbers and goal.retired_at is None and period.holds(goal.ticked_at):
            yield goal_name(snapshot, goal)
