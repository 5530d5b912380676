"""What was left at the end of each week, replayed from dated facts, and what will be left at the pace."""

from dataclasses import dataclass

from buildlog.terms import Moment

Curve = tuple[tuple[Moment, float], ...]


@dataclass(frozen=True, slots=True)
class BurnDown:
    """Print hours (``material_id`` None) or grams of a material on hand. ``actual`` ends at now, where ``forecast`` and
    its band ``low`` (fast pace, least left) and ``high`` (slow pace, most left) begin.
    """

    material_id: int | None
    unit: str
    actual: Curve
    forecast: Curve
    low: Curve
    high: Curve
    order_by: Moment | None
    usual_pace: bool
