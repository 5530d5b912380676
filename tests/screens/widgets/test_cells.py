import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from buildlog.screens.widgets.cells import BIDI_CONTROLS, Align, clean, cut, fit, width_of, wrapped


@given(st.text(max_size=60), st.integers(min_value=0, max_value=30), st.sampled_from(Align))
def test_any_text_fits_exactly_in_the_cells_asked_for(text: str, cells: int, align: Align) -> None:
    assert cell_len(fit(text, cells, align)) == cells


@given(st.text(max_size=60), st.integers(min_value=1, max_value=30))
def test_a_text_is_cut_exactly_when_a_sign_shows_it(text: str, cells: int) -> None:
    assert cut(text, cells) == clean(text) or cut(text, cells).endswith("…")


@given(st.text(max_size=60), st.integers(min_value=2, max_value=30))
def test_a_wrapped_text_is_whole_and_no_line_of_it_is_too_wide(text: str, cells: int) -> None:
    lines = wrapped(text, cells)
    assert "".join("".join(lines).split()) == "".join(clean(text).split())
    assert max(map(width_of, lines)) <= cells


def test_a_text_is_wrapped_between_words_and_within_one_that_is_too_long() -> None:
    assert wrapped("left foreleg 甲虫の灯りの形 L", 8) == ["left", "foreleg", "甲虫の灯", "りの形 L"]


@given(st.text(max_size=60))
def test_a_cleaned_text_moves_no_cursor_and_stays_as_it_is_when_cleaned_again(text: str) -> None:
    safe = clean(text)
    assert not {unicodedata.category(char) for char in safe} & {"Cc", "Cs", "Zl", "Zp"}
    assert not BIDI_CONTROLS & set(safe)
    assert clean(safe) == safe


def test_wide_characters_are_never_cut_in_half() -> None:
    assert cut("甲虫の灯り", 6) == "甲虫…"
    assert width_of(fit("甲虫の灯り", 6)) == 6


def test_a_combining_mark_stays_with_its_letter() -> None:
    assert cut("re\u0301sine", 3) == "re\u0301…"
    assert width_of("re\u0301sine") == 6


def test_a_mark_without_a_letter_gets_a_place_of_its_own() -> None:
    assert clean("\u0301x") == "\N{DOTTED CIRCLE}\u0301x"


def test_zero_width_characters_are_taken_out() -> None:
    assert clean("toe\u200b link\ufeff") == "toe link"


def test_right_to_left_letters_are_kept_and_measured() -> None:
    assert width_of("חיפושית") == 7
    assert fit("חיפושית", 9, Align.RIGHT) == "  חיפושית"


@pytest.mark.parametrize("override", ["\u202e", "\u2066", "\u200f", "\u061c"])
def test_characters_that_turn_the_direction_are_shown_and_not_obeyed(override: str) -> None:
    assert clean(f"rib{override}bir") == "rib\ufffdbir"


def test_control_characters_are_shown_and_not_obeyed() -> None:
    assert clean("a\x1b[31mb\x07\x9b") == "a␛[31mb␇\ufffd"
    assert clean("a\tb\nc") == "a b c"


def test_a_joined_picture_is_taken_apart_but_a_script_keeps_its_joiner() -> None:
    assert clean("\U0001f469\u200d\U0001f527") == "\U0001f469\U0001f527"
    assert clean("\u0915\u094d\u200d\u0937") == "\u0915\u094d\u200d\u0937"


def test_markup_is_text() -> None:
    assert fit("rib [/] x", 9) == "rib [/] x"


@pytest.mark.parametrize(("align", "shown"), [(Align.LEFT, "rib  "), (Align.RIGHT, "  rib"), (Align.CENTRE, " rib ")])
def test_a_short_text_is_padded_where_the_alignment_leaves_room(align: Align, shown: str) -> None:
    assert fit("rib", 5, align) == shown
