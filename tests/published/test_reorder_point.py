"""Safety stock, reorder point and order quantity against worked examples.

Textbooks round z (1.65 for 95 %, 1.88 for 97 %), so an exact z differs a little.
"""

import pytest

from buildlog.methods.reorder_point import (
    lead_time_demand_sd,
    order_quantity,
    reorder_point,
    safety_stock,
    z_of,
)


def test_bicycle_shop_with_the_rounded_z_of_its_source() -> None:
    # as read in wizedu.com/questions/8099: 70 a day, 4 days, sd of lead-time demand 15, 95 % → 25, 305
    stock = safety_stock(1.65, 15)

    assert stock == pytest.approx(24.75)
    assert reorder_point(70, 4, round(stock)) == 305


def test_bicycle_shop_with_the_exact_z() -> None:
    # inputs as above, outputs computed by us with the exact quantile
    stock = safety_stock(z_of(0.95), 15)

    assert stock == pytest.approx(24.6728, abs=5e-5)
    assert reorder_point(70, 4, stock) == pytest.approx(304.6728, abs=5e-5)


def test_carpet_with_the_rounded_and_the_exact_z() -> None:
    # I2, from memory of a management-science textbook: 30 a day, 10 days, sd 5 a day, 95 % → 26.1, 326.1;
    # digits computed by us
    deviation = lead_time_demand_sd(30, 10, demand_sd=5)

    assert safety_stock(1.65, deviation) == pytest.approx(26.0888, abs=5e-5)
    assert reorder_point(30, 10, safety_stock(1.65, deviation)) == pytest.approx(326.1, abs=0.05)
    assert reorder_point(30, 10, safety_stock(z_of(0.95), deviation)) == pytest.approx(326.0074, abs=5e-5)


@pytest.mark.parametrize(("z", "stock"), [(1.28, 30.65), (1.65, 39.5), (2.05, 49.09), (2.33, 55.80)])
def test_water_bottles_at_four_rounded_z(z: float, stock: float) -> None:
    # I5, inputs and 39.5 as read in a web example: 18 a day, 14 days, sd 6.4 a day; the others computed by us
    # (its own row for 98 % is rounded up inconsistently and is not used)
    told = safety_stock(z, lead_time_demand_sd(18, 14, demand_sd=6.4))

    assert told == pytest.approx(stock, abs=0.015)
    assert reorder_point(18, 14, told) == pytest.approx(252 + stock, abs=0.015)


def test_only_the_lead_time_varies() -> None:
    # inputs as read in brainmass.com 468949 (5 a day, 3 days, sd 2 days, 95 %), outputs computed by us
    deviation = lead_time_demand_sd(5, 3, lead_time_sd=2)
    stock = safety_stock(z_of(0.95), deviation)

    assert deviation == 10
    assert stock == pytest.approx(16.4485, abs=5e-5)
    assert reorder_point(5, 3, stock) == pytest.approx(31.4485, abs=5e-5)


@pytest.mark.parametrize(
    ("demand_sd", "lead_time_sd", "stock", "point"),
    [(3.2, 0, 12.0371, 72.0371), (0, 1.4, 39.4967, 99.4967), (3.2, 1.4, 41.2902, 101.2902)],
)
def test_demand_or_lead_time_or_both_vary(demand_sd: float, lead_time_sd: float, stock: float, point: float) -> None:
    # inputs as read in brainmass.com 515804 (15 a day, 4 days, 97 %), outputs computed by us
    told = safety_stock(z_of(0.97), lead_time_demand_sd(15, 4, demand_sd, lead_time_sd))

    assert told == pytest.approx(stock, abs=5e-5)
    assert reorder_point(15, 4, told) == pytest.approx(point, abs=5e-5)


def test_deviation_of_lead_time_demand_when_both_vary() -> None:
    # inputs as read in brainmass.com 515804, output computed by us
    assert lead_time_demand_sd(15, 4, 3.2, 1.4) == pytest.approx(21.953587, abs=5e-7)


def test_order_quantity_of_ten_thousand_a_year() -> None:
    # quantity as read in calcfxc.com, EconomicOrderQuantity: D 10,000, K 2, 2 % of a price of 8 → 500;
    # orders and costs computed by us
    told = order_quantity(10_000, 2, 0.02 * 8)

    assert told.units == pytest.approx(500)
    assert told.orders_per_year == pytest.approx(20)
    assert (told.keeping_cost, told.ordering_cost) == pytest.approx((40, 40))


def test_order_quantity_of_an_encyclopedia_article() -> None:
    # E2, from memory: D 10,000, K 40, h 5 → 400, 25 orders a year, 1000 to keep and 1000 to order
    told = order_quantity(10_000, 40, 5)

    assert (told.units, told.orders_per_year) == pytest.approx((400, 25))
    assert (told.keeping_cost, told.ordering_cost) == pytest.approx((1000, 1000))


def test_order_quantity_of_carpet() -> None:
    # inputs as read in homeworksource.com 1008133, output from memory of a management-science textbook
    told = order_quantity(10_000, 150, 0.75)

    assert told.units == pytest.approx(2000)
    assert told.orders_per_year == pytest.approx(5)
    assert told.keeping_cost + told.ordering_cost == pytest.approx(1500)


def test_order_quantity_of_mulch() -> None:
    # as read in qammunity.org/7911020: D 40,000, K 200, h 2 → 2828.43
    assert order_quantity(40_000, 200, 2).units == pytest.approx(2828.43, abs=0.005)


def test_order_quantity_of_a_thousand_a_year() -> None:
    # inputs as read in brainmass.com 162925 (D 1000, K 10, h 2), output computed by us
    assert order_quantity(1000, 10, 2).units == pytest.approx(100)
