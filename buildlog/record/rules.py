"""Rules over several rows that hold at all times: what `check` tests and an undo must not break."""

from typing import Any

from buildlog.record.rules_prints import PRINT_RULES
from buildlog.record.rules_stock import STOCK_RULES

RULES: tuple[tuple[str, str], ...] = (
    (
        "a build has one root assembly",
        """SELECT b.code FROM build b JOIN assembly a ON a.build_id = b.id
           WHERE a.parent_id IS NULL AND a.retired_at IS NULL GROUP BY b.id HAVING count(*) > 1""",
    ),
    (
        "a slot holds one thing at a time",
        """SELECT a.id || ' and ' || b.id FROM fitting a JOIN fitting b ON a.id < b.id
           AND a.position_id = b.position_id AND a.usage_id = b.usage_id AND a.number = b.number
           AND a.from_at < coalesce(b.until_at, '9') AND b.from_at < coalesce(a.until_at, '9')""",
    ),
    (
        "a piece stands in one slot at a time",
        """SELECT a.lot_id FROM fitting a JOIN fitting b ON a.id < b.id AND a.lot_id = b.lot_id
           AND a.from_at < coalesce(b.until_at, '9') AND b.from_at < coalesce(a.until_at, '9')""",
    ),
    (
        "what stands in a slot is a lot of one",
        """SELECT coalesce(l.mark, l.id) FROM fitting f JOIN lot l ON l.id = f.lot_id WHERE l.quantity <> 1""",
    ),
    (
        "a print makes no more pieces than it lays down",
        """SELECT l.id FROM job_line l JOIN lot ON lot.job_line_id = l.id AND lot.parent_id IS NULL
           GROUP BY l.id HAVING sum(lot.quantity) + l.scrapped > l.quantity""",
    ),
    (
        "a lot gives no more pieces than it holds",
        """SELECT coalesce(l.mark, l.id) FROM lot l JOIN lot_entry e ON e.lot_id = l.id
           WHERE e.kind IN ('scrapped', 'split off')
             AND NOT EXISTS (SELECT 1 FROM lot_entry c WHERE c.lot_id = l.id AND c.kind = 'counted')
           GROUP BY l.id HAVING sum(e.pieces) > l.quantity""",
    ),
    (
        "a position hangs under a position of the parent assembly",
        """SELECT p.id FROM position p JOIN assembly a ON a.id = p.assembly_id
           LEFT JOIN position q ON q.id = p.parent_id
           WHERE p.retired_at IS NULL AND a.parent_id IS NOT q.assembly_id""",
    ),
    *PRINT_RULES,
    *STOCK_RULES,
)


def broken_rules(connection: Any) -> list[str]:
    """One sentence for each breach; ``connection`` is a DB-API or a SQLAlchemy connection."""
    execute = getattr(connection, "exec_driver_sql", None) or connection.execute
    return [f"the rule «{rule}» would be broken ({row[0]})." for rule, query in RULES for row in execute(query)]
