"""Tolerances against worked sizes; the tables are secondary copies, the standards were not read."""

import json
from importlib.resources import files

import pytest

from buildlog.methods.tolerance import clearance_hole_mm, fit_clearance_um, general_deviation_mm, limits_um


def table(name: str) -> dict[str, object]:
    return json.loads(files("buildlog.shared").joinpath(name).read_text("utf-8"))


ISO2768, ISO286, ISO273 = table("iso2768-1.json"), table("iso286.json"), table("iso273.json")


@pytest.mark.parametrize(
    ("nominal", "tolerance_class", "deviation"),
    [
        (30, "m", 0.2),
        (30.01, "m", 0.3),
        (400, "c", 1.2),
        (0.5, "f", 0.05),
        (3, "c", 0.2),
        (120, "c", 0.8),
        (120.5, "v", 2.5),
    ],
)
def test_general_deviations(nominal: float, tolerance_class: str, deviation: float) -> None:
    # ISO 2768-1 table 1, as read in two web copies that agree
    assert general_deviation_mm(ISO2768, nominal, tolerance_class) == deviation


def test_class_f_ends_at_two_metres() -> None:
    # ISO 2768-1 table 1, as read in two web copies that agree
    with pytest.raises(ValueError, match="no deviation for 2500 mm in class f"):
        general_deviation_mm(ISO2768, 2500, "f")


@pytest.mark.parametrize(
    ("nominal", "hole", "shaft", "hole_limits", "shaft_limits", "clearance"),
    [
        # as read in machinecalcs.com, iso-286-fit-table (the second also in metricmech.com)
        (25, "H7", "g6", (0, 21), (-20, -7), (7, 41)),
        (25, "H7", "h6", (0, 21), (-13, 0), (0, 34)),
        (25, "H8", "f7", (0, 33), (-41, -20), (20, 74)),
        # as read in a table of fits in a public source file, and in olzalex.blogg.se
        (44, "H7", "g6", (0, 25), (-25, -9), (9, 50)),
        (10, "H7", "h6", (0, 15), (-9, 0), (0, 24)),
        # computed by us from the tables of tolerances and deviations
        (25, "H7", "k6", (0, 21), (2, 15), (-15, 19)),
        (25, "H7", "p6", (0, 21), (22, 35), (-35, -1)),
    ],
)
def test_worked_fits(
    nominal: float,
    hole: str,
    shaft: str,
    hole_limits: tuple[int, int],
    shaft_limits: tuple[int, int],
    clearance: tuple[int, int],
) -> None:
    assert limits_um(ISO286, nominal, hole) == hole_limits
    assert limits_um(ISO286, nominal, shaft) == shaft_limits
    assert fit_clearance_um(ISO286, nominal, hole, shaft) == clearance


@pytest.mark.parametrize(
    ("hole", "shaft", "shaft_limits", "clearance"),
    [
        ("H9", "d9", (-45, -20), (20, 70)),
        ("H8", "f7", (-16, -6), (6, 30)),
        ("H7", "g6", (-8, -2), (2, 18)),
        ("H7", "h6", (-6, 0), (0, 16)),
    ],
)
def test_preferred_clearance_fits_of_three_millimetres(
    hole: str, shaft: str, shaft_limits: tuple[int, int], clearance: tuple[int, int]
) -> None:
    # ANSI B4.2 preferred hole-basis fits, as read in a copy of table 12 of a machinist's handbook
    assert limits_um(ISO286, 3, shaft) == shaft_limits
    assert fit_clearance_um(ISO286, 3, hole, shaft) == clearance


@pytest.mark.parametrize(("nominal", "upper"), [(30, 21), (30.001, 25)])
def test_a_size_on_the_limit_belongs_to_the_range_below(nominal: float, upper: int) -> None:
    # as read in a table of fits in a public source file
    assert limits_um(ISO286, nominal, "H7") == (0, upper)


@pytest.mark.parametrize(("zone", "limits"), [("k6", (2, 15)), ("p6", (22, 35))])
def test_shafts_of_twenty_millimetres(zone: str, limits: tuple[int, int]) -> None:
    # computed by us from the tables of tolerances and deviations
    assert limits_um(ISO286, 20, zone) == limits


@pytest.mark.parametrize(
    ("thread", "fine", "medium", "coarse"),
    [
        ("M2", 2.2, 2.4, 2.6),
        ("M3", 3.2, 3.4, 3.6),
        ("M5", 5.3, 5.5, 5.8),
        ("M8", 8.4, 9.0, 10.0),
        ("M12", 13.0, 13.5, 14.5),
    ],
)
def test_clearance_holes(thread: str, fine: float, medium: float, coarse: float) -> None:
    # ISO 273, as read in engineeringhardware.com and a second web copy that agrees
    told = [clearance_hole_mm(ISO273, thread, series) for series in ("fine", "medium", "coarse")]

    assert told == [fine, medium, coarse]
