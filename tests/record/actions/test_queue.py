"""What is to be printed: files, typed lines with figures, places in the queue."""

import pytest

from buildlog.errors import BadWish, NotFound, Refused
from buildlog.terms import JobState, Purpose, Side


def rows(ledger, job_id=1):
    snapshot = ledger.snapshot()
    (job,) = [j for j in snapshot.jobs if j.id == job_id]
    return job, snapshot.lines_of_job[job_id], snapshot.feeds_of_job[job_id]


def test_a_queued_file_brings_its_lines_and_figures(shop, do):
    assert do("queue_print", file="F1", rank="2") == "Queued print 1 «Shins»."
    job, lines, (feed,) = rows(shop)
    assert (job.state, job.estimate_minutes, job.rank, job.printer_id) == (JobState.QUEUED, 600, 2, None)
    assert [(line.side, line.quantity) for line in lines] == [(Side.LEFT, 1), (Side.RIGHT, 1), (Side.NONE, 4)]
    assert (feed.part_mg, feed.support_mg, feed.purge_mg) == (400_000, 60_000, 40_000)
    assert (feed.spool_id, feed.from_at, feed.real_mg) == (None, None, None)


def test_typed_lines_sum_the_figures_of_their_parts(shop, do):
    do("queue_print", lines="FL07 L x2, HINGE x3")
    job, _, (feed,) = rows(shop)
    assert (job.name, job.estimate_minutes, job.estimate_from) == ("FL07 L x2, HINGE x3", 600, "slicing")
    assert feed.part_mg == 500_000


def test_typed_figures_win(shop, do):
    do("queue_print", file="F1", print_time="9:30", grams="380", material="any ABS", estimate_from="my slicer")
    job, _, (feed,) = rows(shop)
    assert (job.estimate_minutes, job.estimate_from) == (570, "my slicer")
    assert (feed.part_mg, feed.support_mg, feed.material_id, feed.polymer) == (380_000, 60_000, None, "ABS")


def test_missing_figures_are_all_named_at_once(shop, do):
    with pytest.raises(BadWish) as caught:
        do("queue_print", lines="NEW")
    assert [field for field, _ in caught.value.problems] == ["print_time", "material", "grams"]


def test_a_trial_in_words_needs_no_part(shop, do):
    do("queue_print", what="temperature tower", purpose="trial", print_time="1:00", material="ABS-RED", grams="20")
    _, (line,), _ = rows(shop)
    assert (line.purpose, line.what, line.part_id) == (Purpose.TRIAL, "temperature tower", None)
    with pytest.raises(BadWish, match="name a file, or the lines"):
        do("queue_print", what="temperature tower", print_time="1:00", material="ABS-RED", grams="20")


def test_a_print_is_queued_as_often_as_wanted(shop, do):
    assert do("queue_print", file="F1", times="3").count("print") == 3
    assert len(shop.snapshot().jobs) == 3


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ("FL07", "write FL07 L or FL07 R"),
        ("HINGE L", "write it without L"),
        ("BEARING", "BEARING is bought: it is not printed"),
    ],
)
def test_sides_must_suit_the_part(shop, do, lines, said):
    with pytest.raises(BadWish, match=said):
        do("queue_print", lines=lines)


def test_file_and_lines_together_are_refused(shop, do):
    with pytest.raises(BadWish, match="not both"):
        do("queue_print", file="F1", lines="HINGE")


def test_a_file_is_not_queued_for_a_printer_of_another_class(shop, do):
    with pytest.raises(Refused, match="File F1 is for class «BIG», P2 is of class «TWIN»"):
        do("queue_print", file="F1", printer="P2")


def test_a_queued_print_moves_and_is_cancelled(shop, do):
    do("queue_print", file="F1")
    do("move_print", job="1", rank="1", printer="P1")
    job, _, _ = rows(shop)
    assert (job.rank, shop.snapshot().printer[job.printer_id].code) == (1, "P1")
    do("cancel_print", job="1")
    assert rows(shop)[0].state is JobState.CANCELLED
    with pytest.raises(Refused, match=r"print 1 «Shins» is cancelled, not queued"):
        do("move_print", job="1", rank="2")
    with pytest.raises(NotFound, match="no print «7»"):
        do("cancel_print", job="7")


def test_moving_nowhere_is_refused(shop, do):
    do("queue_print", file="F1")
    with pytest.raises(BadWish, match="name a rank or a printer"):
        do("move_print", job="1")
