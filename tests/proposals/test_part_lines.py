import pytest

from buildlog.proposals.part_lines import NewPart, read_new_part, read_new_parts, write_new_part
from buildlog.terms import SideRule


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("fl07 shin handed ×1", NewPart("FL07", "shin", handed=True)),
        ("FL08 shin cap x2", NewPart("FL08", "shin cap", quantity=2)),
        ("FL09 knee 2:30 45.5g x 4", NewPart("FL09", "knee", quantity=4, print_time=150, grams=45_500)),
        ("FL10 hook handed one of each", NewPart("FL10", "hook", handed=True, side_rule=SideRule.ONE_OF_EACH)),
        ("FL11 lever l only 90 min", NewPart("FL11", "lever", side_rule=SideRule.LEFT_ONLY, print_time=90)),
        ("FL12 box 12 cm 3h", NewPart("FL12", "box 12 cm", print_time=180)),
        ("FL07", NewPart("FL07")),
        ("FL07 x3", NewPart("FL07", quantity=3)),
        ("FL13 handed hinge", NewPart("FL13", "handed hinge")),
        ("DC1 cross member x3, 2,5h 95 g", NewPart("DC1", "cross member", quantity=3, print_time=150, grams=95_000)),
        ("DC2 lug 2x 45min 12 g", NewPart("DC2", "lug", quantity=2, print_time=45, grams=12_000)),
        ("DC3 lug 20mm x2 90m 12g", NewPart("DC3", "lug 20mm", quantity=2, print_time=90, grams=12_000)),
        (
            "DC4 lug 1:30 12g PETG-BLACK",
            NewPart("DC4", "lug", print_time=90, grams=12_000, material="PETG-BLACK"),
        ),
        (
            "DC5 M4 bolt 12g of petg-black 3 ×",
            NewPart("DC5", "M4 bolt", quantity=3, grams=12_000, material="PETG-BLACK"),
        ),
        ("DC6 spoke-2 1d 4h", NewPart("DC6", "spoke-2", print_time=28 * 60)),
    ],
)
def test_what_stands_behind_the_name_is_read_in_any_order(text: str, part: NewPart) -> None:
    assert read_new_part(text) == part
    assert read_new_part(write_new_part(part)) == part


def test_several_are_parted_by_commas_or_lines() -> None:
    assert [part.code for part in read_new_parts("FL07 shin, FL08 knee x2\nFL09 toe")] == ["FL07", "FL08", "FL09"]


def test_a_comma_before_figures_parts_no_parts() -> None:
    cross, lug = read_new_parts("DC1 cross member x3, 2,5h 95 g, handed, DC2 lug x2")
    assert cross == NewPart("DC1", "cross member", handed=True, quantity=3, print_time=150, grams=95_000)
    assert lug == NewPart("DC2", "lug", quantity=2)


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("FL07 shin x1, FL07 shin", "twice"),
        ("FL07 shin x1 x2", "says twice"),
        ("FL07 shin 2x x2", "says twice"),
        ("FL07 spoke 2", "«2» is not understood: write FL07 shin handed x2 2:30 45g"),
        ("FL07 shin 1:30 PETG-BLACK 12g", "«1:30 PETG-BLACK» is not understood"),
        ("FL07 shin 3pcs", "«3pcs» is not understood"),
        ("FL07 shin 45 minutes 12g", "«45 minutes» is not understood"),
        ("FL07 shin x2 about an hour", "«x2 about an hour» is not understood"),
        ("FL07 shin x0", "quantity of 0"),
        ("shin? handed", "no code"),
    ],
)
def test_what_cannot_be_meant_is_refused_in_words(text: str, word: str) -> None:
    with pytest.raises(ValueError, match=word):
        read_new_parts(text)
