"""How a person names positions, slots and pieces."""

import pytest

from buildlog.proposals.places import PiecesNamed, Place, SlotPlace, read_pieces, read_place, read_slot
from buildlog.terms import Side


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("head", Place("HEAD")),
        ("LEG-F  L", Place("LEG-F", Side.LEFT)),
        ("TOE r.2", Place("TOE", Side.RIGHT, (2,))),
        ("TOE R.2.4", Place("TOE", Side.RIGHT, (2, 4))),
        ("RING 3", Place("RING", None, (3,))),
    ],
)
def test_a_position_is_read_and_written_back(text: str, place: Place) -> None:
    assert read_place(text) == place
    assert read_place(str(place)) == place


@pytest.mark.parametrize(
    ("text", "slot"),
    [
        ("TOE R.2 / FL07", SlotPlace(Place("TOE", Side.RIGHT, (2,)), "FL07")),
        ("TOE R.2/fl07 3", SlotPlace(Place("TOE", Side.RIGHT, (2,)), "FL07", None, 3)),
        ("FRAME / HOOK R 1", SlotPlace(Place("FRAME"), "HOOK", Side.RIGHT, 1)),
    ],
)
def test_a_slot_is_read_and_written_back(text: str, slot: SlotPlace) -> None:
    assert read_slot(text) == slot
    assert read_slot(str(slot)) == slot


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("#12", PiecesNamed(12)),
        ("fl07r-c", PiecesNamed(code="FL07R-C")),
        ("FL07 L", PiecesNamed(code="FL07", side=Side.LEFT)),
    ],
)
def test_pieces_are_read_and_written_back(text: str, pieces: PiecesNamed) -> None:
    assert read_pieces(text) == pieces
    assert read_pieces(str(pieces)) == pieces


@pytest.mark.parametrize("text", ["", "LEG X", "TOE R.", "TOE R.2 / FL07", "LEG L R"])
def test_what_is_no_position_says_how_to_write_one(text: str) -> None:
    with pytest.raises(ValueError, match=r"is no position: write HEAD|is no code"):
        read_place(text)


@pytest.mark.parametrize("text", ["LEG L", "LEG L /", "LEG L / FL07 0"])
def test_what_is_no_slot_says_how_to_write_one(text: str) -> None:
    with pytest.raises(ValueError, match="is no slot: write the position, a slash and the part"):
        read_slot(text)


@pytest.mark.parametrize("digits", ["9" * 13, "9" * 5000])
def test_a_number_that_no_row_can_have_is_refused_in_the_words_of_the_field(digits: str) -> None:
    for read, text in (
        (read_place, f"HEAD {digits}"),
        (read_place, f"TOE L.{digits}"),
        (read_slot, f"HEAD / FL07 {digits}"),
        (read_pieces, f"#{digits}"),
    ):
        with pytest.raises(ValueError, match="write"):
            read(text)
