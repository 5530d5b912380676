import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods import filament


@given(st.floats(0.1, 1e6), st.integers(500, 4000), st.floats(0.5, 9))
def test_length_and_mass_turn_into_each_other(length: float, diameter_um: int, density: float) -> None:
    mass = filament.mass_mg(length, diameter_um, density)

    assert filament.length_mm(mass, diameter_um, density) == pytest.approx(length)


def test_twice_the_diameter_is_four_times_the_mass() -> None:
    assert filament.mass_mg(10, 3500, 1.1) == pytest.approx(4 * filament.mass_mg(10, 1750, 1.1))


def test_without_diameter_or_density_nothing_is_told() -> None:
    with pytest.raises(ValueError, match="diameter above 0"):
        filament.volume_mm3(10, 0)
    with pytest.raises(ValueError, match="density above 0"):
        filament.length_mm(10, 1750, 0)
