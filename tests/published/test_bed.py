"""A rectangle in a rectangle at any angle."""

import math

import pytest

from buildlog.status.printers_that_can import fits_bed

HAIR_UM = 2


@pytest.mark.parametrize(
    ("side_mm", "width_mm", "longest_mm"),
    [(220, 10, 301.1270), (220, 20, 291.1270), (220, 30, 281.1270), (256, 10, 352.0387)],
)
def test_the_longest_strip_on_a_square_bed(side_mm: int, width_mm: int, longest_mm: float) -> None:
    # condition of W. B. Carver, Amer. Math. Monthly 1957, as read in two web copies (attribution from memory);
    # longest strip p = s·√2 − q, figures computed by us
    assert longest_mm == pytest.approx(side_mm * math.sqrt(2) - width_mm, abs=5e-5)
    longest_um = round(longest_mm * 1000)
    for length_um, fits in ((longest_um - HAIR_UM, True), (longest_um + HAIR_UM, False)):
        assert fits_bed(length_um, width_mm * 1000, side_mm * 1000, side_mm * 1000) is fits
        assert fits_bed(width_mm * 1000, length_um, side_mm * 1000, side_mm * 1000) is fits


@pytest.mark.parametrize(
    ("width_um", "bed_y_um", "fits"),
    [
        (12_000, 210_000, True),
        (20_000, 210_000, False),
        (12_000, 202_472, True),
        (12_000, 202_471, False),
    ],
)
def test_a_strip_of_310_mm_on_a_bed_of_250(width_um: int, bed_y_um: int, fits: bool) -> None:
    # figures computed by us: 310 × 12 needs the other side to be at least 202.4716 mm
    assert fits_bed(310_000, width_um, 250_000, bed_y_um) is fits
