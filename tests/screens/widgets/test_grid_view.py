from collections.abc import Sequence

import pytest

from buildlog.screens.widgets.grid_view import GridView
from buildlog.screens.widgets.rows import Cell, GridRow, group_row

TREE = [("beetle", 0), ("head", 1), ("antenna", 2), ("mandible", 2), ("leg", 1), ("toe", 2)]


def rows(*names: str) -> list[GridRow]:
    return [GridRow(name, (Cell(name),)) for name in names]


def view(of: Sequence[GridRow]) -> GridView:
    made = GridView()
    made.set_rows(of)
    return made


def tree() -> GridView:
    return view([GridRow(name, (Cell(name),), depth=depth) for name, depth in TREE])


def shown(of: GridView) -> list[str]:
    return [row.key for row in of.shown]


def test_the_cursor_stays_with_its_row_when_the_rows_change() -> None:
    grid = view(rows("a", "b", "c"))
    grid.move(1)
    grid.set_rows(rows("z", "a", "c", "b"))
    assert grid.cursor_key == "b"


def test_the_cursor_stays_at_its_line_when_its_row_is_gone() -> None:
    grid = view(rows("a", "b", "c"))
    grid.move(1)
    grid.set_rows(rows("a", "c"))
    assert grid.cursor_key == "c"


def test_an_empty_grid_has_no_cursor_and_gets_one_with_its_first_row() -> None:
    grid = view([])
    assert grid.cursor_key is None
    grid.move(1)
    grid.set_rows(rows("a"))
    assert grid.cursor_key == "a"


def test_the_cursor_steps_over_headings_in_both_directions() -> None:
    grid = view([group_row("g", "Open"), *rows("a"), group_row("h", "Sealed"), *rows("b"), group_row("i", "None")])
    assert grid.cursor_key == "a"
    grid.move(1)
    assert grid.cursor_key == "b"
    grid.move(1)
    assert grid.cursor_key == "b"
    grid.move(-9)
    assert grid.cursor_key == "a"


def test_two_rows_of_one_key_are_refused_by_name() -> None:
    with pytest.raises(ValueError, match="'b'"):
        view(rows("a", "b", "b"))


def test_marks_stay_with_their_rows_and_go_with_them() -> None:
    grid = view(rows("a", "b", "c"))
    grid.toggle_mark()
    grid.move(2)
    grid.toggle_mark()
    grid.set_rows(rows("c", "b"))
    assert grid.marked_in_order() == ("c",)


def test_a_filter_keeps_the_rows_above_what_it_finds() -> None:
    grid = tree()
    grid.set_filter("TOE")
    assert shown(grid) == ["beetle", "leg", "toe"]
    grid.set_filter("")
    assert len(shown(grid)) == len(TREE)


def test_a_filter_finds_rows_that_hold_every_word_and_drops_headings_without_any() -> None:
    grid = view([group_row("g", "x"), *rows("amber dry"), group_row("h", "y"), *rows("black dry")])
    grid.set_filter("dry bla")
    assert shown(grid) == ["h", "black dry"]
    assert grid.count == 1


def test_a_filter_that_hides_the_row_of_the_cursor_puts_it_on_the_first_row_found() -> None:
    grid = tree()
    grid.move(2)
    grid.set_filter("leg")
    assert grid.cursor_key == "leg"


def test_folding_hides_what_is_beneath_and_a_new_set_of_rows_keeps_it() -> None:
    grid = tree()
    grid.move(1)
    grid.fold()
    assert shown(grid) == ["beetle", "head", "leg", "toe"]
    grid.set_rows(grid.rows)
    assert shown(grid) == ["beetle", "head", "leg", "toe"]
    grid.unfold()
    assert len(shown(grid)) == len(TREE)


def test_folding_where_nothing_is_beneath_goes_to_the_row_above() -> None:
    grid = tree()
    grid.move(3)
    grid.fold()
    assert grid.cursor_key == "head"


def test_going_to_a_folded_row_unfolds_the_way_to_it() -> None:
    grid = tree()
    grid.fold()
    assert shown(grid) == ["beetle"]
    assert grid.reveal("toe") == 5
    assert grid.reveal("nowhere") is None


def test_a_row_replaced_keeps_the_cursor_and_shows_at_once() -> None:
    grid = view(rows("a", "b"))
    line = grid.replace(GridRow("b", (Cell("other"),)))
    assert line == 1
    assert grid.shown[1].cells[0].words() == "other"
    assert grid.cursor_key == "a"


def test_a_row_replaced_under_a_filter_goes_when_it_no_longer_holds_the_text() -> None:
    grid = view(rows("amber", "amber two"))
    grid.set_filter("two")
    assert grid.replace(GridRow("amber two", (Cell("black"),))) is None
    assert shown(grid) == []
