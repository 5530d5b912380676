"""What heads lay down: the two materials of a form as rows by head, for revisions and print files."""

from typing import Any

from buildlog.record.actions.storing.rows import live_row
from buildlog.record.tables.printing import FileTool
from buildlog.record.tables.tree import Demand
from buildlog.record.writer import Work

HEAD_FIELDS = ("material", "grams", "support", "purge", "material_2", "grams_2", "purge_2")


def heads_changed(before: Any, after: Any) -> bool:
    return any(getattr(before, name) != getattr(after, name) for name in HEAD_FIELDS)


def set_heads(
    form: Any, standing: list[Any], table: type[Demand] | type[FileTool], owner: dict[str, Any], work: Work
) -> None:
    """Make the rows of ``owner`` say what the form says: change, add or delete them head by head."""
    rows = {row.head: row for row in standing}
    wanted = dict(_heads(form, work))
    for head, row in rows.items():
        if head not in wanted:
            work.delete(row)
    for head, values in wanted.items():
        if head in rows:
            work.change(rows[head], **values)
        else:
            work.add(table(head=head, **owner, **values))


def _heads(form: Any, work: Work) -> list[tuple[int, dict[str, Any]]]:
    asked = (
        (1, form.material, form.grams, form.support, form.purge),
        (2, form.material_2, form.grams_2, 0, form.purge_2),
    )
    return [
        (
            head,
            {
                "material_id": live_row(work, "material", ask.material).id if ask.material else None,
                "polymer": ask.polymer,
                "part_mg": part_mg,
                "support_mg": support_mg,
                "purge_mg": purge_mg,
            },
        )
        for head, ask, part_mg, support_mg, purge_mg in asked
        if ask is not None
    ]
