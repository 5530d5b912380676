"""Planning, filming and copying shots, and going on without one."""

from buildlog.errors import Refused
from buildlog.proposals import shots as wishes
from buildlog.proposals.forms_story import Shot as ShotForm
from buildlog.record.actions.episodes import open_episodes
from buildlog.record.actions.moments import local
from buildlog.record.actions.new_things import build_named, next_code
from buildlog.record.actions.places import by_prefix
from buildlog.record.actions.storing.by_noun import storing_of
from buildlog.record.tables.bench import Step
from buildlog.record.tables.builds import Build
from buildlog.record.tables.story import Shot
from buildlog.record.tables.tree import Assembly, Part
from buildlog.record.writer import Work


def plan_shot(wish: wishes.PlanShot, work: Work) -> str:
    step = by_prefix(work, Step, wish.step, "step") if wish.step is not None else None
    build = build_named(work, wish.build) if wish.build is not None or step is None else _build_of(work, step)
    number = wish.episode
    if number is None:
        open_ones = open_episodes(work, build)
        number = open_ones[0].number if open_ones else None
    form = ShotForm(
        code=wish.code or next_code(work, Shot, "S"),
        build=build.code,
        what=wish.what,
        episode=number,
        step=step.code if step is not None else None,
        side=wish.side,
    )
    storing_of("shot", work).add(form)
    before = "" if step is None else f", before «{step.name}» ({step.code})"
    held = ", which it holds" if step is not None and step.cannot_be_undone else ""
    where = "" if number is None else f" for episode {number}"
    return f"Planned shot {form.code}{where}: {wish.what}{before}{held}."


def film_shot(wish: wishes.FilmShot, work: Work) -> str:
    shot = _shot(work, wish.shot)
    if shot.filmed_at is not None:
        else_ = "" if shot.safe_at is not None else "say that its footage is safe; or "
        raise Refused(
            f"{shot.code} was filmed at {local(work, shot.filmed_at)}: {else_}where that is lost, say so first."
        )
    work.change(shot, filmed_at=work.at, **({"safe_at": work.at} if wish.safe else {}))
    then = "its footage is safe" if wish.safe else "copy the footage and look at it"
    return f"Filmed {shot.code}: {shot.what}; {then}."


def footage_safe(wish: wishes.FootageSafe, work: Work) -> str:
    shot = _shot(work, wish.shot)
    if shot.filmed_at is None:
        raise Refused(f"{shot.code} is not filmed yet: there is no footage to copy. Tick it as filmed first.")
    if shot.safe_at is not None:
        raise Refused(
            f"The footage of {shot.code} is safe since {local(work, shot.safe_at)}: where it is lost, say so."
        )
    if work.at < shot.filmed_at:
        raise Refused(f"{shot.code} was filmed only at {local(work, shot.filmed_at)}: copy it after that.")
    work.change(shot, safe_at=work.at)
    return f"The footage of {shot.code} is copied and looked at: {shot.what}."


def footage_lost(wish: wishes.FootageLost, work: Work) -> str:
    shot = _shot(work, wish.shot)
    if shot.filmed_at is None:
        raise Refused(f"{shot.code} is not filmed yet: there is no footage to lose. Film it first.")
    work.change(shot, filmed_at=None, safe_at=None)
    return f"{shot.code} is to be filmed again: {shot.what}."


def overrule_shot(wish: wishes.OverruleShot, work: Work) -> str:
    shot = _shot(work, wish.shot)
    if shot.safe_at is not None:
        raise Refused(
            f"The footage of {shot.code} is safe since {local(work, shot.safe_at)}: it holds nothing, go on."
        )
    if shot.overruled_at is not None:
        raise Refused(f"{shot.code} was overruled at {local(work, shot.overruled_at)}: it holds nothing, go on.")
    work.change(shot, overruled_at=work.at, overruled_why=wish.why)
    return f"Going on without {shot.code}: {shot.what}{f', because {wish.why}' if wish.why else ''}."


def _shot(work: Work, code: str) -> Shot:
    shot = by_prefix(work, Shot, code, "shot")
    if shot.retired_at is not None:
        raise Refused(f"shot {shot.code} is retired: bring it back first.")
    return shot


def _build_of(work: Work, step: Step) -> Build:
    """The build that a step belongs to."""
    of: Assembly | Part
    of = work.get(Part, step.part_id) if step.assembly_id is None else work.get(Assembly, step.assembly_id)
    return work.get(Build, of.build_id)
