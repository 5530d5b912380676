"""Prints: keys pressed, the record looked at."""

from typing import Any

from buildlog.ledger import Ledger
from buildlog.proposals.prints import FinishPrint
from buildlog.terms import JobState, SetUpKind, later
from buildlog.wording import near


async def go_to(on: Any, key: str) -> None:
    """The cursor on a row of the top list."""
    on.app.screen.query_one("#top").move_to(key)
    await on.settle()


async def test_printers_queue_hours_ready_files_and_recent_prints_are_there(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3")
        for heading in ("On the printers", "Ready to run", "Queue", "Print hours left", "Ended last"):
            assert heading in on.text
        assert "hours left" in on.lines[1]
        assert "× 1.5 usual" in on.lines[1]


async def test_a_file_is_queued_for_as_often_as_typed(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3 p down down 2 enter")
    queued = [job for job in workshop.snapshot().jobs if job.state is JobState.QUEUED]
    assert len(queued) == 1 + 2


async def test_a_queued_print_is_cancelled(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3")
        await go_to(on, "job:4")
        await on.press("c")
    assert workshop.snapshot().jobs[3].state is JobState.CANCELLED


async def test_a_finished_print_is_corrected(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3")
        await go_to(on, "job:1")
        await on.press("k down down down down 1 : 3 0 enter")
    assert workshop.snapshot().jobs[0].real_minutes == 90


async def test_a_printer_goes_down_and_up(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3")
        printer = workshop.snapshot().printers[0]
        await go_to(on, f"printer:{printer.id}")
        await on.press("d b e l t enter")
        assert "down: belt" in on.text or workshop.snapshot().set_ups[-1].text == "belt"
        await go_to(on, f"printer:{workshop.snapshot().printers[2].id}")
        await on.press("d")
    kinds = [fact.kind for fact in workshop.snapshot().set_ups]
    assert kinds[-2:] == [SetUpKind.DOWN, SetUpKind.UP]


async def test_a_nozzle_is_typed(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3 o 0 . 6 enter")
    assert workshop.snapshot().set_ups[-1].nozzle_um == 600


async def test_a_running_print_goes_on_with_another_spool(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3 v 1 enter")
        text = on.text
    feeds = [feed for feed in workshop.snapshot().feeds if feed.job_id == 2]
    codes = {spool.id: spool.code for spool in workshop.snapshot().spools}
    assert [codes[feed.spool_id] for feed in feeds] == ["A1", "A2"], text


async def test_a_spool_that_is_refused_is_changed_with_the_rest_kept(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3 v 1")
        await on.fill({"grams": "3", "spool": "A1"})
        await on.press("enter")
        assert "Nothing was recorded" in on.text
        await on.press("enter")
        assert on.app.screen._entries["grams"].text == "3"
        await on.fill({"spool": "A2"})
        await on.press("enter")
        assert not on.app.screen.is_modal, on.text
    snapshot = workshop.snapshot()
    codes = {spool.id: spool.code for spool in snapshot.spools}
    assert [codes[feed.spool_id] for feed in snapshot.feeds if feed.job_id == 2] == ["A1", "A2"]


async def test_starting_with_no_free_printer_leads_to_the_form(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3 s")
        assert "No printer is free." in on.text
        assert "something else" in on.text
        await on.press("1")
        assert "Start a print" in on.text


async def test_an_unattended_start_is_recorded_as_that(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("3 f")
        await on.press("1 1")
        await on.press("3 s")
        text = on.text
        await on.press("1 2")
    job = next(job for job in workshop.snapshot().jobs if job.id == 4)
    assert job.state is JobState.RUNNING, text


async def test_a_late_failure_asks_when_the_bed_was_free_and_calls_a_bad_moment_as_the_form_does(
    workshop: Ledger, screens: Any
) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        await on.press("3")
        running = next(job for job in workshop.snapshot().jobs if job.state is JobState.RUNNING)
        await go_to(on, f"printer:{running.printer_id}")
        await on.press("x down")
        assert "ended" in on.text
        await on.type("-9d 9:00")
        await on.press("enter")
        assert "went wrong: it went wrong" in on.text
        assert "went_wrong" not in on.text


async def test_what_is_over_for_days_is_told_whole(workshop: Ledger, screens: Any, clock: Any) -> None:
    clock.move_on(hours=3 * 24)
    async with screens(workshop) as on:
        await on.press("3")
        assert "! over since " in on.text
        assert "…" not in "".join(line for line in on.lines if "over since" in line)


async def test_a_start_says_the_end_that_screens_show_from_what_such_prints_took(
    workshop: Ledger, screens: Any
) -> None:
    workshop.record(FinishPrint(printer="TWIN", real_time=4 * 60))
    workshop.record(FinishPrint(printer="BIG"))
    async with screens(workshop) as on:
        await on.press("3 s 1 1")
        started = max(workshop.snapshot().jobs, key=lambda job: (job.started_at or "", job.id))
        shown = next(job for job in on.app.status.hours.running if job.job_id == started.id)
        assert shown.ends_at > later(workshop.now(), started.estimate_minutes)
        assert f"It should end {near(shown.ends_at, workshop.now(), 'Europe/Berlin')}, as such prints" in on.text
