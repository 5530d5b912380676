"""Whether one spool carries a print: margins, tail, ± and what runs."""

import pytest

from buildlog.reference import reference
from buildlog.status.accounts import SpoolState
from buildlog.status.spool_check import best_spool, carriers, how_sure, spool_check
from buildlog.terms import Moment

NOW = Moment("2026-11-25T12:00:00Z")
YESTERDAY, LAST_MONTH = Moment("2026-11-24T12:00:00Z"), Moment("2026-10-24T12:00:00Z")


def spool(net_g, spool_id=1, read_at=YESTERDAY, pm_g=0, assumed=False, running_g=0, **more):
    given = {"wet": False, "sealed": False, "loaded_on": None} | more
    return SpoolState(
        spool_id, 1, net_g * 1000, pm_g * 1000, 0, read_at, None, "", NOW, given["sealed"], None, 0, given["wet"],
        False, True, running_g * 1000, assumed, given["loaded_on"],
    )  # fmt: skip


def check(needed_g, held):
    found = spool_check(needed_g * 1000, held, reference(), NOW)
    return "enough" if found.enough else "tight" if found.tight else "not enough"


@pytest.mark.parametrize(("net", "said"), [(459, "enough"), (458, "tight"), (400, "tight"), (399, "not enough")])
def test_a_spool_weighed_lately_needs_five_percent_and_twenty_grams_above_its_tail(net, said):
    """380 × 1.05 + 20 = 419 g, the tail 20 g, ± 20 g here (margins and tail: common practice)."""
    held = spool(net, pm_g=20)
    assert check(380, held) == said


@pytest.mark.parametrize("held", [spool(506, read_at=LAST_MONTH), spool(506, assumed=True), spool(506, read_at=None)])
def test_a_spool_not_weighed_for_two_weeks_or_of_assumed_tare_needs_more(held):
    """380 × 1.15 + 50 = 487 g and the tail: 507 g."""
    assert check(380, held) == "tight"
    assert check(379, held) == "enough"


def test_what_a_running_print_still_takes_is_not_there():
    assert check(380, spool(800, running_g=500)) == "not enough"


def test_the_text_says_what_is_there_and_what_is_needed():
    assert spool_check(380_000, spool(412), reference(), NOW).text == "412 g, needs 380 g: tight"
    wet = spool_check(100_000, spool(412, wet=True), reference(), NOW)
    assert wet.text == "412 g, needs 100 g: enough, dry it first"


def test_the_best_spool_is_the_one_with_least_left_over_that_has_enough():
    held = [spool(900, 1), spool(500, 2), spool(300, 3)]
    assert best_spool(380_000, carriers(how_sure(held, reference(), NOW), reference())).spool_id == 2


def test_a_loaded_dry_spool_comes_before_one_with_less_left_over():
    held = [spool(500, 1), spool(600, 2, loaded_on=(1, 1)), spool(480, 3, wet=True, loaded_on=(2, 1))]
    assert best_spool(380_000, carriers(how_sure(held, reference(), NOW), reference())).spool_id == 2


def test_where_none_has_enough_the_fullest_is_named():
    held = [spool(100, 1), spool(300, 2)]
    found = best_spool(380_000, carriers(how_sure(held, reference(), NOW), reference()))
    assert (found.spool_id, found.carries) == (2, False)


def test_no_spool_at_all_is_said_so():
    assert best_spool(380_000, carriers((), reference())).text == "no spool, needs 380 g"
