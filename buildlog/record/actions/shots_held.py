"""The shots that come before a step and still hold it at the moment of the work."""

from sqlmodel import col

from buildlog.facts.shot_state import ShotState, is_of_side, shot_state, still_holds
from buildlog.record.tables.bench import Step
from buildlog.record.tables.story import Shot
from buildlog.record.writer import Work
from buildlog.terms import Side
from buildlog.wording import few


def shots_holding(work: Work, step: Step, side: Side) -> str:
    """«film first: S1 «…»», empty where nothing is to be filmed; only a step that cannot be undone is held."""
    if not step.cannot_be_undone:
        return ""
    held = [
        f"{shot.code} «{shot.what}» {_WORDS[shot_state(shot, work.at)]}"
        for shot in work.all(Shot, Shot.step_id == step.id, col(Shot.retired_at).is_(None))
        if is_of_side(shot.side, side) and still_holds(shot, work.at)
    ]
    return f"film first, since it cannot be undone: {few(held)}" if held else ""


_WORDS = {
    ShotState.TO_FILM: "is not filmed",
    ShotState.FILMED: "is filmed, its footage is still to be copied and looked at",
}
