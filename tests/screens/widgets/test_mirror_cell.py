from collections.abc import Callable
from typing import Any

import pytest

from buildlog.screens.widgets.cells import Align, width_of
from buildlog.screens.widgets.grid import Grid
from buildlog.screens.widgets.lengths import Lengths, SideProgress
from buildlog.screens.widgets.mirror_cell import MirrorCell, MirrorHeading
from buildlog.screens.widgets.rows import Column, GridRow
from buildlog.screens.widgets.tones import Brush
from buildlog.terms import Side


def side(printed: float, worked: float, passed: float, filled: int, slots: int, **state: Any) -> SideProgress:
    return SideProgress(Lengths(printed, worked, passed), filled, slots, **state)


@pytest.fixture
def wing() -> MirrorCell:
    left, right = side(0.8, 0.6, 0.25, 31, 40), side(0.1, 0, 0, 3, 40, held=True)
    return MirrorCell("Wing case", left, right, lead=Side.LEFT)


@pytest.mark.parametrize("width", range(60, 161))
def test_a_line_fills_its_width_and_keeps_its_name_in_the_middle(
    width: int, wing: MirrorCell, text_of: Callable[..., str]
) -> None:
    text = text_of(wing.paint(width, Align.LEFT, Brush()))
    assert width_of(text) == width
    left, right = text.index("«") - 1, width - text.index("⣤", text.index("Wing case"))
    assert left == right


def test_both_sides_grow_away_from_the_name(wing: MirrorCell, text_of: Callable[..., str]) -> None:
    assert text_of(wing.paint(78, Align.LEFT, Brush())) == (
        "31/40        ··⢠⣤⣤⣶⣶⣶⣶⣿⣿⣿ «   Wing case              ⣤╌╌ held ╌╌╌ ‖       3/40"
    )


def test_a_wide_line_says_what_the_figures_count(wing: MirrorCell, text_of: Callable[..., str]) -> None:
    assert text_of(wing.paint(118, Align.LEFT, Brush())).startswith("31/40 slots ")


def test_an_assembly_without_sides_has_one_measure_of_half_its_length_on_either_hand(
    text_of: Callable[..., str],
) -> None:
    cell = MirrorCell("Thorax", middle=side(1, 0.5, 0, 12, 40))
    text = text_of(cell.paint(78, Align.LEFT, Brush()))
    assert text.count("12/40") == 1
    before, after = text.split("Thorax")
    assert before.strip() == "⣤⣤⣤⣶⣶⣶"
    assert after.split()[0] == "⣶⣶⣶⣤⣤⣤"


def test_sides_out_of_step_are_marked_beside_the_name(text_of: Callable[..., str]) -> None:
    cell = MirrorCell("Foreleg", side(0, 0, 0, 0, 4), side(0, 0, 0, 0, 4), lead=Side.RIGHT, out_of_step=True)
    assert "≠»" in text_of(cell.paint(78, Align.LEFT, Brush()))


async def test_the_grid_hosts_the_mirror_with_its_tree(bench: Callable[..., Any], wing: MirrorCell) -> None:
    grid = Grid((Column("mirror", heading=MirrorHeading()),))
    toe = MirrorCell("Hinge", side(0, 0, 0, 0, 9), side(0, 0, 0, 0, 9))
    grid.set_rows([GridRow("wing", (wing,), depth=0), GridRow("hinge", (toe,), depth=1)])
    app = bench(grid)
    async with app.run_test(size=(80, 6)):
        assert app.lines[0].startswith("  ◂ left")
        assert "⣤ printed  ⠒ worked  ⠉ passed" in app.lines[0]
        assert app.lines[0].endswith("right ▸")
        assert "▾ Wing case" in app.lines[1]
        assert app.lines[2].index("Hinge") == app.lines[1].index("Wing case") + 2
