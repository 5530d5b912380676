"""One page for a helper: what can be done now, to be ticked by hand."""

from buildlog.report.table import Column, Table, escape, to_markdown
from buildlog.status.cautions import in_words
from buildlog.status.more_hands import HelperStep, helper_steps
from buildlog.status.status import Status
from buildlog.wording import day_and_clock, so_many, span

NOTHING = "No step that a helper can do, or that needs two, can be done now."
AFTERWARDS = "Afterwards: `buildlog helper-done` with the words of the last column, or t on the screen Boxes."


def helper_table(status: Status) -> Table:
    """What, where, how long, by how many, and how it is ticked."""
    rows = tuple(
        (
            "☐",
            found.doable.text,
            found.where,
            found.doable.minutes,
            "two of you" if found.doable.needs_two else "one",
            _items(status, found),
            found.name,
        )
        for found in helper_steps(status)
    )
    columns = (
        Column("done", ""),
        Column("text", "What"),
        Column("where", "Where"),
        Column("minutes", "Takes", span, right=True),
        Column("hands", "Hands"),
        Column("uses", "Takes from stock"),
        Column("name", "Tick as"),
    )
    return Table("helper", "For a helper", columns, rows, NOTHING)


def helper_page(status: Status) -> str:
    """Markdown; the cautions of the work stand below the list, each once; ends with a line break."""
    zone = status.snapshot.settings.home_zone
    found = helper_steps(status)
    cautions = in_words(status.snapshot.reference, (one.doable.caution_key for one in found))
    parts = [f"# For a helper, {day_and_clock(status.now, zone)}", to_markdown(helper_table(status), title=False)]
    if cautions:
        parts += ["## Before you begin", "\n".join(f"- {escape(text)}" for text in cautions)]
    if found:
        parts.append(AFTERWARDS)
    return "\n\n".join(parts) + "\n"


def _items(status: Status, found: HelperStep) -> str:
    items = {item.id: item for item in status.snapshot.bought_items}
    uses = [use for use in status.snapshot.step_uses if use.step_id == found.step.id]
    used = ((items[use.bought_item_id], use.quantity) for use in uses)
    return ", ".join(f"{item.code} {so_many(quantity, item.unit)}" for item, quantity in used)
