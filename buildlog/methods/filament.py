"""Length, volume and mass of filament: a cylinder of diameter d has the cross-section pi·d²/4.

Diameters are integer micrometres, densities g/cm³ (the same number as mg/mm³), masses milligrams.
"""

import math


def area_mm2(diameter_um: int) -> float:
    """Cross-section."""
    if not diameter_um > 0:
        raise ValueError(f"a filament needs a diameter above 0, not {diameter_um} µm")
    return math.pi * (diameter_um / 1000) ** 2 / 4


def volume_mm3(length_mm: float, diameter_um: int) -> float:
    return length_mm * area_mm2(diameter_um)


def mass_mg(length_mm: float, diameter_um: int, density_g_cm3: float) -> float:
    return volume_mm3(length_mm, diameter_um) * _density(density_g_cm3)


def length_mm(mass_mg: float, diameter_um: int, density_g_cm3: float) -> float:
    return mass_mg / _density(density_g_cm3) / area_mm2(diameter_um)


def grams_per_metre(diameter_um: int, density_g_cm3: float) -> float:
    return mass_mg(1000, diameter_um, density_g_cm3) / 1000


def _density(density_g_cm3: float) -> float:
    if not 0 < density_g_cm3 < math.inf:
        raise ValueError(f"a material needs a density above 0, not {density_g_cm3} g/cm³")
    return density_g_cm3
