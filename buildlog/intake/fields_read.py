"""Reads the cells of a row as the fields of its list: values for the record, and texts to compare them by."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from buildlog.intake.headings import Headings, UnknownHeading
from buildlog.intake.rows import Cell, Columns, Row
from buildlog.intake.units import own_text
from buildlog.proposals.field import Field, Kind
from buildlog.proposals.file_problems import Problems
from buildlog.proposals.moments import MomentReader
from buildlog.proposals.nouns import values_from_texts

_DAY_SAID = re.compile(r"\d{4}-\d{2}-\d{2}")


@dataclass(frozen=True, slots=True)
class FieldsRead:
    """``values`` without what was left empty; ``texts`` of all that has a column; ``columns`` the heading of each."""

    values: dict[str, Any]
    texts: dict[str, str]
    columns: Columns
    whole: bool


def read_fields(
    row: Row,
    cells: Iterable[Cell],
    headings: Headings,
    read_moment: MomentReader,
    currency: str,
    problems: Problems,
) -> FieldsRead:
    """Everything that can be read of the cells; what cannot is told and makes it not ``whole``."""
    typed, cells_by_field, wrong = _typed(row, cells, headings, currency, problems)
    columns = Columns(row, cells_by_field)
    values, found = values_from_texts(headings.fields, typed, read_moment)
    for name, message in found:
        if name not in wrong:
            label = next(field.label for field in headings.fields if field.name == name)
            problems.add(*columns.place(name, label), message)
    texts = {
        field.name: _text(field, typed[field.name], values.get(field.name))
        for field in headings.fields
        if field.name in typed
    }
    return FieldsRead(values, texts, columns, not wrong and not found)


def _typed(
    row: Row, cells: Iterable[Cell], headings: Headings, currency: str, problems: Problems
) -> tuple[dict[str, str], dict[str, Cell], set[str]]:
    """Texts and cells by field, and the fields (or headings) that something is wrong with."""
    typed: dict[str, str] = {}
    columns: dict[str, Cell] = {}
    wrong: set[str] = set()
    for cell in cells:
        heading_line = row.heads_at or cell.line
        try:
            column = headings.find(cell.heading)
        except ValueError as error:
            aside = headings.all_told if isinstance(error, UnknownHeading) else ""
            problems.add_once(row.source, heading_line, cell.heading[:60], str(error), aside)
            wrong.add(cell.heading)
            continue
        name = column.field.name
        if name in columns:
            message = f"means the same field as «{columns[name].heading}»: leave one of them out"
            problems.add_once(row.source, heading_line, cell.heading, message)
            wrong.add(name)
            continue
        columns[name] = cell
        if cell.wrong:
            problems.add(row.source, cell.line, cell.heading, cell.wrong)
            wrong.add(name)
            continue
        try:
            typed[name] = own_text(column.field, cell.text, column.unit, currency, row.comma)
        except ValueError as error:
            problems.add(row.source, cell.line, cell.heading, str(error))
            wrong.add(name)
    return typed, columns, wrong


def _text(field: Field, typed: str, value: Any) -> str:
    """The value as a text that is the same however it was typed; a moment in words stays in those words."""
    if field.kind is Kind.MOMENT and not _DAY_SAID.match(typed.strip()):
        return " ".join(typed.lower().split())
    return field.show(value)
