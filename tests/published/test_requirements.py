"""Planned-requirements tables worked by hand on paper, by the textbook record (from memory)."""

from buildlog.methods.requirements import Supply, plan


def test_eight_weeks_worked_by_hand() -> None:
    # worked by hand: 25 on hand, 10 safety stock, packs of 40, two weeks of lead time
    #   week                  1    2    3    4    5    6    7    8
    gross = [10, 15, 0, 30, 20, 0, 45, 15]
    scheduled = [0, 40, 0, 0, 0, 0, 0, 0]
    on_hand = [15, 40, 40, 10, 30, 30, 25, 10]
    net = [0, 0, 0, 0, 20, 0, 25, 0]
    receipts = [0, 0, 0, 0, 40, 0, 40, 0]
    releases = [0, 0, 40, 0, 40, 0, 0, 0]

    told = plan(gross, scheduled, Supply(on_hand=25, safety_stock=10, pack_size=40, lead_weeks=2))

    assert [week.on_hand for week in told.weeks] == on_hand
    assert [week.net for week in told.weeks] == net
    assert [week.planned_receipt for week in told.weeks] == receipts
    assert [week.planned_release for week in told.weeks] == releases
    assert told.past_due_release == 0


def test_a_need_in_the_first_week_worked_by_hand() -> None:
    # worked by hand: 5 on hand, no safety stock, packs of 10, one week of lead time; week 3 takes three packs
    told = plan([12, 0, 31], [0, 0, 0], Supply(on_hand=5, pack_size=10, lead_weeks=1))

    assert [week.on_hand for week in told.weeks] == [3, 3, 2]
    assert [week.net for week in told.weeks] == [7, 0, 28]
    assert [week.planned_receipt for week in told.weeks] == [10, 0, 30]
    assert [week.planned_release for week in told.weeks] == [0, 30, 0]
    assert told.past_due_release == 10
