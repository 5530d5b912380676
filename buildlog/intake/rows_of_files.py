"""Files to rows: a build sheet by its ending, everything else as a list."""

from collections.abc import Iterable
from pathlib import Path

from buildlog.errors import FileProblems
from buildlog.intake.csv_table import read_table
from buildlog.intake.file_text import MOST_BYTES, read_text
from buildlog.intake.headings import is_unread
from buildlog.intake.lists import list_named, list_of_file
from buildlog.intake.rows import Cell, Row
from buildlog.intake.sheet import MOST_BYTES as MOST_SHEET_BYTES
from buildlog.intake.sheet import read_sheet
from buildlog.proposals.file_problems import Problems

SHEET = ".toml"
LISTS = (".csv", ".tsv", ".tab", ".txt", "")


def rows_of_files(paths: Iterable[Path], as_list: str | None, currency: str, problems: Problems) -> list[Row]:
    """Every row of every file in their order; a file that cannot be read is told and does not hide the others."""
    rows: list[Row] = []
    for path in dict.fromkeys(paths):
        try:
            rows += _rows_of(path, as_list, currency, problems)
        except FileProblems as error:
            for line, column, message in error.problems:
                problems.add(str(path), line, column, message)
    return rows


def _rows_of(path: Path, as_list: str | None, currency: str, problems: Problems) -> list[Row]:
    ending = path.suffix.lower()
    if ending == SHEET:
        return read_sheet(str(path), read_text(path, MOST_SHEET_BYTES), problems)
    if ending not in LISTS and not path.is_dir():
        message = f"ends in {ending}: what is read are build sheets ({SHEET}) and lists ({', '.join(LISTS[:-1])})"
        raise FileProblems(path, ((0, "", message),))
    return rows_of_list(str(path), read_text(path, MOST_BYTES), as_list, currency, problems)


def rows_of_list(source: str, text: str, as_list: str | None, currency: str, problems: Problems) -> list[Row]:
    """Every row of a CSV text; FileProblems where it cannot be told which list it is."""
    table = read_table(source, text, lambda said: list_named(said) is not None, problems)
    marker = as_list or table.marker
    try:
        kind = list_of_file(source, marker, tuple(h for h in table.headings if not is_unread(h)), currency)
    except ValueError as error:
        raise FileProblems(source, ((0, "", str(error)),)) from None
    comma = table.delimiter == ";"
    return [
        Row(
            source,
            line,
            table.heads_at,
            kind,
            tuple(
                Cell(head, text, line)
                for head, text in zip(table.headings, cells, strict=True)
                if head and not is_unread(head)
            ),
            comma,
        )
        for line, cells in table.rows
    ]
