"""Permissible deviations by ISO 2768-1, limits by ISO 286 and clearance holes by ISO 273.

The tables come in as parsed JSON (`shared/iso2768-1.json`, `shared/iso286.json`, `shared/iso273.json`), which
name their sources: secondary copies that agree, the standards themselves were not read. A size belongs to the
range «over the lower, up to and including the upper limit».
"""

from collections.abc import Mapping, Sequence
from typing import Any

Table = Mapping[str, Any]


def general_deviation_mm(table: Table, nominal_mm: float, tolerance_class: str) -> float:
    """ISO 2768-1: the permissible deviation ± of a length without a tolerance of its own; class f, m, c or v.

    The first range includes its lower limit of 0.5 mm; below that the standard asks for a tolerance at the
    dimension.
    """
    ranges: Sequence[Sequence[float]] = table["ranges_mm"]
    smallest, largest = ranges[0][0], ranges[-1][1]
    deviations = table["deviations_mm"].get(tolerance_class)
    if deviations is None:
        known = ", ".join(table["deviations_mm"])
        raise ValueError(f"ISO 2768-1 has no class {tolerance_class!r}: use one of {known}")
    if not smallest <= nominal_mm <= largest:
        raise ValueError(
            f"ISO 2768-1 covers {smallest} to {largest} mm, not {nominal_mm} mm: write the tolerance at the dimension"
        )
    deviation = deviations[_range_index([upper for _, upper in ranges], nominal_mm)]
    if deviation is None:
        raise ValueError(f"ISO 2768-1 gives no deviation for {nominal_mm} mm in class {tolerance_class}")
    return float(deviation)


def limits_um(table: Table, nominal_mm: float, zone: str) -> tuple[int, int]:
    """ISO 286: lower and upper deviation in micrometres of a tolerance zone such as H7 (hole) or g6
    (shaft)."""
    letter, grade = zone.rstrip("0123456789"), zone[len(zone.rstrip("0123456789")) :]
    sizes: Sequence[float] = table["range_limits_mm"]
    if not sizes[0] < nominal_mm <= sizes[-1]:
        raise ValueError(f"the table of ISO 286 covers sizes over {sizes[0]} to {sizes[-1]} mm, not {nominal_mm} mm")
    index = _range_index(sizes[1:], nominal_mm)
    width = _standard_tolerance_um(table, grade, index, zone)
    if letter == "H":
        return 0, width
    first_grade, last_grade = table["shaft_grades"].get(letter, (0, 99))
    if letter in table["shaft_es"]:
        upper = int(table["shaft_es"][letter][index])
        return upper - width, upper
    if letter in table["shaft_ei"] and first_grade <= int(grade) <= last_grade:
        lower = int(table["shaft_ei"][letter][index])
        return lower, lower + width
    known = ", ".join(["H", *table["shaft_es"], *table["shaft_ei"]])
    only = "".join(f", {name} only in grades {a} to {b}" for name, (a, b) in table["shaft_grades"].items())
    raise ValueError(f"the table of ISO 286 has no zone {zone!r}: it has {known}{only}")


def fit_clearance_um(table: Table, nominal_mm: float, hole: str, shaft: str) -> tuple[int, int]:
    """Smallest and largest clearance of hole and shaft in micrometres; below 0 they press."""
    hole_lower, hole_upper = limits_um(table, nominal_mm, hole)
    shaft_lower, shaft_upper = limits_um(table, nominal_mm, shaft)
    return hole_lower - shaft_upper, hole_upper - shaft_lower


def clearance_hole_mm(table: Table, thread: str, series: str = "medium") -> float:
    """ISO 273: diameter of the hole that a screw passes, series fine, medium or coarse."""
    holes = table["holes_mm"].get(thread)
    if holes is None:
        raise ValueError(f"the table of ISO 273 has no {thread!r}: it has {', '.join(table['holes_mm'])}")
    if series not in holes:
        raise ValueError(f"ISO 273 has no series {series!r}: use one of {', '.join(holes)}")
    return float(holes[series])


def _standard_tolerance_um(table: Table, grade: str, index: int, zone: str) -> int:
    widths = table["IT"].get(grade)
    if widths is None:
        raise ValueError(f"the table of ISO 286 has no grade in {zone!r}: use IT {', '.join(table['IT'])}")
    return int(widths[index])


def _range_index(upper_limits: Sequence[float], nominal_mm: float) -> int:
    return next(index for index, upper in enumerate(upper_limits) if nominal_mm <= upper)
