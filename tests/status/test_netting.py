"""When a material falls below its reserve, when it runs out, when to order how much: one worked example by hand."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from buildlog.facts.stock import Material, Supplier
from buildlog.methods.weeks import weeks_between
from buildlog.reference import reference
from buildlog.status.netting import Needed, Parcel, lead_days, net, order_moment
from buildlog.terms import Moment, when

BERLIN = ZoneInfo("Europe/Berlin")
MONDAY = Moment("2026-11-29T23:00:00Z")  # midnight of Monday 30 November in Berlin
NEXT_WEEK, SATURDAY_NOON = Moment("2026-12-08T11:00:00Z"), Moment("2026-12-05T11:00:00Z")
SIX_WEEKS = weeks_between(when(MONDAY), when(MONDAY) + timedelta(weeks=5), BERLIN)


def material(**more):
    given = {"safety_packs": None, "lead_days": None} | more
    return Material(
        1, "ABS-BLACK", "black", "ABS", "black", 1750, 1050, 1_000_000, 2000, 1, given["lead_days"],
        given["safety_packs"], None, None, None, True, "", None,
    )  # fmt: skip


def supplier(lead=7, weekday=None, minutes=None):
    return Supplier(1, "SUP", "by post", lead, weekday, minutes, 490, None)


def netted(on_hand, gross, parcels=(), now=MONDAY, one_lot=False, seller=None, **of_material):
    needed = Needed(material(**of_material), seller or supplier(), on_hand, gross, parcels, one_lot)
    return net(needed, SIX_WEEKS, now, BERLIN, reference())


def local(at):
    return when(at).astimezone(BERLIN).strftime("%a %d %b %H:%M")


def test_the_reserve_is_a_sealed_spool_and_a_fifth_of_the_near_need():
    """1 × 1000 g + 20 % of three weeks (two and the lead time) of 500 g."""
    assert netted(4_000_000, [500_000] * 6).safety_mg == 1_300_000


def test_the_reserve_is_never_more_than_the_whole_need():
    assert netted(4_000_000, [100_000, 0, 0, 0, 0, 0]).safety_mg == 100_000


def test_sealed_spools_kept_can_be_typed():
    assert netted(4_000_000, [500_000] * 6, safety_packs=0).safety_mg == 300_000


def test_the_order_leaves_so_that_it_is_there_before_the_stock_falls_below_the_reserve():
    """2500 g less 500 g a week: 1300 g are passed after 2.4 weeks, on Wed 16 Dec 19:12; a week earlier is the 9th."""
    found = netted(2_500_000, [500_000] * 6)
    assert local(found.below_at) == "Wed 16 Dec 19:12"
    assert local(found.order_by) == "Wed 09 Dec 23:59"
    assert local(found.runs_out_at) == "Mon 04 Jan 00:00"


def test_whole_packs_cover_the_usual_two_weeks_more():
    """Below the reserve by 300 g in week 3, by 1300 g in week 5: two packs."""
    assert netted(2_500_000, [500_000] * 6).packs == 2


def test_what_is_on_order_puts_the_order_off():
    found = netted(2_500_000, [500_000] * 6, parcels=[Parcel(NEXT_WEEK, 1_000_000)])
    assert local(found.below_at) == "Wed 30 Dec 19:12"
    assert found.runs_out_at is None


def test_the_suppliers_cutoff_brings_the_order_forward():
    found = netted(2_500_000, [500_000] * 6, seller=supplier(weekday=0, minutes=14 * 60))
    assert local(found.order_by) == "Mon 07 Dec 14:00"


def test_what_is_below_the_reserve_already_should_have_been_ordered():
    found = netted(800_000, [500_000] * 6)
    assert found.order_by < MONDAY
    assert local(found.runs_out_at) == "Fri 11 Dec 04:48"  # 0.6 of the second week


def test_weeks_tell_what_is_left_with_nothing_new_ordered():
    found = netted(2_500_000, [500_000] * 6)
    assert [week.left_mg for week in found.weeks] == [2_000_000, 1_500_000, 1_000_000, 500_000, 0, -500_000]


def test_a_parcel_late_in_the_week_leaves_a_gap_before_it():
    """20 g for 168 h that take 168 g: gone after 20 h, on Monday evening."""
    found = netted(20_000, [168_000, 0, 0, 0, 0, 0], parcels=[Parcel(SATURDAY_NOON, 1_000_000)])
    assert local(found.runs_out_at) == "Mon 30 Nov 20:00"
    assert (found.packs, found.reason) == (0, "is gone on Mon 30 Nov, until what is on order comes")


def test_a_gap_before_a_parcel_is_told_before_the_order():
    found = netted(20_000, [168_000] * 6, parcels=[Parcel(SATURDAY_NOON, 500_000)], safety_packs=0)
    assert found.reason == (
        "is gone on Mon 30 Nov, until what is on order comes; "
        "1 pack: below the reserve of 101 g on Thu 17 Dec; 7 days to come"
    )


def test_a_parcel_that_should_have_come_is_taken_to_come_at_once():
    found = netted(20_000, [168_000, 0, 0, 0, 0, 0], parcels=[Parcel(Moment("2026-11-20T11:00:00Z"), 1_000_000)])
    assert (found.runs_out_at, found.reason) == (None, "lasts, 852 g left over")


def test_a_one_lot_colour_is_bought_at_once_with_a_fifth_more():
    """3000 g × 1.2 − 500 g on hand: four packs."""
    assert netted(500_000, [500_000] * 6, one_lot=True).packs == 4


def test_what_nothing_asks_for_is_not_ordered():
    found = netted(0, [0] * 6)
    assert (found.order_by, found.packs, found.reason) == (None, 0, "nothing asks for it")


@pytest.mark.parametrize(("own", "seller", "days"), [(3, supplier(), 3), (None, supplier(9), 9), (None, None, 7)])
def test_lead_time_is_the_materials_own_else_the_suppliers_else_five_working_days(own, seller, days):
    assert lead_days(own, seller, reference()) == days


def test_an_order_for_today_had_to_leave_before():
    today = Moment("2026-11-25T12:00:00Z")
    assert order_moment(today, 4, None, BERLIN) == "2026-11-21T22:59:00Z"
    assert when(today) - timedelta(days=4) < datetime.fromisoformat(order_moment(today, 4, None, BERLIN))
