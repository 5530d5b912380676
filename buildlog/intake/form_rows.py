"""Rows about things: each as the form of its noun."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from buildlog.intake.fields_read import read_fields
from buildlog.intake.lists import headings_for
from buildlog.intake.rows import Columns, Row
from buildlog.proposals.field import Field
from buildlog.proposals.file_problems import Problems
from buildlog.proposals.moments import MomentReader
from buildlog.proposals.nouns import FORMS, key_of
from buildlog.proposals.problems import problems as wrong_with
from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class FormRow:
    """``values`` and ``texts`` are of the fields that the file has, empty ones None and ""."""

    row: Row
    noun: str
    key: str
    form: Any
    at: Moment | None
    values: dict[str, Any]
    texts: dict[str, str]
    columns: Columns


@dataclass(frozen=True, slots=True)
class Unreadable:
    """What can be read of a row with something wrong in it: so that what refers to it is not told as well."""

    row: Row
    noun: str
    key: str
    values: dict[str, Any]
    columns: Columns


def read_form(row: Row, read_moment: MomentReader, currency: str, problems: Problems) -> FormRow | Unreadable:
    """The form behind a row; what is wrong with it is told."""
    form_type = FORMS[row.kind]
    read = read_fields(row, row.cells, headings_for(row.kind, currency), read_moment, currency, problems)
    values = dict(read.values)
    at = values.pop("at", None)
    if not read.whole:
        key = "/".join(str(values.get(name, "")) for name in form_type.KEY)
        return Unreadable(row, row.kind, key, values, read.columns)
    form = form_type(**values)
    found = wrong_with(form)
    for name, message in found:
        label = next((field.label for field in _fields(row.kind, currency) if field.name == name), name)
        problems.add(*read.columns.place(name, label), message)
    if found:
        return Unreadable(row, row.kind, key_of(form), values, read.columns)
    texts = {name: text for name, text in read.texts.items() if name != "at"}
    given = {name: values.get(name) for name in texts}
    return FormRow(row, row.kind, key_of(form), form, at, given, texts, read.columns)


def refuse_twice(rows: Iterable[FormRow | Unreadable], problems: Problems) -> None:
    """One thing is told once: the second row names the first."""
    seen: dict[tuple[str, str], Row] = {}
    for read in rows:
        if not isinstance(read, FormRow):
            continue
        first = seen.setdefault((read.noun, read.key), read.row)
        if first is not read.row:
            where = f"line {first.line}" + (f" of {first.source}" if first.source != read.row.source else "")
            name = next(iter(FORMS[read.noun].KEY), "")
            message = f"{read.noun} «{read.key}» stands in {where} already: keep one of the two"
            problems.add(*read.columns.place(name), message)


def _fields(noun: str, currency: str) -> tuple[Field, ...]:
    return headings_for(noun, currency).fields
