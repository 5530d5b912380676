"""What should have happened since the last entry, with what each answer would record."""

from collections.abc import Sequence
from typing import Any

from buildlog.report.table import Column, Table
from buildlog.status.due import Answer, Due

COLUMNS = (
    Column("number", "No", right=True),
    Column("kind", "Of"),
    Column("where", "Where"),
    Column("what", "What"),
    Column("told", "When"),
)


def what_should_have_happened(dues: Sequence[Due]) -> Table:
    """Numbered from 1, in the order to answer them."""
    rows = tuple((i, due.kind.value, due.where, due.what, due.told) for i, due in enumerate(dues, 1))
    return Table("catch_up", "Should have happened", COLUMNS, rows, "Nothing: the ledger is up to date.")


def as_plain(dues: Sequence[Due]) -> list[dict[str, Any]]:
    """The same rows with key, moment and the words of every answer."""
    return [
        {"number": i, "key": due.key, "kind": due.kind.value, "where": due.where, "what": due.what, "told": due.told}
        | {"due_at": due.due_at}
        | {answer.value.replace(" ", "_"): due.reply(answer).words for answer in Answer}
        for i, due in enumerate(dues, 1)
    ]
