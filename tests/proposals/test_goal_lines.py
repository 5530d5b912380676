"""Goals as a person writes them."""

from buildlog.proposals.goal_lines import GoalLine, read_goals, write_goals
from buildlog.terms import GoalKind, Side


def test_goals_are_read_and_written_back() -> None:
    text = "ready LEG-F L; shown HEAD; step LEG-BOND; prove FL07; answer Q3; show the head turning"
    goals = read_goals(text)
    assert goals[0] == GoalLine(GoalKind.READY, "LEG-F", Side.LEFT)
    assert goals[-1] == GoalLine(GoalKind.FREE, text="show the head turning")
    assert write_goals(goals) == text


def test_a_comma_parts_goals_beside_a_verb_and_is_a_comma_in_free_words() -> None:
    assert [str(goal) for goal in read_goals("ready DRUM, answer Q-SKIN, show the tyre")] == [
        "ready DRUM",
        "answer Q-SKIN",
        "show the tyre",
    ]
    assert [str(goal) for goal in read_goals("the tyre, black, and slow; prove F01")] == [
        "the tyre, black, and slow",
        "prove F01",
    ]
    assert [str(goal) for goal in read_goals("tidy up, ready or not")] == ["tidy up, ready or not"]


def test_lines_part_goals_too() -> None:
    assert len(read_goals("ready HEAD\n\nprove FL07\n")) == 2
