"""README.md says what the program does: its examples run, its tables and outputs are the program's own."""

import re
from pathlib import Path
from types import ModuleType
from typing import Any

import make_readme
import pytest

ROOT = Path(__file__).parents[2]
AGAIN = "run `python tests/docs/make_readme.py`"
SECTIONS = make_readme.sections(make_readme.README.read_text("utf-8"))


@pytest.fixture(params=SECTIONS)
def worked(
    request: pytest.FixtureRequest, readme: ModuleType, text: str, tmp_path_factory: pytest.TempPathFactory
) -> Any:
    """A section, worked through."""
    on_demo = readme.works_on_demo(text, request.param)
    folder = request.getfixturevalue("demo_folder") if on_demo else tmp_path_factory.mktemp("section")
    return readme.section_run(text, request.param, folder)


def test_every_example_runs_and_shows_what_the_program_says(worked: Any, readme: ModuleType) -> None:
    assert worked.failed == []
    for shown, given in worked.shown:
        assert readme.shape(shown) == readme.shape(given), AGAIN


def test_the_sections_for_newcomers_are_there(text: str) -> None:
    wanted = {"From nothing to the first blocker", "Taking up a build half way", "Files", "Where the data lives"}
    assert wanted <= set(SECTIONS)
    assert "It is no public diary" in " ".join(text.partition("\n## ")[0].split())


def test_tables_are_as_the_code_yields_them(readme: ModuleType, text: str) -> None:
    assert readme.with_tables(text) == text, AGAIN


def test_a_table_that_is_no_longer_true_is_found(readme: ModuleType, text: str) -> None:
    assert readme.with_tables(text.replace("| `buildlog redo` |", "| `buildlog again` |")) == text


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md", "CHANGELOG.md"])
def test_every_link_and_picture_leads_somewhere(name: str) -> None:
    text = re.sub(r"^```.*?^```$", "", (ROOT / name).read_text("utf-8"), flags=re.MULTILINE | re.DOTALL)
    places = [place.partition("#")[0] for place in re.findall(r"\]\(([^)\s]+)\)", text)]
    outside = [place for place in places if re.match(r"\w+:", place)]
    assert outside == []
    assert [place for place in places if place and not (ROOT / place).exists()] == []


def test_every_picture_is_shown_and_told_in_words(text: str, pictures: ModuleType) -> None:
    shown = dict(re.findall(r"!\[([^\]]*)\]\((shared/pictures/[^)]+)\)", text))
    assert set(shown.values()) == {f"shared/pictures/{picture.name}.svg" for picture in pictures.PICTURES}
    assert all(len(words) > 10 for words in shown)


def test_a_line_that_is_not_ours_is_refused(readme: ModuleType) -> None:
    with pytest.raises(ValueError, match="does not begin with buildlog"):
        readme.ran("rm -rf .")


def test_a_failing_line_and_other_words_are_found(readme: ModuleType, tmp_path: Path) -> None:
    text = "## One\n\n```sh\nbuildlog status\nbuildlog undo\n```\n\n```text\nThere was nothing.\n```\n"
    done = readme.section_run(text, "One", tmp_path)
    assert [line.partition(":")[0] for line in done.failed] == ["buildlog undo"]
    ((shown, given),) = done.shown
    assert readme.shape(shown) != readme.shape(given)


def test_figures_may_move_and_words_may_not(readme: ModuleType) -> None:
    assert readme.shape("left  3:22 h,  44 g\n") == readme.shape("left 13:05 h, 7.5 g")
    assert readme.shape("3 left") != readme.shape("3 right")


def test_cautions_defer_and_call_nothing_safe(text: str) -> None:
    section = " ".join(text.partition("## Cautions")[2].split())
    for wanted in ("data sheets", "maker's manual", "local rules", "qualified practice"):
        assert wanted in section
    of_footage = r"footage (is )?safe|`buildlog shot safe |`--safe`|`SHOT-1 safe`|copied\\\|safe"
    told = re.sub(of_footage, "", text)
    assert not re.search(r"\bsafe(ly)?\b", told, re.IGNORECASE)
