from collections.abc import Callable
from typing import Any

import pytest

from buildlog.screens.widgets.chart import Chart
from buildlog.screens.widgets.chart_data import ChartData, Curve, Level, Stroke, Upright, round_steps
from buildlog.screens.widgets.chart_lines import Plot
from buildlog.screens.widgets.dots import Canvas


@pytest.fixture
def burn_down() -> ChartData:
    return ChartData(
        title="Amber PLA",
        curves=(
            Curve("as it was", ((0, 1000), (50, 500))),
            Curve("at this pace", ((50, 500), (100, 0)), Stroke.DOTTED),
        ),
        band=((50, 500, 500), (100, 0, 400)),
        band_label="4 in 5",
        levels=(Level("safety", 200),),
        uprights=(Upright("order by 12 Nov", 60),),
        x_labels=(("1 Sep", 0), ("1 Oct", 30), ("2 Oct", 31), ("1 Dec", 92)),
        unit="g",
    )


@pytest.mark.parametrize("size", [(80, 22), (120, 38), (40, 10)])
async def test_title_legend_flag_axis_and_dates_are_there_at_every_size(
    bench: Callable[..., Any], burn_down: ChartData, size: tuple[int, int]
) -> None:
    chart = Chart()
    app = bench(chart)
    async with app.run_test(size=size) as pilot:
        chart.show(burn_down)
        await pilot.pause()
        lines = app.lines
    if size[0] == 40:  # where all do not fit, the title goes first
        assert lines[0] == "⠒⠒ as it was ⠐⠐ at this pace    4 in 5"
    else:
        assert lines[0] == "Amber PLA   ⠒⠒ as it was   ⠐⠐ at this pace      4 in 5"
    assert "order by 12 Nov" in lines[1]
    assert any(line.lstrip().startswith("safety ┤") for line in lines)
    assert any("1 000 g ┤" in line for line in lines)
    assert any(line.strip().startswith("0 ┤") for line in lines)
    assert lines[size[1] - 2].strip().startswith("└┴")
    assert "1 Sep" in lines[size[1] - 1]
    assert "1 Dec" in lines[size[1] - 1]


async def test_a_date_that_would_touch_the_one_before_is_left_out(
    bench: Callable[..., Any], burn_down: ChartData
) -> None:
    chart = Chart()
    app = bench(chart)
    async with app.run_test(size=(80, 22)) as pilot:
        chart.show(burn_down)
        await pilot.pause()
        assert "1 Oct" in app.lines[21]
        assert "2 Oct" not in app.lines[21]


async def test_the_flag_stands_at_its_line(bench: Callable[..., Any], burn_down: ChartData) -> None:
    chart = Chart()
    app = bench(chart)
    async with app.run_test(size=(80, 22)) as pilot:
        chart.show(burn_down)
        await pilot.pause()
        assert app.lines[1].index("▾") == app.lines[2].index("┊")


def test_what_was_and_what_is_to_come_differ_without_colour(burn_down: ChartData) -> None:
    plot = Plot.of(burn_down, 80, 22)

    def dots(canvas: Canvas) -> int:
        return sum(canvas.bits(x, y).bit_count() for x in range(plot.inner) for y in range(plot.rows))

    was, to_come = (dots(canvas) for _, canvas in plot.canvases)
    assert was > 1.5 * to_come > 0


async def test_the_band_is_a_ground_behind_the_cells_it_covers(
    bench: Callable[..., Any], burn_down: ChartData
) -> None:
    chart = Chart()
    app = bench(chart)
    async with app.run_test(size=(80, 22)) as pilot:
        chart.show(burn_down)
        await pilot.pause()
        band = chart.get_component_rich_style("chart--band").bgcolor
        columns = [
            i for i, s in enumerate(cell for seg in chart.render_line(14) for cell in [seg] * seg.cell_length)
            if s.style.bgcolor == band
        ]  # fmt: skip
        assert columns
        assert min(columns) > 44


async def test_without_data_it_leads_in_and_without_room_it_says_so(
    bench: Callable[..., Any], burn_down: ChartData
) -> None:
    chart = Chart(empty="Weigh a spool with w.")
    app = bench(chart)
    async with app.run_test(size=(80, 6)) as pilot:
        assert app.lines[1].strip() == "Weigh a spool with w."
        chart.show(burn_down)
        await pilot.pause()
        assert app.lines[0].strip() == "Amber PLA: too little room for a picture"


async def test_flags_go_to_the_side_that_leaves_room_for_all(bench: Callable[..., Any]) -> None:
    near = (Upright("order by 12 Nov", 80), Upright("parade", 97))
    chart = Chart()
    app = bench(chart)
    async with app.run_test(size=(80, 22)) as pilot:
        chart.show(ChartData("Amber PLA", (Curve("as it was", ((0, 900), (100, 0))),), uprights=near))
        await pilot.pause()
        assert "order by 12 Nov ▾" in app.lines[1]
        assert "parade ▾" in app.lines[1]


def test_a_picture_of_one_reading_can_be_drawn() -> None:
    one = ChartData("x", (Curve("as it was", ((0, 0),)),))
    assert one.x_range() == (0, 1)
    assert one.y_range() == (0, 1)


@pytest.mark.parametrize(
    ("low", "high", "at_most", "steps"),
    [(0, 1000, 6, [0, 200, 400, 600, 800, 1000]), (0, 7, 3, [0, 5]), (-3, 10, 4, [0, 5, 10]), (0, 1, 3, [0, 0.5, 1])],
)
def test_axis_values_are_round(low: float, high: float, at_most: int, steps: list[float]) -> None:
    assert round_steps(low, high, at_most) == pytest.approx(steps)


def test_the_band_is_straight_between_its_points_and_ends_with_them(burn_down: ChartData) -> None:
    assert burn_down.band_at(75) == pytest.approx((250, 450))
    assert burn_down.band_at(49) is None


def test_a_solid_line_leaves_no_column_out() -> None:
    canvas = Canvas(10, 2)
    canvas.line(0.4, 7.2, 19.3, 0.2)
    columns = [canvas.bits(x, 0) | canvas.bits(x, 1) for x in range(10)]
    assert all(bits & 0x47 and bits & 0xB8 for bits in columns)


def test_dots_fall_into_their_places_of_the_braille_cell() -> None:
    # Unicode 15, Braille Patterns: dots 1 and 8 are the first and the last bit
    canvas = Canvas(1, 1)
    canvas.dot(0, 0)
    canvas.dot(1, 3)
    canvas.dot(9, 9)
    assert canvas.bits(0, 0) == 0x81
