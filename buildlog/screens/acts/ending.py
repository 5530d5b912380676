"""End a print: finished, failed, begun again, cancelled; swap its spool, correct it afterwards."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from buildlog.proposals.prints import CancelPrint, CorrectPrint, FailPrint, FinishPrint, Restarted, SwapSpool
from buildlog.screens.acts.named import job_of, spool_of
from buildlog.screens.acts.spools import NO_SPOOL, spool_choices
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.widgets.tones import Tone
from buildlog.terms import JobState, Moment
from buildlog.wording import dated, near

if TYPE_CHECKING:
    from buildlog.facts.printing import Job
    from buildlog.screens.base import LiveScreen
    from buildlog.status.job_hours import RunningJob
    from buildlog.status.status import Status

GOOD, SOME, OTHER = "good", "some", "other side"
NOTHING_RUNS = "Nothing runs on any printer: {start_print} starts a print."
OUTCOMES = ("outcomes", "cause", "real_time", "grams", "grams_2", "figures_from", "other_side")
FAILURE = ("cause", "went_wrong", "stopped", "ran_on", "outcomes", "real_time", "grams", "grams_2")


async def finish_print(screen: LiveScreen, job_id: int | None = None) -> None:
    """Which print, and how it came out. One past its end is finished as of its end."""
    status, running = await _running(screen, "Finish which print?", job_id)
    if status is None or running is None:
        return
    ended = running.ends_at if running.past_end else None
    zone = status.snapshot.settings.home_zone
    about = f", ended about {near(ended, status.now, zone)}" if ended else ", just now"
    how = await screen.pick(
        f"{_name(status, running.job_id)} is off the bed: how did it come out?",
        [
            Choice(GOOD, "all pieces good", about.lstrip(", ")),
            Choice(SOME, "not all of them", "say which, when, or what it took"),
            Choice(OTHER, "as the other side", "left and right changed over"),
        ],
    )
    if how == SOME:
        title = f"{_name(status, running.job_id)}: what came out?"
        await screen.ask(FinishPrint, title, values={"job": running.job_id}, only=OUTCOMES, at=ended)
    elif how is not None:
        await screen.wish(FinishPrint(job=running.job_id, other_side=how == OTHER), ended)


async def fail_print(screen: LiveScreen, job_id: int | None = None) -> None:
    """When it went wrong, when laying down stopped, whether filament ran on, and what can be kept."""
    status, running = await _running(screen, "Which print failed?", job_id)
    if status is not None and running is not None:
        title = f"{_name(status, running.job_id)} failed"
        from buildlog.screens.asking import WHEN

        free = replace(WHEN, label="ended", help="when it was noticed and the bed was free; empty: now")
        await screen.ask(FailPrint, title, values={"job": running.job_id}, only=FAILURE, when=free)


async def restart_print(screen: LiveScreen, job_id: int | None = None) -> None:
    _, running = await _running(screen, "Which print was begun again?", job_id)
    if running is not None:
        await screen.wish(Restarted(job=running.job_id))


async def swap_spool(screen: LiveScreen, job_id: int | None = None) -> None:
    """Which print goes on with which spool, and how much came from the one before."""
    status, running = await _running(screen, "Swap the spool of which print?", job_id)
    if status is None or running is None or running.printer_id is None:
        return
    printer = status.snapshot.printer[running.printer_id]
    feeds = status.snapshot.feeds_of_job.get(running.job_id, ())
    on_it, asked = {feed.spool_id for feed in feeds}, {feed.material_id for feed in feeds}
    free = [state for state in status.accounts.spools.values() if state.spool_id not in on_it]
    alike = spool_choices(status, (state for state in free if state.material_id in asked))
    others = spool_choices(status, (state for state in free if state.material_id not in asked))
    title = f"Which spool goes on, on {printer.code}?"
    spool_id = await screen.pick(title, [*alike, *others], empty=NO_SPOOL)
    if spool_id is None:
        return
    values = {"printer": printer.code, "spool": spool_of(status, spool_id).code}
    title = f"{_name(status, running.job_id)} goes on with another spool"
    await screen.ask(SwapSpool, title, values=values, only=("head", "grams", "spool", "anyway"))


async def cancel_print(screen: LiveScreen, job_id: int | None = None) -> None:
    status = screen.status
    if status is None:
        return
    queue = [Choice(q.job_id, _name(status, q.job_id), f"print {q.job_id}") for q in status.hours.queued]
    chosen = await _one(
        screen,
        "Take which print out of the queue?",
        queue,
        job_id,
        "The queue is empty: {queue_print} puts a file in it.",
    )
    if chosen is not None:
        await screen.wish(CancelPrint(job=chosen))


async def correct_print(screen: LiveScreen, job_id: int | None = None) -> None:
    """A print that has ended; what is left as it is stays."""
    status = screen.status
    if status is None:
        return
    zone = status.snapshot.settings.home_zone
    ended = [
        Choice(job.id, _name(status, job.id), f"{job.state.value} {dated(at, status.now, zone)}")
        for job, at in recent(status)
    ]
    chosen = await _one(
        screen,
        "Correct which print?",
        ended,
        job_id,
        "No print has ended yet, so there is nothing to correct: {finish_print} tells of one that has.",
    )
    if chosen is not None:
        title = f"Correct {_name(status, chosen)}; what is left empty stays"
        await screen.ask(CorrectPrint, title, values={"job": chosen}, when_too=False)


def recent(status: Status) -> list[tuple[Job, Moment]]:
    """Prints that ended, newest first, with the moment."""
    over = (JobState.FINISHED, JobState.FAILED)
    ended = [(job, job.ended_at) for job in status.snapshot.jobs if job.ended_at is not None and job.state in over]
    return sorted(ended, key=lambda pair: (pair[1], pair[0].id), reverse=True)


async def _running(screen: LiveScreen, title: str, job_id: int | None) -> tuple[Status | None, RunningJob | None]:
    """The print named, the only one that runs, or the one picked; those past their end first."""
    status = screen.status
    if status is None:
        return None, None
    runs = sorted(status.hours.running, key=lambda job: (not job.past_end, job.ends_at))
    zone = status.snapshot.settings.home_zone
    choices = [
        Choice(
            job.job_id,
            _name(status, job.job_id),
            f"{_printer(status, job)}, {'ended' if job.past_end else 'ends'} {near(job.ends_at, status.now, zone)}",
            Tone.ACCENT if job.past_end else Tone.FAINT,
        )
        for job in runs
    ]
    chosen = await _one(screen, title, choices, job_id, NOTHING_RUNS)
    return status, next((job for job in runs if job.job_id == chosen), None)


async def _one(
    screen: LiveScreen, title: str, choices: list[Choice[int]], known: int | None, empty: str
) -> int | None:
    """The known one where it is among the choices, else what is chosen."""
    if known in _values(choices):
        return known
    return await screen.choose(title, choices, empty=empty)


def _values(choices: Iterable[Choice[int]]) -> set[int | None]:
    return {choice.value for choice in choices}


def _name(status: Status, job_id: int) -> str:
    from buildlog.status.on_printers import job_name

    return job_name(status.snapshot, job_of(status, job_id))


def _printer(status: Status, job: RunningJob) -> str:
    return status.snapshot.printer[job.printer_id].code if job.printer_id is not None else "no printer"
