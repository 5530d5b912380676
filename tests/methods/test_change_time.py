import pytest

from buildlog.methods.change_time import change_hours, purge_mg


def test_750_layers_with_one_change_of_ten_seconds_take_2_08_hours() -> None:
    assert change_hours(750, 1, 10) == pytest.approx(2.08, abs=0.005)


@pytest.mark.parametrize(("mm3", "grams"), [(80, 66), (300, 247.5)])
def test_750_changes_purge_what_their_volume_weighs(mm3: float, grams: float) -> None:
    assert purge_mg(750, mm3, 1.1) == pytest.approx(1000 * grams)


def test_figures_below_zero_are_refused_by_name() -> None:
    with pytest.raises(ValueError, match="seconds_per_change cannot be -1"):
        change_hours(750, 1, -1)
    with pytest.raises(ValueError, match="purge_mm3_per_change cannot be -5"):
        purge_mg(1, -5, 1)
