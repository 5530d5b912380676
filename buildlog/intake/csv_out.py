"""Lists as CSV that read back as they were told, and that no spreadsheet runs as formulas."""

import re
from collections.abc import Iterable, Mapping
from typing import Any

from buildlog.intake.headings import heading_of
from buildlog.intake.neutral import neutral_cell
from buildlog.proposals.field import Field
from buildlog.proposals.nouns import noun_fields
from buildlog.terms import Side

# Everything else is quoted, so that no delimiter of another country's spreadsheet opens a cell of its own.
_BARE = re.compile(r"[\w .:/()-]*")


def csv_list(noun: str, forms: Iterable[Any]) -> str:
    """The list of a noun, with a row for each form."""
    fields = noun_fields(noun)
    return csv_rows(noun, fields, ({field.name: getattr(form, field.name) for field in fields} for form in forms))


def csv_rows(kind: str, fields: Iterable[Field], rows: Iterable[Mapping[str, Any]]) -> str:
    """A line that says which list it is, its headings, and a row of values by field; what is left out is empty."""
    fields = tuple(fields)
    lines = [f"# list: {kind}", _line(heading_of(field) for field in fields)]
    lines += (_line(field.show(row.get(field.name)) for field in fields) for row in rows)
    return "\n".join(lines) + "\n"


def side_said(side: Side) -> Side | None:
    """Left or right; nothing of what serves both."""
    return None if side is Side.NONE else side


def _line(texts: Iterable[str]) -> str:
    return ",".join(_cell(neutral_cell(text)) for text in texts)


def _cell(text: str) -> str:
    return text if _BARE.fullmatch(text) else '"' + text.replace('"', '""') + '"'
