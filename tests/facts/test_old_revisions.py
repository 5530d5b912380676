"""What pieces of an older revision are good for."""

from buildlog.facts.old_revisions import good_for
from buildlog.facts.tree import Revision
from buildlog.terms import Moment, OldGoodFor, Side

GOOD, STAND_INS, NO_GOOD = OldGoodFor.STILL_GOOD, OldGoodFor.STAND_INS, OldGoodFor.NO_GOOD


def revision(number: int, left: OldGoodFor | None, right: OldGoodFor | None) -> Revision:
    since = Moment(f"2026-11-0{number}T08:00:00Z")
    return Revision(number, 1, "ABCD"[number - 1], since, "", None, None, "", left, right)


REVISIONS = (
    revision(1, None, None),
    revision(2, GOOD, NO_GOOD),
    revision(3, STAND_INS, GOOD),
    revision(4, GOOD, GOOD),
)


def test_the_worst_later_answer_holds_for_each_side() -> None:
    assert [good_for(REVISIONS, number, Side.LEFT) for number in (1, 2, 3, 4)] == [STAND_INS, STAND_INS, GOOD, GOOD]
    assert [good_for(REVISIONS, number, Side.RIGHT) for number in (1, 2, 3, 4)] == [NO_GOOD, GOOD, GOOD, GOOD]


def test_revisions_may_come_in_any_order() -> None:
    assert good_for(reversed(REVISIONS), 1, Side.LEFT) is STAND_INS
