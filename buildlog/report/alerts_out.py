"""Alerts as text, as plain values and as an iCalendar file (RFC 5545)."""

from datetime import datetime, timedelta
from typing import Any

from buildlog.status.alerts import Alert, AlertLevel
from buildlog.terms import Moment, when
from buildlog.wording import day, home, is_before, money

LINE_OCTETS = 75
"""RFC 5545, section 3.1: longer content lines are folded."""


def alerts_text(found: tuple[Alert, ...], now: Moment, zone: str, currency: str) -> str:
    """One alert a line, a basket with its lines beneath; a day that is over is told by the alert itself."""
    if not found:
        return "Nothing needs to be ordered or looked at."
    lines = []
    for alert in found:
        due = f" (by {day(alert.due_at, zone)})" if alert.due_at and not is_before(alert.due_at, now, zone) else ""
        lines.append(f"{alert.level.value}: {alert.text}{due}")
        if alert.basket:
            lines.extend(
                f"    {line.told}  {money(line.price_minor, currency)}  {line.reason}" for line in alert.basket.lines
            )
            lines.append(f"    together {money(alert.basket.total_minor, currency)} with delivery")
    return "\n".join(lines)


def alerts_plain(found: tuple[Alert, ...]) -> list[dict[str, Any]]:
    return [
        {
            "level": alert.level.value,
            "text": alert.text,
            "due_at": alert.due_at,
            "supplier": alert.basket.supplier if alert.basket else None,
            "total_minor": alert.basket.total_minor if alert.basket else None,
            "lines": [
                {
                    "code": line.code,
                    "quantity": line.quantity,
                    "unit": line.unit.value,
                    "price_minor": line.price_minor,
                    "order_by": line.order_by,
                    "reason": line.reason,
                }
                for line in (alert.basket.lines if alert.basket else ())
            ],
        }
        for alert in found
    ]


def alerts_calendar(found: tuple[Alert, ...], now: Moment, zone: str) -> str:
    """All-day events on the days, at home, at which something is due; undated alerts fall on today."""
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//buildlog//alerts//EN", "CALSCALE:GREGORIAN"]
    for index, alert in enumerate(found):
        due = alert.due_at or now
        first = home(due, zone).date()
        lines += [
            "BEGIN:VEVENT",
            f"UID:{_stamp(when(due))}-{index}-{alert.level.name.lower()}@buildlog",
            f"DTSTAMP:{_stamp(when(now))}",
            f"DTSTART;VALUE=DATE:{first:%Y%m%d}",
            f"DTEND;VALUE=DATE:{first + timedelta(days=1):%Y%m%d}",
            f"SUMMARY:{_escaped(alert.text)}",
            f"CATEGORIES:{_escaped(alert.level.value.upper())}",
            "TRANSP:TRANSPARENT",
            "END:VEVENT",
        ]
    return "".join(_folded(line) + "\r\n" for line in [*lines, "END:VCALENDAR"])


def worst(found: tuple[Alert, ...]) -> AlertLevel | None:
    """Order now before later; what only wants a look decides nothing."""
    levels = {alert.level for alert in found}
    return next((level for level in (AlertLevel.ORDER_NOW, AlertLevel.LATER) if level in levels), None)


def _stamp(moment: datetime) -> str:
    return f"{moment:%Y%m%dT%H%M%SZ}"


def _escaped(text: str) -> str:
    """RFC 5545, section 3.3.11."""
    for sign, code in (("\\", "\\\\"), (";", "\\;"), (",", "\\,"), ("\n", "\\n")):
        text = text.replace(sign, code)
    return "".join(c for c in text if c >= " ")


def _folded(line: str) -> str:
    """Fold by octets without cutting a character."""
    pieces: list[str] = []
    piece = ""
    for character in line:
        room = LINE_OCTETS - (1 if pieces else 0)
        if len((piece + character).encode()) > room:
            pieces.append(piece)
            piece = ""
        piece += character
    return "\r\n ".join([*pieces, piece])
