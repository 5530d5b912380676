"""How a noun is kept: its own row by the table of fields, and what lies in other rows by hooks."""

import dataclasses
from collections.abc import Mapping
from typing import Any

from buildlog.errors import AlreadyThere, BadWish, InTheFuture, Refused
from buildlog.proposals.field import Kind
from buildlog.proposals.nouns import key_of, noun_fields
from buildlog.proposals.problems import problems
from buildlog.proposals.recorded import form_of_row, is_live, own_fields, rows_named, table_of
from buildlog.record.actions.moments import local
from buildlog.record.actions.storing.rows import WorkRows, enum_of, live_row
from buildlog.record.actions.storing.standing_on import standing_on
from buildlog.record.tables import TABLES, Row
from buildlog.record.writer import Work


class Storing:
    """The four changes of any noun; a noun that needs more overrides the hooks below them."""

    NOUN = ""

    def __init__(self, work: Work, noun: str = "") -> None:
        self.work, self.noun = work, noun or self.NOUN
        self.table: type[Row] = TABLES[table_of(self.noun)]

    def form(self, row: Row) -> Any:
        """The thing as it stands now."""
        return form_of_row(WorkRows(self.work), self.noun, row)

    def add(self, form: Any) -> Row:
        form = self._whole(form)
        self._refuse_ahead({f.name: getattr(form, f.name) for f in noun_fields(self.noun)})
        self._refuse_taken(form)
        self.check(form, None)
        row = self.work.add(self.table(**self.columns(form), **self.more(form)))
        self.added(row, form)
        return row

    def change(self, row: Row, values: Mapping[str, Any]) -> tuple[str, ...]:
        """Give fields other values, None for what stands when nothing is typed; returns the changed ones."""
        fields = {field.name: field for field in noun_fields(self.noun)}
        unknown = tuple((name, f"{self.noun} has no field of that name") for name in values if name not in fields)
        if unknown:
            raise BadWish(unknown)
        before = self.form(row)
        given = {name: fields[name].default if value is None else value for name, value in values.items()}
        after = self._whole(dataclasses.replace(before, **given))
        names = tuple(name for name in fields if getattr(after, name) != getattr(before, name))
        if not names:
            return ()
        self._refuse_ahead({name: getattr(after, name) for name in names})
        if key_of(after) != key_of(before):
            self._refuse_taken(after)
        self.check(after, row)
        columns = {name: value for name, value in self.columns(after).items() if getattr(row, name) != value}
        if columns:
            self.work.change(row, **columns)
        self.changed(row, before, after)
        return names

    def retire(self, row: Row) -> None:
        key = key_of(self.form(row))
        standing = standing_on(self.work, self.noun, row.id)
        if standing:
            raise Refused(
                f"{self.noun} {key} cannot be retired, it is still needed by {standing}. "
                "Retire or change these first."
            )
        self.work.change(row, **{"ended_at" if self.noun == "usage" else "retired_at": self.work.at})
        self.retired(row)

    def bring_back(self, row: Row) -> None:
        form = self.form(row)
        self.columns(form)  # what it refers to must be in use
        self.check(form, row)
        self.work.change(row, **{"ended_at" if self.noun == "usage" else "retired_at": None})
        self.brought_back(row, form)

    def columns(self, form: Any) -> dict[str, Any]:
        """The columns of its own row that the form fills."""
        found: dict[str, Any] = {}
        for field in own_fields(self.noun):
            value = getattr(form, field.name)
            if field.kind is Kind.REFERENCE and value is not None:
                value = live_row(self.work, field.refers, value).id
            found[field.stored_as] = enum_of(self.table, field.stored_as, value)
        return found

    # what a noun may add to that

    def complete(self, form: Any) -> Any:
        """The form with what stands where nothing was typed."""
        return form

    def more(self, _form: Any) -> dict[str, Any]:
        """Columns of a new row that no field fills."""
        return {}

    def check(self, form: Any, row: Row | None) -> None:
        """Refuse what the record does not allow; ``row`` is None for a new thing."""

    def added(self, row: Any, form: Any) -> None:
        """Write what lies in other rows."""

    def changed(self, row: Any, before: Any, after: Any) -> None:
        """Change what lies in other rows."""

    def retired(self, row: Any) -> None:
        """Take what goes with it."""

    def brought_back(self, row: Any, form: Any) -> None:
        """Bring what comes with it."""

    def _whole(self, form: Any) -> Any:
        """The form with nothing wrong in it, and with what stands where nothing was typed."""
        _refuse_problems(form)
        completed = self.complete(form)
        _refuse_problems(completed)
        return completed

    def _refuse_taken(self, form: Any) -> None:
        key = key_of(form)
        found = rows_named(WorkRows(self.work), self.noun, key)
        if any(is_live(row) for row in found):
            raise AlreadyThere(self.noun, key)
        if found and "code" in form.KEY[:1]:
            raise Refused(
                f"{self.noun} «{key}» was retired {local(self.work, found[0].retired_at)}: "
                "bring it back, or choose another code."
            )

    def _refuse_ahead(self, values: Mapping[str, Any]) -> None:
        for field in noun_fields(self.noun):
            value = values.get(field.name)
            if field.kind is Kind.MOMENT and not field.future and value and value > self.work.recorded_at:
                raise InTheFuture(value)


def _refuse_problems(form: Any) -> None:
    found = problems(form)
    if found:
        raise BadWish(found)
