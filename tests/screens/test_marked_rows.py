"""`space` marks rows, and a key then does its thing to each of them, from the first to the last."""

from __future__ import annotations

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.episodes import PlanEpisode
from buildlog.proposals.nouns import Add, form_from_texts
from buildlog.proposals.places import read_slot
from buildlog.proposals.prints import QueuePrint
from buildlog.proposals.shots import PlanShot
from buildlog.proposals.slots import FitPiece
from buildlog.terms import JobState, later


async def mark(on: Any, grid: str, *keys: str) -> None:
    """Stand on each of the rows and press space."""
    shown = on.app.screen.query_one(grid)
    shown.focus()
    for key in keys:
        assert shown.move_to(key), on.text
        await on.settle()
        await on.press("space")
    assert set(shown.marked) == set(keys)


@pytest.fixture
def week(workshop: Ledger, clock: Any) -> Ledger:
    workshop.record(PlanEpisode(build="LB", films_at=clock.ago(days=-3)))
    for what in ("the jaw opens", "the lamp shines", "the toes go on"):
        workshop.record(PlanShot(build="LB", what=what))
    for text in ("a song", "a dance"):
        texts = {"build": "LB", "number": "1", "kind": "free", "text": text}
        workshop.record(Add(form_from_texts("goal", texts)))
    return workshop


async def test_marked_shots_are_filmed_and_their_footage_is_safe(week: Ledger, screens: Any) -> None:
    async with screens(week) as on:
        await on.press("7")
        await mark(on, "#episode", "shot:1", "shot:3")
        before = len(week.journal())
        await on.press("f down minus 1 h enter")
        assert len(week.journal()) == before + 1
        assert [shot.filmed_at is not None for shot in week.snapshot().shots] == [True, False, True]
        assert on.app.screen.query_one("#episode").marked == ()
        assert {shot.filmed_at for shot in week.snapshot().shots} == {None, later(week.now(), -60)}
        await mark(on, "#episode", "shot:1", "shot:3")
        await on.press("c")
    assert [shot.safe_at is not None for shot in week.snapshot().shots] == [True, False, True]


async def test_marked_goals_are_ticked(week: Ledger, screens: Any) -> None:
    async with screens(week) as on:
        await on.press("7")
        await mark(on, "#episode", "goal:1", "goal:2")
        await on.press("t")
    assert [goal.ticked_at is not None for goal in week.snapshot().goals] == [True, True]


async def test_marked_prints_are_taken_out_of_the_queue(workshop: Ledger, screens: Any) -> None:
    workshop.record(QueuePrint(file="F-CROWN"))
    queued = [job.id for job in workshop.snapshot().jobs if job.state is JobState.QUEUED]
    async with screens(workshop, size=(120, 40)) as on:
        await on.press("3")
        await mark(on, "#left", *(f"job:{job_id}" for job_id in queued))
        await on.press("c")
    assert [workshop.snapshot().job[job_id].state for job_id in queued] == [JobState.CANCELLED] * 2


async def test_marked_spools_are_weighed_one_after_the_other(workshop: Ledger, screens: Any) -> None:
    ids = {spool.code: spool.id for spool in workshop.snapshot().spools}
    async with screens(workshop, size=(120, 40)) as on:
        await on.press("4")
        on.app.screen.query_one("#materials").move_to("material:1")
        await on.settle()
        await mark(on, "#shelf", f"spool:{ids['A1']}", f"spool:{ids['A2']}")
        await on.press("w 8 0 0 enter 9 0 0 enter")
    weighed = {entry.spool_id: entry.gross_mg for entry in workshop.snapshot().spool_entries}
    assert (weighed[ids["A1"]], weighed[ids["A2"]]) == (800_000, 900_000)


async def test_marked_fits_are_recorded_in_a_round(workshop: Ledger, screens: Any) -> None:
    workshop.record(FitPiece(slot=read_slot("HEAD / BRIDGE")))
    for code in ("NOSE", "WIDE"):
        texts = {"code": code, "name": code, "assembly": "HEAD", "parts": "BRIDGE", "kind": "clearance"}
        workshop.record(Add(form_from_texts("fit test", texts)))
    tests = [test.id for test in workshop.snapshot().fit_tests if test.code in ("NOSE", "WIDE")]
    async with screens(workshop) as on:
        await on.press("5")
        shown = on.app.screen.query_one("#fits").shown_keys
        await mark(on, "#fits", *(key for key in shown if key.startswith(tuple(f"fit:{test}-" for test in tests))))
        await on.press("r 1 1")
        assert on.app.screen.query_one("#fits").marked == ()
    assert [result.fit_test_id for result in workshop.snapshot().fit_results] == tests


async def test_marked_steps_of_today_are_ticked(workshop: Ledger, screens: Any) -> None:
    for code in ("RUB", "WIPE"):
        texts = {"code": code, "name": code.lower(), "assembly": "HEAD", "kind": "sand", "bench_time": "0:10"}
        workshop.record(Add(form_from_texts("step", {**texts, "assembly": "LEG" if code == "WIPE" else "HEAD"})))
    async with screens(workshop, size=(120, 40)) as on:
        steps = [i for i, one in enumerate(on.app.status.doable) if one.about.noun == "step"]
        meant = {on.app.status.doable[i].about.id for i in steps}
        await mark(on, "#right", *(f"doable:{i}" for i in steps))
        await on.press("t" + " 1" * len(steps))
    assert len(meant) >= 1
    assert {tick.step_id for tick in workshop.snapshot().steps_done} == meant


async def test_marked_lines_of_catch_up_are_answered_with_one_key(workshop: Ledger, screens: Any, clock: Any) -> None:
    clock.move_on(days=5, hours=-1)
    async with screens(workshop) as on:
        await on.press("0")
        prints = [due.key for due in on.app.screen._dues if due.kind == "print"]
        await mark(on, "#dues", *prints)
        await on.press("y")
        await on.settle()
    assert {job.state for job in workshop.snapshot().jobs} == {JobState.FINISHED}
