"""Every table of the record. Importing this loads SQLModel: only writing needs it."""

from buildlog.record.tables import bench, builds, journal, pieces, printing, stock, story, tree
from buildlog.record.tables.columns import Row, constrain, metadata

constrain(metadata)

JOURNAL_TABLES = frozenset({"journal_group", "journal_entry"})

TABLES: dict[str, type[Row]] = {
    str(table.__tablename__): table
    for module in (builds, tree, pieces, printing, stock, bench, story, journal)
    for table in vars(module).values()
    if isinstance(table, type) and issubclass(table, Row) and "__tablename__" in vars(table)
}

__all__ = ["JOURNAL_TABLES", "TABLES", "Row", "metadata"]
