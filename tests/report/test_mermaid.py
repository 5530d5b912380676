"""Charts that every viewer draws, whatever things are called."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.report.mermaid import MOST_CATEGORIES, MOST_CHARACTERS, flowchart, label, line_chart


@given(st.text(max_size=60))
def test_a_label_holds_nothing_but_letters_digits_spaces_and_numbered_signs(text: str) -> None:
    assert re.fullmatch(r"(#\d+;|[A-Za-z0-9 ])*", label(text))


@given(st.text(min_size=1, max_size=60).filter(lambda t: t.strip()))
def test_a_label_says_the_same_words_when_it_is_read_back(text: str) -> None:
    read = re.sub(r"#(\d+);", lambda m: chr(int(m[1])), label(text))
    assert read == " ".join(text.split())


@pytest.mark.parametrize("keyword", ["section", "title", "click", "end", "excludes", "graph"])
def test_a_label_that_begins_with_a_keyword_does_not_begin_with_its_letter(keyword: str) -> None:
    assert label(keyword).startswith("#")


def test_an_axis_never_has_more_categories_than_are_legible() -> None:
    chart = line_chart("Left", "h", [str(n) for n in range(40)], [("#777777", [float(n) for n in range(40)])])
    axis = next(line for line in chart.splitlines() if "x-axis" in line)
    assert axis.count('"') == 2 * MOST_CATEGORIES


def test_figures_have_no_exponents() -> None:
    chart = line_chart("Left", "h", ["a"], [("#777777", [1e12])])
    assert "e+" not in chart
    assert "1000000000000.00" in chart


def test_a_diagram_longer_than_viewers_draw_is_refused() -> None:
    with pytest.raises(ValueError, match="viewers"):
        flowchart(["x" * MOST_CHARACTERS], [])
    with pytest.raises(ValueError, match="edges"):
        flowchart(["a", "b"], [(0, 1)] * 501)
