"""A row as it stands in a file, whichever kind of file that is."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Cell:
    """``heading`` as written, and the line of the value; ``wrong`` says why it is no text at all."""

    heading: str
    text: str
    line: int
    wrong: str = ""

    @property
    def filled(self) -> bool:
        return bool(self.text.strip() or self.wrong)


@dataclass(frozen=True, slots=True)
class Row:
    """``kind`` names the list it belongs to; ``heads_at`` is the line of all headings, None where each has its own.

    ``comma`` says that a comma is decimal in its file.
    """

    source: str
    line: int
    heads_at: int | None
    kind: str
    cells: tuple[Cell, ...]
    comma: bool = False


@dataclass(frozen=True, slots=True)
class Columns:
    """The cells of a row by the field that they are of."""

    row: Row
    cells: dict[str, Cell]

    def place(self, name: str, label: str = "") -> tuple[str, int, str]:
        """File, line and heading of a field; of the row itself, with the label, where the field has no cell."""
        cell = self.cells.get(name)
        if cell is None:
            return self.row.source, self.row.line, label or name
        return self.row.source, cell.line, cell.heading

    def all(self) -> tuple[tuple[str, str, int], ...]:
        """Field, heading and line of each."""
        return tuple((name, cell.heading, cell.line) for name, cell in self.cells.items())
