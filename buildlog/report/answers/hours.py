"""How many print hours are left, on which printers, and what usually comes on top."""

from typing import Any

from buildlog.report.table import Column, Table
from buildlog.status.status import Status
from buildlog.wording import count
from buildlog.wording import hours as in_hours


def print_hours(status: Status) -> Table:
    """Per set of printers that can; the sum with its spread and what usually comes on top as remarks."""
    found = status.hours
    rows = tuple(
        (
            ", ".join(status.snapshot.printer[p].code for p in each.printer_ids) or "no printer can",
            each.running_minutes,
            each.queued_minutes,
            each.to_print_minutes,
            each.minutes,
        )
        for each in found.sets
    )
    columns = (
        Column("printers", "Printers"),
        *(
            Column(f"{key}_minutes", title, in_hours, right=True)
            for key, title in (("running", "Running"), ("queued", "Queued"), ("to_print", "To print"), ("all", "All"))
        ),
    )
    usual = " (usual)" if found.on_top.usual else f" (from {found.on_top.prints} prints)"
    remarks = [
        f"Left: {in_hours(found.total_minutes)}, likely between {in_hours(found.low_minutes)} "
        f"and {in_hours(found.high_minutes)}.",
        f"What usually comes on top: ×{found.on_top.factor:.2f}{usual}, "
        f"so {in_hours(found.total_minutes * found.on_top.factor)} with reprints and trials.",
    ]
    if found.failing.ended:
        low, high = (f"{100 * share:.0f} %" for share in (found.failing.low, found.failing.high))
        failed = f"{found.failing.failed} of {count(found.failing.ended, 'print')} failed"
        remarks.append(f"{failed}: nine times in ten that means between {low} and {high} of all.")
    if codes := _without_figures(status):
        remarks.append(f"Nobody has said yet how long these take: {', '.join(codes)}.")
    return Table("hours", "Print hours left", columns, rows, "Nothing is left to print.", tuple(remarks))


def as_plain(status: Status) -> dict[str, Any]:
    """What the remarks say, for JSON: the sum and its spread, what comes on top, and parts without hours."""
    found = status.hours
    return {
        "hours_left": {
            "total_minutes": found.total_minutes,
            "low_minutes": found.low_minutes,
            "high_minutes": found.high_minutes,
            "on_top_factor": found.on_top.factor,
            "on_top_usual": found.on_top.usual,
            "on_top_prints": found.on_top.prints,
            "with_on_top_minutes": round(found.total_minutes * found.on_top.factor),
            "failed": found.failing.failed,
            "ended": found.failing.ended,
            "failing_low_share": found.failing.low,
            "failing_high_share": found.failing.high,
            "without_figures": _without_figures(status),
        }
    }


def _without_figures(status: Status) -> list[str]:
    return sorted({status.snapshot.part[part_id].code for part_id, _ in status.hours.no_figures})
