"""Codes that rows refer to: in the ledger, or in the files that are read together."""

import difflib
from collections.abc import Iterable
from typing import Any

from buildlog.intake.fact_rows import FactRow
from buildlog.intake.form_rows import FormRow, Unreadable
from buildlog.intake.rows import Columns
from buildlog.proposals.field import Field
from buildlog.proposals.file_problems import Problems
from buildlog.proposals.nouns import FORMS, Add, noun_fields
from buildlog.proposals.recorded import Rows, table_of

MADE_BY_FACTS = ("spool", "question", "episode", "shot", "viewer question", "promise")
"""Nouns that daily actions make, under codes that are not known beforehand: the record itself tells of these."""

MOST_HINTS = 20
"""Near codes are looked for so often: with thousands of codes each takes a while."""


class KnownCodes:
    """Codes of the ledger (of things out of use too: the record tells of those) and of all rows read."""

    def __init__(self, held: Rows, rows: Iterable[FormRow | Unreadable], facts: Iterable[FactRow]) -> None:
        self._held = held
        self._codes: dict[str, set[str]] = {}
        self._hints = 0
        for read in rows:
            self._of(read.noun).add(read.key)
        for fact in facts:
            for wish, _, _ in fact.dated:
                if isinstance(wish, Add) and FORMS[wish.form.NOUN].KEY == ("code",):
                    self._of(wish.form.NOUN).add(wish.form.code)

    def _of(self, noun: str) -> set[str]:
        if noun not in self._codes:
            coded = FORMS[noun].KEY == ("code",)
            self._codes[noun] = {row.code for row in self._held.all(table_of(noun))} if coded else set()
        return self._codes[noun]

    def check_form(self, read: FormRow | Unreadable, problems: Problems) -> None:
        for field in noun_fields(read.noun):
            for code in _codes_in(read.values.get(field.name)) if field.refers else ():
                self._check(field, code, False, read.columns, problems)

    def check_fact(self, read: FactRow, problems: Problems) -> None:
        for field in read.fields:
            if not field.refers or field.refers in MADE_BY_FACTS or field.name not in read.values:
                continue
            for code in _codes_in(read.values[field.name]):
                self._check(field, code, True, read.columns, problems)

    def _check(self, field: Field, code: str, begun: bool, columns: Columns, problems: Problems) -> None:
        """``begun``: the beginning of a code will do, as in the daily actions."""
        nouns = [noun for noun in field.refers.split(" or ") if noun in FORMS]
        if not nouns or problems.enough or any(code in self._of(noun) for noun in nouns):
            return
        known = sorted(each for noun in nouns for each in self._of(noun))
        if begun and any(each.startswith(code) for each in known):
            return
        self._hints += 1
        near = difflib.get_close_matches(code, known, 3) if self._hints <= MOST_HINTS else []
        hint = f"did you mean {', '.join(near)}?" if near else "add it, or name another one"
        message = f"there is no {field.refers} «{code}» in the ledger nor in these files: {hint}"
        problems.add(*columns.place(field.name, field.label), message)


def _codes_in(value: Any) -> Iterable[str]:
    """The codes that a value of a form or wish names."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for one in value:
            yield from _codes_in(one)
    else:
        code = getattr(value, "code", None) or getattr(value, "material", None)
        if code:
            yield code
