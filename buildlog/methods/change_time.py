"""Time and material that the changes between two materials in one print cost. Arithmetic."""

import math

SECONDS_PER_HOUR = 3600


def change_hours(layers: int, changes_per_layer: float, seconds_per_change: float) -> float:
    """Hours lost in changes: `layers` that hold both materials, each with so many changes."""
    _refuse_below_zero(layers=layers, changes_per_layer=changes_per_layer, seconds_per_change=seconds_per_change)
    return layers * changes_per_layer * seconds_per_change / SECONDS_PER_HOUR


def purge_mg(changes: float, purge_mm3_per_change: float, density_g_cm3: float) -> float:
    """Milligrams purged: 1 mm³ at 1 g/cm³ weighs 1 mg."""
    _refuse_below_zero(changes=changes, purge_mm3_per_change=purge_mm3_per_change, density_g_cm3=density_g_cm3)
    return changes * purge_mm3_per_change * density_g_cm3


def _refuse_below_zero(**figures: float) -> None:
    for name, figure in figures.items():
        if not 0 <= figure < math.inf:
            raise ValueError(f"{name} cannot be {figure}")
