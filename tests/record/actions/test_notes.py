"""Dated notes on anything."""

import pytest

from buildlog.errors import NotFound, Refused


@pytest.mark.parametrize(
    ("about", "noun", "row_id"),
    [
        ("part SHIN", "part", 1),
        ("SHIN", "part", 1),
        ("bought item PIN", "bought item", 1),
        ("SHINL-A", "lot", 2),
        ("#1", "lot", 1),
        ("TOE L.2", "position", 5),
        ("position LEG R", "position", 3),
        ("", "day", None),
    ],
)
def test_a_note_is_about_anything_that_has_a_name(legs, tell, about, noun, row_id) -> None:
    tell("count_part", part="SHIN", side="L", pieces="2")
    tell("fit_piece", slot="LEG L / SHIN")
    tell("add_note", text="Creaks a little.", about=about, photo="pictures/creak.jpg")
    (note,) = legs.snapshot().notes
    assert (note.noun, note.row_id, note.at) == (noun, row_id, legs.now())


def test_a_picture_that_is_not_there_is_told_and_the_note_kept(legs, tell, tmp_path) -> None:
    picture = tmp_path / "creak.jpg"
    assert f"There is no file {picture}" in tell("add_note", text="Creaks a little.", photo=str(picture))
    picture.write_bytes(b"")
    assert "There is no file" not in tell("add_note", text="Creaks more.", photo=str(picture))
    assert [note.photo for note in legs.snapshot().notes] == [str(picture)] * 2


def test_a_note_about_nothing_known_is_refused(legs, tell) -> None:
    with pytest.raises(NotFound):
        tell("add_note", text="?", about="part NOTHING")


def test_a_code_that_two_things_carry_asks_which(legs, tell, add) -> None:
    add("part", code="LEG", name="Leg print", build="LB")
    with pytest.raises(Refused, match="assembly LEG and part LEG"):
        tell("add_note", text="?", about="LEG")


def test_a_note_can_be_removed_and_comes_back_by_undo(legs, tell) -> None:
    tell("add_note", text="Creaks a little.")
    tell("remove_note", note="1")
    assert legs.snapshot().notes == ()
    legs.undo()
    assert len(legs.snapshot().notes) == 1
