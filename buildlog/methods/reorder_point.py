"""When to order what is drawn at random, and how much at a time.

    safety stock   SS = z · sqrt(L·s_d² + d²·s_L²)
    reorder point  d·L + SS
    order quantity Q = sqrt(2·D·K/h)

d and s_d: mean and standard deviation of the demand in one period; L and s_L: those of the lead time in
periods; z: normal quantile of the service level; D: demand in a year, K: cost of one order, h: cost of
keeping one unit for a year. With s_L = 0 only the demand varies, with s_d = 0 only the lead time. Source:
textbook formulae of inventory control, as read in several web copies; textbooks round z (1.65 for 95 %), so z
is an argument and `z_of` gives the exact one.
"""

import math
from dataclasses import dataclass
from statistics import NormalDist

_STANDARD_NORMAL = NormalDist()


@dataclass(frozen=True, slots=True)
class OrderQuantity:
    """Units per order, orders a year, and what ordering and keeping cost in a year."""

    units: float
    orders_per_year: float
    ordering_cost: float
    keeping_cost: float


def z_of(service_level: float) -> float:
    """Normal quantile of the share of order cycles that shall not run out, 0.5 or more and below 1."""
    if not 0.5 <= service_level < 1:
        raise ValueError(f"a service level is at least 0.5 and below 1, not {service_level}")
    return _STANDARD_NORMAL.inv_cdf(service_level)


def lead_time_demand_sd(demand: float, lead_time: float, demand_sd: float = 0, lead_time_sd: float = 0) -> float:
    """Standard deviation of what is drawn between order and delivery."""
    if min(demand, lead_time, demand_sd, lead_time_sd) < 0:
        raise ValueError("demand, lead time and their standard deviations cannot be below 0")
    return math.sqrt(lead_time * demand_sd**2 + demand**2 * lead_time_sd**2)


def safety_stock(z: float, lead_time_demand_sd: float) -> float:
    return z * lead_time_demand_sd


def reorder_point(demand: float, lead_time: float, safety_stock: float) -> float:
    """The stock at which to order."""
    return demand * lead_time + safety_stock


def order_quantity(demand_per_year: float, cost_per_order: float, keeping_cost_per_unit: float) -> OrderQuantity:
    """The order quantity at which ordering and keeping together cost least (economic order quantity)."""
    if not min(demand_per_year, cost_per_order, keeping_cost_per_unit) > 0:
        raise ValueError("an order quantity needs a demand and costs above 0")
    units = math.sqrt(2 * demand_per_year * cost_per_order / keeping_cost_per_unit)
    orders = demand_per_year / units
    return OrderQuantity(units, orders, orders * cost_per_order, units / 2 * keeping_cost_per_unit)
