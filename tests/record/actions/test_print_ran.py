"""A print that is over is told whole: from its start to how it came out."""

import pytest

from buildlog.errors import Refused
from buildlog.terms import JobState


def test_a_print_that_is_over_is_told_in_one_wish_from_its_start_to_how_it_came_out(shop, do):
    do("load_spool", "2026-11-20T08:00:00Z", printer="P1", spool="B1")
    said = do(
        "print_ran",
        "2026-11-21T08:00:00Z",
        file="F1",
        printer="P1",
        ended="2026-11-21T18:30:00Z",
        outcomes="HINGE x1 scrap",
    )
    assert "Finished" in said
    snapshot = shop.snapshot()
    (job,) = snapshot.jobs
    assert (job.started_at, job.ended_at) == ("2026-11-21T08:00:00Z", "2026-11-21T18:30:00Z")
    assert sum(lot.quantity for lot in snapshot.lots) == 5
    shop.undo()
    assert shop.snapshot().jobs == ()


def test_a_failed_print_that_is_over_keeps_what_can_be_used_and_goes_before_one_that_runs(shop, do):
    do("load_spool", "2026-11-20T08:00:00Z", printer="P1", spool="B1")
    do("start_print", "2026-11-25T08:00:00Z", file="F1", printer="P1")
    do(
        "print_ran",
        "2026-11-24T20:00:00Z",
        file="F1",
        printer="P1",
        ended="2026-11-25T07:00:00Z",
        came_out="failed",
        went_wrong="2026-11-24T23:00:00Z",
        cause="came off",
        outcomes="FL07 L salvage",
    )
    snapshot = shop.snapshot()
    told = next(job for job in snapshot.jobs if job.ended_at is not None)
    assert (told.state, told.cause, told.went_wrong_at) == (JobState.FAILED, "came off", "2026-11-24T23:00:00Z")
    assert [(lot.side, lot.quantity, lot.grade) for lot in snapshot.lots] == [("L", 1, "salvage")]


def test_a_print_that_is_over_cannot_overlap_another(shop, do):
    do("load_spool", "2026-11-20T08:00:00Z", printer="P1", spool="B1")
    do("start_print", "2026-11-25T08:00:00Z", file="F1", printer="P1")
    with pytest.raises(Refused, match="finish it first"):
        do("print_ran", "2026-11-24T20:00:00Z", file="F1", printer="P1", ended="2026-11-25T09:00:00Z")
