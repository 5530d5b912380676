import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.methods import reorder_point as method

POSITIVE = st.floats(0.1, 1e5)


@given(POSITIVE, POSITIVE, POSITIVE)
def test_at_the_best_quantity_ordering_costs_as_much_as_keeping(demand: float, cost: float, keeping: float) -> None:
    best = method.order_quantity(demand, cost, keeping)

    assert best.ordering_cost == pytest.approx(best.keeping_cost)
    assert best.units * best.orders_per_year == pytest.approx(demand)


def test_steady_demand_and_lead_time_need_no_safety_stock() -> None:
    assert method.safety_stock(method.z_of(0.99), method.lead_time_demand_sd(15, 4)) == 0


@pytest.mark.parametrize("level", [0.49, 1, 1.5])
def test_a_service_level_that_cannot_be_is_refused(level: float) -> None:
    with pytest.raises(ValueError, match=r"service level is at least 0\.5 and below 1"):
        method.z_of(level)


def test_figures_below_zero_are_refused() -> None:
    with pytest.raises(ValueError, match="cannot be below 0"):
        method.lead_time_demand_sd(-1, 4)
    with pytest.raises(ValueError, match="above 0"):
        method.order_quantity(100, 0, 1)
