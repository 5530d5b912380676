import itertools
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.screens.widgets.lengths import Lengths, SideProgress, bar_segments, dots_of, thread_cells
from buildlog.screens.widgets.tones import Brush, Tone

SHARES = st.none() | st.floats(min_value=0, max_value=1)


@given(st.floats(min_value=0, max_value=1), st.integers(min_value=2, max_value=80))
def test_something_is_never_drawn_as_nothing_nor_nearly_all_as_all(share: float, total: int) -> None:
    filled = dots_of(share, total)
    assert (filled == 0) == (share == 0)
    assert (filled == total) == (share == 1)


def test_every_mix_of_the_three_lengths_has_a_glyph_of_its_own() -> None:
    mixes = itertools.product((0, 1), repeat=3)
    glyphs = [thread_cells(Lengths(*mix), 1)[0][0] for mix in mixes]
    assert len(set(glyphs)) == 8


def test_the_furthest_length_gives_the_tone() -> None:
    tones = [tone for _, tone in thread_cells(Lengths(printed=1, worked=0.5, passed=0.25), 4)]
    assert tones == [Tone.GOOD, Tone.ACCENT, Tone.PLAIN, Tone.PLAIN]


def test_left_progress_is_the_mirror_image_of_right_progress(text_of: Callable[..., str]) -> None:
    lengths = Lengths(0.8, 0.5, 0.2)
    assert text_of(bar_segments(lengths, 10, Brush())) == "⣿⣿⣶⣶⣶⣤⣤⣤··"
    assert text_of(bar_segments(lengths, 10, Brush(), leftward=True)) == "··⣤⣤⣤⣶⣶⣶⣿⣿"


def test_half_a_cell_lies_toward_the_name_on_both_sides(text_of: Callable[..., str]) -> None:
    assert text_of(bar_segments(Lengths(0.5, None, None), 3, Brush())) == "⣤⡄·"
    assert text_of(bar_segments(Lengths(0.5, None, None), 3, Brush(), leftward=True)) == "·⢠⣤"


def test_a_length_of_nothing_to_do_has_no_dots_though_others_are_full(text_of: Callable[..., str]) -> None:
    assert text_of(bar_segments(Lengths(None, 1, 1), 2, Brush())) == "⠛⠛"


def test_a_side_held_on_purpose_says_so_on_its_track(text_of: Callable[..., str]) -> None:
    assert text_of(bar_segments(Lengths(0.1, 0, 0), 12, Brush(), held=True)) == "⣤╌╌ held ╌╌╌"
    assert text_of(bar_segments(Lengths(0, 0, 0), 4, Brush(), held=True)) == "╌╌╌╌"


@given(
    st.builds(Lengths, SHARES, SHARES, SHARES), st.integers(min_value=0, max_value=60), st.booleans(), st.booleans()
)
def test_a_bar_has_exactly_the_cells_asked_for(lengths: Lengths, cells: int, leftward: bool, held: bool) -> None:
    assert sum(s.cell_length for s in bar_segments(lengths, cells, Brush(), leftward, held)) == cells


@pytest.mark.parametrize(
    ("given_state", "marks"),
    [({"ready": True}, "✓"), ({"held": True, "stood_in": 3}, "‖~3"), ({"stood_in": 1}, "~1"), ({}, "")],
)
def test_marks_tell_ready_held_and_stood_in_without_colour(given_state: dict[str, Any], marks: str) -> None:
    side = SideProgress(Lengths(1, 1, 1), 12, 40, **given_state)
    assert "".join(text for text, _ in side.marks()) == marks
