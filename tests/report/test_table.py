"""One table as text, JSON and Markdown."""

import json

import pytest
from rich.cells import cell_len

from buildlog.report.table import Column, Table, escape, to_json, to_markdown, to_plain, to_text

TABLE = Table(
    "stock",
    "Stock",
    (Column("name", "Name"), Column("left_mg", "Left", lambda mg: f"{mg // 1000} g", right=True)),
    (("amber", 412_000), ("甲虫 shell", 3_000)),
)


def test_text_columns_line_up_by_terminal_cells_even_with_wide_names() -> None:
    lines = to_text(TABLE).splitlines()[1:]
    assert {cell_len(line) for line in lines} == {cell_len(lines[0])}


def test_json_holds_the_raw_figures_that_the_text_shows() -> None:
    assert json.loads(to_json({"stock": to_plain(TABLE)}))["stock"][0] == {"name": "amber", "left_mg": 412_000}
    assert "412 g" in to_text(TABLE)


@pytest.mark.parametrize("control", ["\x1b[31m", "\r", "\u202e", "\x07", "\x00"])
def test_a_name_cannot_steer_the_terminal(control: str) -> None:
    table = Table("t", "T", (Column("name", "Name"),), ((f"a{control}b",),))
    assert not any((ord(c) < 32 and c != "\n") or c == "\u202e" for c in to_text(table))


@pytest.mark.parametrize(
    "name",
    ["a | b", "[link](x)", "<img src=x>", "*bold*", "`code`", "# heading", "- item", "1. item", "~~s~~", "$x$"],
)
def test_a_name_cannot_break_the_markdown(name: str) -> None:
    """Punctuation by CommonMark 0.31, section 2.4, and the tables and strikethrough of GFM 0.29."""
    cell = to_markdown(Table("t", "T", (Column("name", "Name"),), ((name,),))).splitlines()[-1]
    inside = cell.removeprefix("| ").removesuffix(" |")
    bare = inside.replace("\\\\", "")
    for sign in "|[<*`~$":
        assert f"\\{sign}" in bare or sign not in name
    assert escape("- item").startswith("\\-")
    assert escape("1. item").startswith("\\1")


def test_a_table_without_rows_says_so() -> None:
    assert "Nothing." in to_text(Table("t", "T", (Column("a", "A"),), ()))


TREE = Table(
    "tree",
    "Tree",
    (Column("code", "Code"), Column("left_g", "Left", right=True), Column("why", "Why")),
    (("CART", 12, "a long sentence that says why this is how it is, and what can be done"), ("ARM", 3, "short")),
    depths=(0, 1),
)


@pytest.mark.parametrize("width", [30, 40, 60, 80, 120])
def test_no_line_is_wider_than_the_terminal(width: int) -> None:
    assert max(map(cell_len, to_text(TREE, width).splitlines())) <= width


def test_words_that_would_get_little_room_are_set_below_their_row() -> None:
    lines = to_text(TREE, 36).splitlines()
    assert lines[2].split() == ["CART", "12"]
    assert " ".join(" ".join(lines[3:6]).split()).startswith(TREE.rows[0][2])


def test_a_cell_that_does_not_fit_ends_with_a_sign() -> None:
    table = Table("t", "T", (Column("a", "A"), Column("n", "N", right=True)), (("x" * 60, 5),))
    (cut,) = [line for line in to_text(table, 40).splitlines() if "x" in line]
    assert cell_len(cut) <= 40
    assert "x…" in cut
    assert cut.endswith("5")
    assert "…" not in to_text(table)


def test_a_tree_is_indented_in_text_marked_in_markdown_and_numbered_in_json() -> None:
    assert "\n    ARM" in to_text(TREE)
    assert "| › ARM |" in to_markdown(TREE)
    assert [(row["code"], row["depth"]) for row in to_plain(TREE)] == [("CART", 0), ("ARM", 1)]
