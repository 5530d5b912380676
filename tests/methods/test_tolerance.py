import json
import re
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods.tolerance import (
    clearance_hole_mm,
    fit_clearance_um,
    general_deviation_mm,
    limits_um,
)


def table(name: str) -> dict[str, object]:
    return json.loads(files("buildlog.shared").joinpath(name).read_text("utf-8"))


ISO2768, ISO286, ISO273 = table("iso2768-1.json"), table("iso286.json"), table("iso273.json")


@given(size=st.floats(0.5, 4000))
def test_a_longer_piece_never_gets_less_tolerance(size: float) -> None:
    assert general_deviation_mm(ISO2768, min(4000, size * 1.5), "m") >= general_deviation_mm(ISO2768, size, "m")


@pytest.mark.parametrize("size", [0.49, 4000.01, -1, float("nan")])
def test_outside_the_table_the_tolerance_belongs_at_the_dimension(size: float) -> None:
    with pytest.raises(ValueError, match=r"covers 0\.5 to 4000 mm, not .* write the tolerance at the dimension"):
        general_deviation_mm(ISO2768, size, "m")


def test_a_class_without_a_figure_in_the_range_is_refused() -> None:
    with pytest.raises(ValueError, match="no deviation for 2 mm in class v"):
        general_deviation_mm(ISO2768, 2, "v")


def test_an_unknown_class_is_refused_with_those_that_are() -> None:
    with pytest.raises(ValueError, match="no class 'x': use one of f, m, c, v"):
        general_deviation_mm(ISO2768, 2, "x")


@given(
    size=st.floats(0.1, 500),
    hole=st.sampled_from(["H6", "H7", "H11"]),
    shaft=st.sampled_from(["d9", "g6", "p6"]),
)
def test_clearance_varies_by_the_two_tolerances_together(size: float, hole: str, shaft: str) -> None:
    hole_limits, shaft_limits = limits_um(ISO286, size, hole), limits_um(ISO286, size, shaft)
    smallest, largest = fit_clearance_um(ISO286, size, hole, shaft)

    assert largest - smallest == hole_limits[1] - hole_limits[0] + shaft_limits[1] - shaft_limits[0]
    assert smallest < largest


@pytest.mark.parametrize("zone", ["", "7", "H", "H99", "Q7", "k8", "H7x", "h 7", "κ7"])
def test_a_zone_that_the_table_lacks_is_refused_by_name(zone: str) -> None:
    with pytest.raises(ValueError, match=re.escape(repr(zone))):
        limits_um(ISO286, 25, zone)


@pytest.mark.parametrize("size", [0, -3, 500.1, float("nan")])
def test_a_size_that_the_table_lacks_is_refused(size: float) -> None:
    with pytest.raises(ValueError, match="covers sizes over 0 to 500 mm"):
        limits_um(ISO286, size, "H7")


def test_an_unknown_thread_or_series_is_refused_with_those_that_are() -> None:
    with pytest.raises(ValueError, match=r"no 'M9': it has M2, M2\.5, M3"):
        clearance_hole_mm(ISO273, "M9")
    with pytest.raises(ValueError, match="no series 'loose': use one of fine, medium, coarse"):
        clearance_hole_mm(ISO273, "M3", "loose")
