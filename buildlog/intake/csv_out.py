"""Things as a CSV list that reads back as the very same forms, and that no spreadsheet runs as a formula."""

import re
from collections.abc import Iterable
from typing import Any

from buildlog.intake.headings import heading_of
from buildlog.intake.neutral import neutral_cell
from buildlog.proposals.nouns import noun_fields

# Everything else is quoted, so that no delimiter of another country's spreadsheet opens a cell of its own.
_BARE = re.compile(r"[\w .:/()-]*")


def csv_list(noun: str, forms: Iterable[Any]) -> str:
    """A line that says which list it is, the headings of the noun's form, and a row for each form."""
    fields = noun_fields(noun)
    lines = [f"# list: {noun}", _line(heading_of(field) for field in fields)]
    lines += (_line(field.show(getattr(form, field.name)) for field in fields) for form in forms)
    return "\n".join(lines) + "\n"


def _line(texts: Iterable[str]) -> str:
    return ",".join(_cell(neutral_cell(text)) for text in texts)


def _cell(text: str) -> str:
    return text if _BARE.fullmatch(text) else '"' + text.replace('"', '""') + '"'
