"""The week's text: the same for the same record and moment, and true to what was known when it was closed."""

import re
from pathlib import Path
from typing import Any

import pytest

GOLDEN = Path(__file__).parents[1] / "report" / "golden"
FENCE = re.compile(r"^```mermaid\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def test_the_running_week_is_the_golden_one_byte_for_byte(story: Any, tmp_path: Path) -> None:
    out = tmp_path / "week.md"
    assert story("week --out", str(out)).code == 0
    assert out.read_bytes() == (GOLDEN / "running-week.md").read_bytes()
    assert story("week").out == out.read_text("utf-8")


def test_what_was_done_in_a_filmed_episode_is_the_golden_one(story: Any) -> None:
    replayed, standing = sections(story("week --of 1").out)
    assert replayed == (GOLDEN / "filmed-episode.md").read_text("utf-8")
    assert standing.startswith("ands, Wed 25 Nov 13:00")  # not closed yet, and none was filmed since


def test_charts_are_closed_fences_with_few_categories_and_no_line_twice(story: Any) -> None:
    charts = FENCE.findall(story("week").out)
    assert len(charts) >= 2
    for chart in charts:
        lines = re.findall(r"^  line \[(.*)\]$", chart, re.MULTILINE)
        assert len(lines) == len(set(lines))
        axis = re.search(r"x-axis \[(.*)\]", chart)
        if axis:
            categories = axis[1].count('"') // 2
            assert categories <= 14
            assert max(line.count(",") + 1 for line in lines) == categories
            palette = re.search(r'plotColorPalette: "(.*)"', chart)
            assert palette is not None
            assert palette[1].count("#") == len(lines)


def sections(text: str) -> tuple[str, str]:
    """What is replayed, and how it stood."""
    replayed, _, standing = text.partition("\n## How it st")
    return replayed, standing


def test_a_late_fact_changes_what_is_replayed_of_a_closed_episode_and_not_how_it_stood(story: Any) -> None:
    assert story("episode close DC 1").code == 0
    replayed, standing = sections(story("week --of 1").out)
    assert standing
    assert (
        story('print start --printer P1 --lines "B05 x4" --ended "2026-11-20 22:00" --at "2026-11-20 16:00"').code
        == 0
    )
    later, still = sections(story("week --of 1").out)
    assert still == standing
    assert later != replayed
    assert "B05 corner post ×4" in later
    assert "B05 corner post" not in replayed


def test_a_closing_told_late_keeps_how_it_stood_when_it_was_closed(story: Any, clock: Any) -> None:
    """What lay on the bench then, not what was done since."""
    closed = clock.shows
    assert story("episode close DC 1 --dry-run").code == 0
    before = story("week --of 1").out
    clock.move_on(days=3)
    assert story("lot count A04 30").code == 0
    assert story(f"episode close DC 1 --at {closed:%Y-%m-%dT%H:%M:%SZ}").code == 0
    after = story("week --of 1").out
    assert "when it was closed, Wed 25 Nov 13:00" in after
    sides = "### Both sides"
    assert after.partition(sides)[2].partition("###")[0] == before.partition(sides)[2].partition("###")[0]


def test_reopening_a_closed_episode_takes_its_text_away(story: Any) -> None:
    story("episode close DC 1")
    assert story("undo").code == 0
    assert "when it was closed" not in story("week --of 1").out


def test_how_a_week_of_the_past_stood_is_not_made_up(story: Any) -> None:
    assert "How it stood then was not kept" in story("week --of 2026-W47").out


@pytest.mark.parametrize("of", ["1", "2026-W47", "2026-11-18"])
def test_a_week_is_named_by_its_episode_its_number_or_a_day(story: Any, of: str) -> None:
    assert "came off the bed" in story(f"week --of {of}").out


def test_alerts_are_text_json_and_a_calendar_of_the_same_things(story: Any) -> None:
    text, plain, calendar = story("alerts"), story("alerts --json"), story("alerts --ics")
    assert text.code == plain.code == calendar.code == 3
    assert len(plain.json["alerts"]) == calendar.out.count("BEGIN:VEVENT")
    for alert in plain.json["alerts"]:
        assert alert["text"] in text.out


def test_an_episode_that_a_file_says_was_closed_has_no_standing_made_up_for_it(story: Any, tmp_path: Path) -> None:
    closings = tmp_path / "closings.csv"
    closings.write_text("# list: history\nat,wish,build,number\n2026-11-22 09:00,close episode,DC,1\n", "utf-8")
    assert story("read", str(closings)).code == 0
    assert "How it stood then was not kept" in story("week --of 1").out


def test_a_closed_episode_tells_which_shots_it_carried_over(story: Any) -> None:
    for number in ("1", "2"):
        assert story(f"episode close DC {number}").code == 0
    assert "### Shots carried over\n\n- S3 the lamp shines through the ears\n" in story("week --of 2").out
    assert "Shots carried over" not in story("week --of 1").out


def test_shots_viewers_and_promises_are_told_with_those_that_are_done(story: Any) -> None:
    open_ones = {name: [row["code"] for row in story(f"{name} --json").json[name]] for name in STORY}
    every = {name: [row["code"] for row in story(f"{name} --all --json").json[name]] for name in STORY}
    assert open_ones == {"shots": ["S3"], "viewers": ["V2"], "promises": ["PR2"]}
    assert every == {"shots": ["S1", "S2", "S3"], "viewers": ["V1", "V2"], "promises": ["PR1", "PR2"]}


STORY = ("shots", "viewers", "promises")
