"""Plan a shot, say that it is filmed, that its footage is safe or lost, or go on without it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from buildlog.proposals.shots import FilmShot, FootageLost, FootageSafe, OverruleShot, PlanShot
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.widgets.tones import Tone
from buildlog.wording import few

if TYPE_CHECKING:
    from buildlog.facts.builds import Episode
    from buildlog.screens.base import LiveScreen
    from buildlog.status.shots import ShotStanding
    from buildlog.status.status import Status

FILMED, SAFE, LOST, WITHOUT = "filmed", "safe", "lost", "without"


async def tell_of_shot(screen: LiveScreen, shot_id: int | None = None) -> None:
    """Of one shot, or one of those that are open: what became of it."""
    found = await _choose(
        screen, "What became of which shot?", shot_id, ("to film", "filmed", "gone on without"), NONE_TO_FILM
    )
    if found is None:
        return
    code = found.shot.code
    how = await screen.pick(f"{code}: {found.shot.what}", _answers(found.state.value))
    if how == FILMED:
        await _filmed(screen, found)
    elif how == SAFE and found.shot.filmed_at is None:
        await _filmed(screen, found, safe=True)
    elif how == SAFE:
        await screen.wish(FootageSafe(shot=code))
    elif how == LOST:
        await screen.wish(FootageLost(shot=code))
    elif how == WITHOUT:
        await screen.ask(OverruleShot, f"Go on without {code}: {found.shot.what}", values={"shot": code})


def _answers(state: str) -> list[Choice[str]]:
    if state == "filmed":
        return [
            Choice(SAFE, "footage safe", "copied and looked at"),
            Choice(LOST, "footage lost", "it is to be filmed again", Tone.CAUTION),
            Choice(WITHOUT, "go on without", "the step that it holds is free", Tone.CAUTION),
        ]
    answers = [
        Choice(FILMED, "filmed", "the footage is still to be copied and looked at"),
        Choice(SAFE, "filmed, footage safe", "copied and looked at too"),
    ]
    if state == "to film":
        answers.append(Choice(WITHOUT, "go on without", "the step that it holds is free", Tone.CAUTION))
    return answers


async def film_shots(screen: LiveScreen, shot_ids: Sequence[int]) -> bool:
    """All of them at the same time, as one change; whether it was recorded."""
    from buildlog.screens.asking import ask_wish

    standing = _standing(screen.status) if screen.status is not None else ()
    codes = [one.shot.code for one in standing if one.shot.id in shot_ids and one.state.value in NOT_FILMED]
    if not codes:
        screen.live.tell(NONE_TO_FILM)
        return False
    values = {"shot": codes[0], "safe": False}
    asked = await ask_wish(screen.live, FilmShot, f"Filmed: {few(codes)}", values=values, only=("safe",))
    if asked is None:
        return False
    wishes = [(replace(asked.wish, shot=code), asked.at) for code in codes]
    return await screen.live.record_all(wishes, f"Filmed {few(codes)}.") is not None


async def film_shot(screen: LiveScreen, shot_id: int | None = None) -> None:
    """It is filmed: now, or when is typed."""
    found = await _choose(screen, "Which shot is filmed?", shot_id, NOT_FILMED, NONE_TO_FILM)
    if found is not None:
        await _filmed(screen, found)


async def _filmed(screen: LiveScreen, found: ShotStanding, safe: bool = False) -> None:
    """When, and whether its footage is safe too; enter at once is now."""
    code = found.shot.code
    values = {"shot": code, "safe": safe}
    await screen.ask(FilmShot, f"{code} is filmed: {found.shot.what}", values=values, only=("safe",))


async def footage_safe(screen: LiveScreen, shot_id: int | None = None) -> None:
    """Its footage was copied and looked at."""
    found = await _choose(screen, "Which footage is copied and looked at?", shot_id, ("filmed",), NONE_FILMED)
    if found is not None:
        await screen.wish(FootageSafe(shot=found.shot.code))


async def footage_lost(screen: LiveScreen, shot_id: int | None = None) -> None:
    found = await _choose(screen, "Which footage is lost?", shot_id, ("filmed", "footage safe"), NO_FOOTAGE)
    if found is not None:
        await screen.wish(FootageLost(shot=found.shot.code))


async def overrule_shot(screen: LiveScreen, shot_id: int | None = None) -> None:
    """Go on without it; the reason is typed."""
    found = await _choose(screen, "Go on without which shot?", shot_id, ("to film", "filmed"), NONE_OPEN)
    if found is not None:
        title = f"Go on without {found.shot.code}: {found.shot.what}"
        await screen.ask(OverruleShot, title, values={"shot": found.shot.code})


async def plan_shot(screen: LiveScreen, build_code: str, episode: Episode | None) -> None:
    """What is to be filmed, and before which step."""
    values = {"build": build_code, "episode": episode.number if episode is not None else None}
    title = f"A shot{f' for episode {episode.number}' if episode is not None else ''}"
    await screen.ask(PlanShot, title, values=values, only=("what", "step", "side"), when_too=False)


NOT_FILMED = ("to film", "gone on without")
NONE_TO_FILM = "No shot is still to film: {plan_shot} plans one."
NONE_FILMED = "No footage waits to be copied: {film_shot} says that a shot is filmed."
NO_FOOTAGE = "No shot is filmed yet, so no footage can be lost: {film_shot} says that one is."
NONE_OPEN = "No shot is open that one could go on without: {plan_shot} plans one."


async def _choose(
    screen: LiveScreen, title: str, shot_id: int | None, states: tuple[str, ...], empty: str
) -> ShotStanding | None:
    if screen.status is None:
        return None
    standing = _standing(screen.status)
    here = next((one for one in standing if one.shot.id == shot_id), None)
    if here is not None and here.state.value in states:
        return here
    if here is not None:
        screen.live.tell(f"{here.shot.code} is at «{here.state.value}»: nothing was recorded.")
        return None
    choices = [Choice(one, one.shot.code, one.shot.what) for one in standing if one.state.value in states]
    return await screen.choose(title, choices, empty=empty)


def _standing(status: Status) -> tuple[ShotStanding, ...]:
    from buildlog.status.shots import shots_standing

    return shots_standing(status.snapshot, status.now)
