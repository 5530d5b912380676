"""What is typed finds what fits it best first."""

import pytest

from buildlog.screens.dialogs.ranked import Names, ranked

NAMES = (
    Names.of("BOX-9", "shelf over the lathe", "box"),  # 0
    Names.of("BELT", "drive belt", "bought item"),  # 1
    Names.of("", "lathe", "form"),  # 2
    Names.of("LATHE-2", "old one", "resource"),  # 3
    Names.of("LATHE", "wood lathe", "resource"),  # 4
    Names.of("", "slathered", "note"),  # 5
    Names.of("RUN-LATHE", "turning", "step"),  # 6
    Names.of("LATHE-1", "new one", "resource"),  # 7
)


def test_a_whole_code_comes_first_then_begun_codes_names_words_and_what_holds_it() -> None:
    assert ranked(NAMES, "lathe") == [4, 3, 7, 2, 0, 6, 5]


def test_what_fits_as_well_stays_in_its_order() -> None:
    assert ranked(NAMES, "e") == [n for n, one in enumerate(NAMES) if "e" in one.words]


@pytest.mark.parametrize(
    ("typed", "places"),
    [
        ("LaThE-", [3, 7]),
        ("lathe over", [0]),
        ("resource one", [3, 7]),
        ("lath tur", [6]),
        ("nothing", []),
        ("[", []),
    ],
)
def test_each_word_typed_has_to_be_held(typed: str, places: list[int]) -> None:
    assert ranked(NAMES, typed) == places


def test_nothing_typed_leaves_all_in_their_order() -> None:
    assert ranked(NAMES, "  ") == list(range(len(NAMES)))
