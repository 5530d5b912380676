"""Rules over several rows that hold at all times: what `check` tests and an undo must not break."""

from typing import Any

from buildlog.record.lots_kept import impossible_lots
from buildlog.record.rules_pieces import PIECE_RULES
from buildlog.record.rules_prints import PRINT_RULES
from buildlog.record.rules_stock import STOCK_RULES
from buildlog.record.rules_story import STORY_RULES
from buildlog.record.rules_tree import TREE_RULES

RULES: tuple[tuple[str, str], ...] = (*TREE_RULES, *PIECE_RULES, *PRINT_RULES, *STOCK_RULES, *STORY_RULES)
"""What is said, and a query that gives a row for each breach, what it is about first."""
LOTS_RULE = "a lot never holds less than nothing"


def broken_rules(connection: Any) -> list[str]:
    """«The rule» and what breaks it, for each breach; ``connection`` is a DB-API or a SQLAlchemy connection."""
    execute = getattr(connection, "exec_driver_sql", None) or connection.execute
    found = [(rule, row[0]) for rule, query in RULES for row in execute(query)]
    found += [(LOTS_RULE, name) for name in impossible_lots(execute)]
    return [f"«{rule}» ({what})" for rule, what in found]
