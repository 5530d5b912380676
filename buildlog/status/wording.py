"""How texts of the status say weights and days."""

from zoneinfo import ZoneInfo

from buildlog.terms import Moment, when


def grams(mg: float) -> str:
    """412 g, from ten kilograms on 12.3 kg."""
    return f"{mg / 1e6:.1f} kg" if abs(mg) >= 10_000_000 else f"{mg / 1000:.0f} g"


def day(at: Moment, zone: ZoneInfo) -> str:
    """Tue 8 Dec, the day at home."""
    local = when(at).astimezone(zone)
    return f"{local:%a} {local.day} {local:%b}"
