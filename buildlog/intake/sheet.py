"""A build sheet: one TOML file that describes a build, a table per thing.

``[[part]]`` with field names or labels as keys; ``build`` and ``at`` may stand once at the top and hold for all.
"""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, datetime, time
from typing import Any

from buildlog.errors import FileProblems
from buildlog.intake.csv_table import MOST_ROWS
from buildlog.intake.headings import plain_words
from buildlog.intake.lists import NAMED, list_named
from buildlog.intake.rows import Cell, Row
from buildlog.intake.toml_lines import TableLines, table_lines
from buildlog.proposals.file_problems import Problems
from buildlog.proposals.nouns import FORMS, noun_fields

MOST_BYTES = 4 * 1024 * 1024
FOR_ALL = ("build", "at")
# tomllib needs the square of the time for a key of many dotted words; no key of a build sheet has any
_DOTTED = re.compile(r"""(?m)(?:^|[{,\[])[ \t]*(?:[\w"'-]+[ \t]*\.[ \t]*){10}""")
_PLACE = re.compile(r"\s*\(at (?:line (\d+), column \d+|end of document)\)$")


def read_sheet(source: str, text: str, problems: Problems) -> list[Row]:
    """All rows of a build sheet; FileProblems where it is no TOML."""
    tables = _parsed(source, text)
    lines = table_lines(text)
    top = lines[""][0]
    for_all: dict[str, Cell] = {}
    rows: list[Row] = []
    for name, value in tables.items():
        if name in FOR_ALL and not isinstance(value, dict | list):
            for_all[name] = _cell(name, value, top.of(name))
            continue
        kind = list_named(name)
        if kind is None:
            line = lines[name][0].at if name in lines else top.of(name)
            problems.add(source, line, "", f"«{name[:60]}» is no list: write one of {', '.join(NAMED)}")
            continue
        rows += _rows(source, kind, name, value, lines, problems)
    if len(rows) > MOST_ROWS:
        raise FileProblems(source, ((0, "", f"at most {MOST_ROWS} rows are read: split the file"),))
    builds = [cell for row in rows if row.kind == "build" for cell in row.cells if cell.heading == "code"]
    if len(builds) == 1:
        for_all.setdefault("build", builds[0])
    return [_filled_in(row, for_all) for row in rows]


def _parsed(source: str, text: str) -> dict[str, Any]:
    dotted = _DOTTED.search(text)
    if dotted:
        line = text.count("\n", 0, dotted.start()) + 1
        raise FileProblems(source, ((line, "", "a key is one word, or a text in quotes: this one has many dots"),))
    try:
        return tomllib.loads(text)
    except RecursionError:
        deep = "is nested too deeply: a build sheet has tables, and no tables in them"
        raise FileProblems(source, ((0, "", deep),)) from None
    except ValueError as error:
        place = _PLACE.search(str(error))
        line = int(place[1]) if place and place[1] else 0
        message = _PLACE.sub("", str(error))
        said = f"is no TOML ({message}): texts stand in quotes, and each key once"
        raise FileProblems(source, ((line, "", said),)) from None


def _rows(
    source: str, kind: str, name: str, value: Any, lines: dict[str, list[TableLines]], problems: Problems
) -> list[Row]:
    top = lines[""][0]
    tables = value if isinstance(value, list) else [value]
    places = lines.get(name, [])
    rows = []
    for number, table in enumerate(tables):
        place = places[number] if number < len(places) else TableLines(top.of(name))
        if not isinstance(table, Mapping):
            problems.add(source, place.at, name, f"must be a table: write [[{name}]] and its keys below")
            continue
        cells = tuple(_cell(key, of_key, place.of(key)) for key, of_key in table.items())
        rows.append(Row(source, place.at, None, kind, cells))
    return rows


def _cell(key: str, value: Any, line: int) -> Cell:
    try:
        return Cell(key, text_of(value), line)
    except ValueError as error:
        return Cell(key, "", line, str(error))


def text_of(value: Any) -> str:
    """A TOML value as a person would type it into a form; ValueError for a table."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list) and not any(isinstance(one, list) for one in value):
        return ", ".join(text_of(one) for one in value)
    if isinstance(value, datetime | date):
        return value.isoformat()
    if isinstance(value, time):
        return value.isoformat("minutes")
    if isinstance(value, dict | list):
        raise ValueError("must be a text, a number, yes or no, a date or a list of texts, not a table")
    return str(value)


def _filled_in(row: Row, for_all: Mapping[str, Cell]) -> Row:
    """The row with what the sheet says once for all, where it says nothing else."""
    if row.kind in FORMS:
        own = {field.name for field in noun_fields(row.kind)} if row.kind != "build" else set()
        names = [name for name in for_all if name in own or name == "at"]
    else:
        names = ["at"] if row.kind != "print history" and "at" in for_all else []
    said = {plain_words(cell.heading) for cell in row.cells}
    added = tuple(replace(for_all[name], heading=name) for name in names if name not in said)
    return replace(row, cells=row.cells + added)
