"""Filament length and mass."""

import pytest

from buildlog.methods.filament import area_mm2, grams_per_metre, length_mm, volume_mm3


@pytest.mark.parametrize(("diameter_um", "area"), [(1750, 2.405281875), (2850, 6.379396582)])
def test_cross_section(diameter_um: int, area: float) -> None:
    # pi·d²/4, computed by us
    assert area_mm2(diameter_um) == pytest.approx(area, abs=5e-10)


def test_one_metre_of_1_75_mm_is_2_405_cubic_centimetres() -> None:
    # as read in fabbaloo.com, 2018-12-19
    assert volume_mm3(1000, 1750) / 1000 == pytest.approx(2.405, abs=0.0005)


def test_one_kilogram_of_pla_is_335_metres() -> None:
    # as read in ecoreprap.com (density 1.24), digits computed by us
    metres = length_mm(1_000_000, 1750, 1.24) / 1000

    assert metres == pytest.approx(335, abs=0.5)
    assert metres == pytest.approx(335.2836, abs=5e-5)


def test_one_kilogram_of_abs_is_about_400_metres() -> None:
    # as read in ecoreprap.com (density 1.04, «about 400 m»), digits computed by us
    assert length_mm(1_000_000, 1750, 1.04) / 1000 == pytest.approx(399.761, abs=5e-4)


@pytest.mark.parametrize(
    ("density", "grams"),
    [
        (1.24, 2.98255),
        (1.04, 2.50149),
        (1.27, 3.05471),
        (1.21, 2.91039),
        (1.07, 2.57365),
        (1.14, 2.74202),
    ],
)
def test_grams_in_a_metre_of_1_75_mm(density: float, grams: float) -> None:
    # computed by us
    assert grams_per_metre(1750, density) == pytest.approx(grams, abs=5e-6)
