"""Rows about what happened: each as the wishes that record it, with a key by which it is known when read again."""

import hashlib
import json
import re
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

from buildlog.errors import BadWish
from buildlog.intake import print_run
from buildlog.intake.daily import AT, OF_NOUNS, fields_for, make_wish, wish_named
from buildlog.intake.fields_read import FieldsRead, read_fields
from buildlog.intake.headings import Headings, plain_words
from buildlog.intake.lists import DATED, HISTORY, headings_for
from buildlog.intake.rows import Cell, Columns, Row
from buildlog.proposals.field import Field
from buildlog.proposals.file_problems import Problems
from buildlog.proposals.moments import MomentReader
from buildlog.proposals.nouns import noun_named
from buildlog.terms import Moment

Dated = tuple[Any, Moment | None, int]
_PAIR = re.compile(r'\s*([^=;"]+?)\s*=\s*(?:"((?:[^"]|"")*)"|([^;]*?))\s*(?:;|$)')


@dataclass(frozen=True, slots=True)
class FactRow:
    """``dated`` are wishes with their moments and their order within a moment; None: when it is read."""

    row: Row
    noun: str
    key: str
    dated: tuple[Dated, ...]
    fields: tuple[Field, ...]
    values: dict[str, Any]
    texts: dict[str, str]
    columns: Columns


class FactReader:
    """Reads the dated rows of one reading; the same row twice in a file is two facts."""

    def __init__(self, read_moment: MomentReader, currency: str, problems: Problems) -> None:
        self._read_moment, self._currency, self._problems = read_moment, currency, problems
        self._seen: Counter[tuple[str, str]] = Counter()

    def read(self, row: Row) -> FactRow | None:
        if row.kind == print_run.KIND:
            return self._print_run(row)
        if row.kind == HISTORY:
            return self._of_history(row)
        name = DATED.get(row.kind, row.kind)
        noun = self._noun_of(row, name, row.cells)
        headings = headings_of_wish(name, noun, self._currency) if noun else headings_for(row.kind, self._currency)
        return self._fact(row, name, row.cells, headings)

    def _of_history(self, row: Row) -> FactRow | None:
        cells = {plain_words(cell.heading): cell for cell in row.cells}
        wish = cells.get("wish")
        said = cells.get("with")
        if wish is None or not wish.text.strip():
            self._tell(row, wish, "wish", "is missing: it names a daily action, as weigh_spool")
            return None
        try:
            name = wish_named(wish.text)
            more = pairs_in(said) if said else ()
        except ValueError as error:
            self._tell(row, wish, "wish", str(error))
            return None
        known = [cell for cell in row.cells if cell not in (wish, said) and cell.filled]
        noun = self._noun_of(row, name, (*known, *more))
        headings = headings_of_wish(name, noun, self._currency, at_required=True)
        # the headings of a history are those of all its wishes: one that does not fit is told for its line
        return self._fact(replace(row, heads_at=row.line), name, (*known, *more), headings)

    def _noun_of(self, row: Row, name: str, cells: Iterable[Cell]) -> str:
        said = next((cell for cell in cells if plain_words(cell.heading) == "noun"), None)
        if name not in OF_NOUNS or said is None:
            return ""
        try:
            return noun_named(said.text)
        except BadWish as error:
            self._tell(row, said, "noun", error.problems[0][1])
            return ""

    def _fact(self, row: Row, name: str, cells: Iterable[Cell], headings: Headings) -> FactRow | None:
        filled = [cell for cell in cells if cell.filled]
        read = read_fields(row, filled, headings, self._read_moment, self._currency, self._problems)
        if not read.whole:
            return None
        values = dict(read.values)
        at = values.pop("at", None)
        try:
            dated = ((make_wish(name, values), at, 0),)
        except BadWish as error:
            self._tell(row, None, "", error.problems[0][1])
            return None
        return self._known_by_content(row, name, dated, headings.fields, read)

    def _print_run(self, row: Row) -> FactRow | None:
        headings = headings_for(row.kind, self._currency)
        filled = [cell for cell in row.cells if cell.filled]
        read = read_fields(row, filled, headings, self._read_moment, self._currency, self._problems)
        if not read.whole:
            return None
        try:
            dated = print_run.wishes_of(read.values)
        except ValueError as error:
            self._tell(row, None, "", str(error))
            return None
        key = print_run.key_of(read.values["printer"], read.texts["started"])
        return FactRow(row, row.kind, key, dated, headings.fields, read.values, read.texts, read.columns)

    def _known_by_content(
        self, row: Row, name: str, dated: tuple[Dated, ...], fields: tuple[Field, ...], read: FieldsRead
    ) -> FactRow:
        texts = {"wish": name, **read.texts}
        content = content_key(texts)
        self._seen[row.source, content] += 1
        key = f"{content}/{self._seen[row.source, content]}"
        return FactRow(row, HISTORY, key, dated, fields, read.values, texts, read.columns)

    def _tell(self, row: Row, cell: Cell | None, column: str, message: str) -> None:
        self._problems.add(row.source, cell.line if cell else row.line, cell.heading if cell else column, message)


@cache
def headings_of_wish(name: str, noun: str, currency: str, at_required: bool = False) -> Headings:
    fields = fields_for(name, noun)
    return Headings(name, (replace(AT, required=at_required), *fields), currency)


def pairs_in(cell: Cell) -> tuple[Cell, ...]:
    """``spool=S1; grams=640`` as cells; a text with a semicolon stands in double quotes. Else ValueError."""
    text, found, position = cell.text.strip(), [], 0
    while position < len(text):
        match = _PAIR.match(text, position)
        if match is None:
            rest = text[position : position + 40]
            raise ValueError(f"«{rest}» in «{cell.heading}» was not understood: write field=value; field=value")
        value = match[3] if match[2] is None else match[2].replace('""', '"')
        found.append(Cell(match[1], value, cell.line))
        position = match.end()
    return tuple(found)


def content_key(texts: Mapping[str, str]) -> str:
    """What a row says, as a short text that is the same for the same row."""
    content = json.dumps(sorted((name, text) for name, text in texts.items() if text), ensure_ascii=False)
    return hashlib.sha256(content.encode()).hexdigest()[:24]
