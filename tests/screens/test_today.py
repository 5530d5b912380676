"""Today: keys pressed, the record looked at."""

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.nouns import Add, form_from_texts
from buildlog.proposals.places import read_place, read_slot
from buildlog.proposals.printers import LoadSpool
from buildlog.proposals.prints import FinishPrint, QueuePrint
from buildlog.proposals.slots import FitPiece
from buildlog.proposals.spools import DrawFilament, ReceiveSpool
from buildlog.proposals.steps import TickStep
from buildlog.terms import FitOutcome, JobState, SpoolEntryKind


async def test_machines_stand_first_and_one_to_be_taken_off_before_all(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        assert on.lines[3].strip(" ─") == "Machines"
        assert "TWIN" in on.lines[4]
        assert "over since" in on.lines[4]
        assert "done 20:" in on.lines[5]


async def test_finish_takes_two_keys_and_dates_the_end_where_it_was_due(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        due = next(job.ends_at for job in on.app.status.hours.running if job.past_end)
        await on.press("f 1")
    job = workshop.snapshot().jobs[2]
    assert (job.state, job.ended_at) == (JobState.FINISHED, due)
    assert sum(lot.quantity for lot in workshop.snapshot().lots) == 1 + 4


async def test_what_did_not_come_out_is_typed(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("f 2")
        await on.press("T O E space x 1 space s c r a p enter")
    line = next(line for line in workshop.snapshot().job_lines if line.job_id == 3)
    assert line.scrapped == 1


async def test_fail_takes_two_keys_beside_what_is_typed(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("x w a r p enter")
    job = workshop.snapshot().jobs[2]
    assert (job.state, job.cause) == (JobState.FAILED, "warp")


async def test_a_moment_in_words_is_read_and_a_wrong_one_is_told(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("x down - 4 h enter")
        job = workshop.snapshot().jobs[2]
        assert job.went_wrong_at == "2026-11-25T08:00:00Z"
        await on.press("u y x down s o o n enter")
        assert "is no moment" in on.text
        await on.press("escape")
    assert workshop.snapshot().jobs[2].state is JobState.RUNNING


async def test_restarted_is_one_key_on_the_printer(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("down z")
    assert workshop.snapshot().jobs[1].restarts == 1


async def test_start_takes_three_keys_and_says_the_fire_caution(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("f 1 s")
        names = [line for line in on.lines if "next in the queue" in line]
        assert "Crown" in names[0]
        await on.press("2")
        assert "Visor" in on.text
        assert "set fire" in on.text
        await on.press("1")
    job = workshop.snapshot().jobs[-1]
    files = {file.id: file.code for file in workshop.snapshot().print_files}
    assert (job.state, files[job.print_file_id], job.unattended) == (JobState.RUNNING, "F-VISOR", False)


async def test_a_queued_print_is_started_with_its_cautions_and_what_is_to_be_said_of_its_spool(
    workshop: Ledger, screens: Any
) -> None:
    workshop.record(FinishPrint(printer="BIG"))
    workshop.record(QueuePrint(file="F-TOES", printer="BIG", rank=1))
    workshop.record(ReceiveSpool(material="ABS-BLACK", codes=("B2",)))
    workshop.record(LoadSpool(printer="BIG", spool="B2"))
    workshop.record(DrawFilament(spool="B2", grams=880_000))
    async with screens(workshop, size=(120, 40)) as on:
        await on.press("s")
        line = next(line for line in on.lines if "on BIG, next in the queue" in line)
        assert "needs 80 g: tight" in line
        assert "1  Four toes" in line
        await on.press("1")
        assert "styrene" in on.text
        assert "set fire" in on.text
        await on.press("2")
    job = workshop.snapshot().jobs[-1]
    assert (job.state, job.unattended) == (JobState.RUNNING, True)


async def test_leaving_and_back_list_what_ends_in_between(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("f 1")
        await on.press("b n o w enter + 5 h enter")
        assert "offer:none" in on.app.screen.query_one("#top").shown_keys
        await on.press("b n o w enter + 1 1 h enter")
        offers = [key for key in on.app.screen.query_one("#top").shown_keys if key.startswith("offer:")]
        files = {file.id: file.code for file in workshop.snapshot().print_files}
        assert [files[int(key.rpartition("-")[2])] for key in offers] == ["F-VISOR"]
        await on.press("3 1")
        assert "+11h" in on.lines[2]


async def test_a_window_that_is_not_understood_says_how_to_write_it(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("b l a t e r")
        assert "✗ as 18:00" in on.lines[2]


async def test_enter_on_a_printer_to_be_taken_off_asks_how_it_came_out(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("enter 1")
    assert workshop.snapshot().jobs[2].state is JobState.FINISHED


async def test_load_takes_three_keys(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("end l 2 1")
    snapshot = workshop.snapshot()
    spools = {spool.id: spool.code for spool in snapshot.spools}
    loaded = snapshot.set_ups[-1]
    assert (snapshot.printer[loaded.printer_id].code, spools[loaded.spool_id]) == ("OLD", "A2")


async def test_weigh_takes_a_spool_and_the_grams(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("w 1 9 0 0 enter")
    weighed = [e for e in workshop.snapshot().spool_entries if e.kind is SpoolEntryKind.WEIGHED]
    assert weighed[-1].gross_mg == 900_000


async def test_a_parcel_is_received_with_two_keys(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("e 1")
    assert workshop.snapshot().orders[0].closed_at is not None
    assert sum(spool.order_line_id is not None for spool in workshop.snapshot().spools) == 2


async def test_a_step_is_ticked_with_its_caution(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("t")
        assert "dust" in on.text
        await on.press("1")
    steps = {step.id: step.code for step in workshop.snapshot().steps}
    assert [steps[done.step_id] for done in workshop.snapshot().steps_done] == ["HEAD-SAND"]


async def test_a_fit_that_is_due_takes_three_keys(workshop: Ledger, screens: Any) -> None:
    workshop.record(FitPiece(slot=read_slot("HEAD / BRIDGE")))
    async with screens(workshop) as on:
        await on.press("r 1 1")
    assert [result.outcome for result in workshop.snapshot().fit_results] == [FitOutcome.PASSED]


@pytest.mark.parametrize("place", ["1", "3", "4"])
async def test_a_note_is_written_on_what_stands_under_the_cursor(workshop: Ledger, screens: Any, place: str) -> None:
    async with screens(workshop) as on:
        await on.press(f"{place} home n o k enter")
    assert [note.text for note in workshop.snapshot().notes] == ["ok"]


async def test_more_than_five_alerts_fold(workshop: Ledger, screens: Any) -> None:
    from buildlog.proposals.lines import Line
    from buildlog.proposals.orders import PlaceOrder

    for _ in range(6):
        workshop.record(PlaceOrder(lines=(Line("SCREW", quantity=10),), expected=workshop.now()))
    async with screens(workshop) as on:
        rows = on.app.screen.query_one("#top").shown_keys
        assert sum(key.startswith("alert:") for key in rows) == 5
        assert "more" in on.text
        await on.press("a")
        rows = on.app.screen.query_one("#top").shown_keys
        assert sum(key.startswith("alert:") for key in rows) == len(on.app.status.alerts) > 5


async def test_what_breaks_the_milestone_stands_with_its_blockers(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        assert "lantern parade" in on.lines[1]
        assert "in 24 days" in on.lines[1]
        head = next(line for line in on.lines if line.lstrip("▏▌ ").startswith("Head"))
        assert "4 hold it" in head


async def test_a_walk_over_today_at_120_by_40(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        assert on.app.screen.query_one("#below").display
        await on.press("f 1 tab tab")
        assert "HEAD" in on.text
        await on.press("t 1")
    assert workshop.snapshot().jobs[2].state is JobState.FINISHED
    assert len(workshop.snapshot().steps_done) == 1


async def test_only_heads_that_no_running_print_feeds_from_are_offered_for_a_spool(
    workshop: Ledger, screens: Any
) -> None:
    async with screens(workshop) as on:
        await on.press("end l")
        question = on.text.partition("Load a spool where?")[2]
        assert [name in question for name in ("1  TWIN head 2", "2  OLD", "BIG", "TWIN head 1")] == [1, 1, 0, 0]


async def test_with_no_printer_starting_says_how_to_add_one(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger) as on:
        await on.press("s")
        assert "There is no printer yet: add one on Things (9), with a." in on.text


async def test_a_form_that_is_refused_comes_back_as_it_was_filled_in(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("x w a r p down - 9 h enter")  # before it was started
        assert "Nothing was recorded" in on.text
        await on.press("enter")
        assert "warp" in on.text
        assert workshop.snapshot().jobs[2].state is JobState.RUNNING
        await on.press("down ctrl+u - 4 h enter")
    assert workshop.snapshot().jobs[2].cause == "warp"


async def test_a_target_that_only_cures_says_until_when(workshop: Ledger, screens: Any) -> None:
    for noun, texts in (
        ("assembly", {"code": "CREST", "name": "crest", "build": "LB", "parent": "BEETLE"}),
        (
            "step",
            {
                "code": "CREST-GLUE",
                "name": "glue",
                "assembly": "CREST",
                "kind": "bond",
                "bench_time": "0:10",
                "load_after": "24:00",
            },
        ),
        (
            "milestone",
            {"code": "SHOW", "name": "show", "build": "LB", "kind": "event", "due": "+5d", "targets": "CREST"},
        ),
    ):
        workshop.record(Add(form_from_texts(noun, texts, moment_reader(workshop.now(), "UTC"))))
    workshop.record(TickStep(step="CREST-GLUE", place=read_place("CREST"), overruled=True))
    async with screens(workshop) as on:
        (crest,) = [line for line in on.lines if " crest " in line and "load" in line]
        assert "may not carry load before" in crest
        assert " hold it" not in crest
