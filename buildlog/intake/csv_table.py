"""A CSV text as headings and rows with their line numbers; comma, semicolon or tab."""

import csv
import io
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from buildlog.errors import FileProblems
from buildlog.intake.neutral import plain_cell
from buildlog.proposals.file_problems import Problems

DELIMITERS = (";", "\t", ",")
MOST_COLUMNS = 200
MOST_ROWS = 100_000
_MARKER = re.compile(r"#\s*list\s*:\s*(.+?)[\s;,]*", re.IGNORECASE)
# what a sheet shows for a broken formula, and the number of a lot, are cells and no comments
_NO_COMMENT = re.compile(r"#(\d|REF!|N/A|NAME\?|VALUE!|DIV/0!|NUM!|NULL!)")


@dataclass(frozen=True, slots=True)
class CsvTable:
    """``marker`` is what the file says of itself in ``# list: spools``, or in a line with nothing but that."""

    delimiter: str
    marker: str
    headings: tuple[str, ...]
    heads_at: int
    rows: tuple[tuple[int, tuple[str, ...]], ...]


class _Lines:
    """Hands lines to the csv reader; between two records comments and empty lines are left out."""

    def __init__(self, text: str) -> None:
        self._lines = io.StringIO(text, newline="")
        self.number, self.starts_at, self.between, self.marker = 0, 0, True, ""

    def __iter__(self) -> Iterator[str]:
        for line in self._lines:
            self.number += 1
            if self.between:
                if self._is_left_out(line):
                    continue
                self.starts_at, self.between = self.number, False
            yield line

    def _is_left_out(self, line: str) -> bool:
        bare = line.strip()
        if bare.startswith("#") and not _NO_COMMENT.match(bare):
            marker = _MARKER.fullmatch(bare)
            if marker and not self.marker:
                self.marker = marker[1]
            return True
        return not bare.strip(";,")


def read_table(path: str, text: str, names_a_list: Callable[[str], bool], problems: Problems) -> CsvTable:
    """FileProblems for a file without headings, with an open quote, or with too much in it."""
    lines = _Lines(text)
    delimiter = delimiter_of(text)
    records = _records(path, lines, delimiter)
    first = next(records, None)
    if first is not None and first[1][0].lower() in ("sep=", *(f"sep={one}" for one in DELIMITERS)):
        first = next(records, None)
    said = ""
    if first is not None and _is_marker(first[1], delimiter in text) and names_a_list(first[1][0]):
        said, first = first[1][0], next(records, None)
    if first is None:
        raise FileProblems(path, ((0, "", "holds no line of headings: the first line names the columns"),))
    heads_at, headings = first
    while headings and not headings[-1]:
        headings.pop()
    rows = []
    for line, cells in records:
        for number, cell in enumerate(cells):
            if cell and (number >= len(headings) or not headings[number]):
                problems.add(path, line, "", f"«{cell[:40]}» stands in column {number + 1}, which has no heading")
        rows.append((line, tuple(cells[: len(headings)]) + ("",) * (len(headings) - len(cells))))
    return CsvTable(delimiter, said or lines.marker, tuple(headings), heads_at, tuple(rows))


def _is_marker(cells: list[str], several_columns: bool) -> bool:
    return bool(cells[0]) and not any(cells[1:]) and several_columns


def delimiter_of(text: str) -> str:
    """What parts the cells of the first line that is no comment, counted outside of quotes."""
    lines = _Lines(text)
    for line in lines:
        bare = re.sub(r'"[^"]*"', "", line)
        counts = {delimiter: bare.count(delimiter) for delimiter in DELIMITERS}
        if any(counts.values()):
            return max(DELIMITERS, key=counts.__getitem__)
        lines.between = True
    return ","


def _records(path: object, lines: _Lines, delimiter: str) -> Iterator[tuple[int, list[str]]]:
    """(line, cells) of every record; cells without what keeps a sheet from running them."""
    reader = csv.reader(iter(lines), delimiter=delimiter, strict=True)
    for count in range(MOST_ROWS + 2):
        lines.between = True
        try:
            cells = next(reader, None)
        except csv.Error as error:
            raise FileProblems(path, ((lines.starts_at, "", _told(str(error))),)) from None
        if cells is None:
            return
        if len(cells) > MOST_COLUMNS:
            wide = f"has {len(cells)} columns, at most {MOST_COLUMNS} are read: keep those that are fields"
            raise FileProblems(path, ((lines.starts_at, "", wide),))
        if count <= MOST_ROWS:
            yield lines.starts_at, [plain_cell(cell) for cell in cells]
    raise FileProblems(path, ((lines.starts_at, "", f"at most {MOST_ROWS} rows are read: split the file"),))


def _told(error: str) -> str:
    if "unexpected end" in error:
        return "a quote is opened here and never closed: close it, or double it where it is meant as text"
    if "limit" in error:
        return "a cell is longer than anything that is kept: is a quote left open?"
    return f"the quotes are not right ({error}): a quote inside a quoted cell is written twice"
