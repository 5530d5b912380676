"""Tick a step of the bench work, record what a fit test found."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from buildlog.facts.naming import position_name
from buildlog.proposals.fits import RecordFit
from buildlog.proposals.places import read_place
from buildlog.proposals.steps import TickStep
from buildlog.screens.acts.named import said_cautions
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.widgets.tones import Tone
from buildlog.wording import span

if TYPE_CHECKING:
    from buildlog.facts.bench import FitTest, Step
    from buildlog.ledger import Outcome
    from buildlog.screens.base import LiveScreen
    from buildlog.status.doable import Doable
    from buildlog.status.fits import FitState
    from buildlog.status.status import Status

NOW, TYPED = "now", "typed"
PASSED, FAILED = "passed", "failed"
NO_STEP = "No step is open: Mirror ({go_mirror}) says what holds those there are, Things ({go_things}) adds one."
NO_FIT = "No fit is to be tested now: Fits ({go_fits}) says why, Things ({go_things}) adds one."
AFTER_FAILURE = ("what_then", "text", "scrap", "overruled")


async def tick_step(screen: LiveScreen, position_id: int | None = None, step_id: int | None = None) -> None:
    """One of the steps that are open, in a position or anywhere; the caution of its kind is said then."""
    status = screen.status
    if status is None:
        return
    choices = [
        Choice(doable, doable.text, told_of_doable(status, doable))
        for doable in open_steps(status)
        if (position_id is None or doable.position_id == position_id)
        and (step_id is None or doable.about.id == step_id)
    ]
    found = await screen.choose("Tick which step?", choices, empty=NO_STEP)
    if found is None:
        return
    step = next(step for step in status.snapshot.steps if step.id == found.about.id)
    how = await screen.pick(
        f"{found.text}: done?",
        [Choice(NOW, "done just now"), Choice(TYPED, "done earlier, or in part", "type when, and how long it took")],
        caution=said_cautions(status, [found.caution_key]),
    )
    values = tick_values(status, step, found)
    if how == NOW:
        await screen.wish(TickStep(**values))
    elif how == TYPED:
        only = ("real_time", "overruled") if step.assembly_id is not None else ("pieces", "real_time")
        await screen.ask(TickStep, f"{found.text}", values=values, only=only)


def open_steps(status: Status) -> list[Doable]:
    return [doable for doable in status.doable if doable.about.noun == "step"]


def told_of_doable(status: Status, doable: Doable) -> str:
    """``LEG L, 30 min, needs two``."""
    place = position_name(status.snapshot, doable.position_id) if doable.position_id is not None else ""
    minutes = span(doable.minutes) if doable.minutes else ""
    two = "needs two" if doable.needs_two else "a helper can" if doable.helper_can else ""
    return ", ".join(part for part in (place, minutes, two) if part)


def tick_values(status: Status, step: Step, doable: Doable) -> dict[str, Any]:
    """What a tick of it names: the step, and the position or the pieces; of a handed part the first side left."""
    from buildlog.status.ticks import ticks_of

    tick = ticks_of(status, step, doable)[0]
    return {"step": tick.step} | ({"place": tick.place} if tick.place is not None else {"what": tick.what})


async def record_fit(screen: LiveScreen, position_id: int | None = None, test_id: int | None = None) -> None:
    """One of the fits that are due, failed, stale or to be looked at again."""
    status = screen.status
    if status is None:
        return
    tests = {test.id: test for test in status.snapshot.fit_tests}
    choices = [
        Choice(state, tests[state.test_id].name, told_of_fit(status, state), _tone(state))
        for state in fits_to_test(status)
        if (position_id is None or state.position_id == position_id) and (test_id is None or state.test_id == test_id)
    ]
    state = await screen.choose("Which fit was tried?", choices, empty=NO_FIT)
    if state is not None:
        await record_state(screen, status, state)


async def record_state(screen: LiveScreen, status: Status, state: FitState) -> Outcome | None:
    """What was found when this fit was tried; the caution of its kind is said then."""
    from buildlog.status.cautions import caution_of_test

    test = next(test for test in status.snapshot.fit_tests if test.id == state.test_id)
    place = position_name(status.snapshot, state.position_id)
    how = await screen.pick(
        f"{test.name}, {place}: what was found?",
        [
            Choice(PASSED, "passed"),
            Choice(FAILED, "failed", "say what then"),
            Choice(TYPED, "measured, or earlier", "type the figure, when, or in words"),
        ],
        caution=said_cautions(status, [caution_of_test(test.kind)]),
    )
    return await _record(screen, test, place, state, how) if how is not None else None


async def _record(screen: LiveScreen, test: FitTest, place: str, state: FitState, how: str) -> Outcome | None:
    spot = state.verdict.value == "spot check"
    values: dict[str, Any] = {"test": test.code, "place": read_place(place), "spot_check": spot}
    if how == PASSED:
        return await screen.wish(RecordFit(**values, outcome=PASSED))
    if how == FAILED:
        values["outcome"] = FAILED
        return await screen.ask(RecordFit, f"{test.name}, {place}: failed", values=values, only=AFTER_FAILURE)
    only = ("measured", "outcome", *AFTER_FAILURE)
    return await screen.ask(RecordFit, f"{test.name}, {place}", values=values, only=only)


def fits_to_test(status: Status) -> list[FitState]:
    """Failed and stale ones first; those that cannot be tested yet are left out."""
    order = {"failed": 0, "stale": 1, "due": 2, "spot check": 3}
    asked = [state for state in status.fits.all if state.verdict.value in order]
    return sorted(asked, key=lambda state: order[state.verdict.value])


def told_of_fit(status: Status, state: FitState) -> str:
    """``HEAD, stale: VISOR was replaced``; that it is due needs no word where the reason says so."""
    place = position_name(status.snapshot, state.position_id)
    verdict = state.verdict.value
    if state.why.startswith(verdict) or (verdict == "due" and state.why):
        return f"{place}, {state.why}"
    return f"{place}, {verdict}{f': {state.why}' if state.why else ''}"


def _tone(state: FitState) -> Tone:
    return Tone.CAUTION if state.verdict.value in ("failed", "stale") else Tone.FAINT
