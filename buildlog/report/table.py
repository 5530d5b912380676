"""One answer as a table of plain values: shown as text, written as JSON, set in Markdown from the same rows."""

import json
import re
import textwrap
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from rich.cells import cell_len, chop_cells

MARGIN = "  "
GAP = "  "
BELOW = "      "
LEAST_WIDTH = 8
LEAST_PROSE = 24


@dataclass(frozen=True, slots=True)
class Column:
    """``key`` names the raw value with its unit (``left_mg``); ``show`` turns it into words."""

    key: str
    title: str
    show: Callable[[Any], str] = str
    right: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of raw values in the order of the columns; ``empty`` is said where there is none.

    ``depths`` tell how far each row lies below the first, where the rows are a tree.
    """

    key: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Any, ...], ...]
    empty: str = "Nothing."
    remarks: tuple[str, ...] = ()
    depths: tuple[int, ...] = ()

    def shown_rows(self, indent: str) -> list[list[str]]:
        """Every row in words, the first cell behind one ``indent`` for each level."""
        rows = [[shown(c, v) for c, v in zip(self.columns, row, strict=True)] for row in self.rows]
        for depth, row in zip(self.depths, rows, strict=False):
            row[0] = indent * depth + row[0]
        return rows


def shown(column: Column, value: Any) -> str:
    """One cell in words, without anything that could steer a terminal."""
    text = "" if value is None else column.show(value)
    return "".join(c if unicodedata.category(c)[0] != "C" else " " for c in text)


def to_text(table: Table, width: int | None = None) -> str:
    """Aligned by terminal cells, a heading line first.

    No line is wider than ``width`` cells: a last column of words that would get little room is set below its row,
    other cells are cut and end with …
    """
    lines = [table.title]
    if not table.rows:
        lines.append(f"  {table.empty}")
    else:
        rows = [[column.title for column in table.columns], *table.shown_rows("  ")]
        lines.extend(_aligned(table.columns, rows, width))
    for remark in table.remarks:
        lines.extend(MARGIN + piece for piece in _folded(remark, width, len(MARGIN)))
    return "\n".join(lines)


def _aligned(columns: tuple[Column, ...], rows: list[list[str]], width: int | None) -> list[str]:
    widths = [max(cell_len(text) for text in column) for column in zip(*rows, strict=True)]
    if width is None:
        return [MARGIN + _line(columns, widths, row) for row in rows]
    room = width - len(MARGIN) - len(GAP) * (len(widths) - 1)
    if sum(widths) > room and not columns[-1].right and len(widths) > 1 and room - sum(widths[:-1]) < LEAST_PROSE:
        widths = fitting(widths[:-1], room + len(GAP))
        lines = []
        for row in rows:
            lines.append(MARGIN + _line(columns[:-1], widths, row[:-1]))
            below = _folded(row[-1], width, len(BELOW)) if row is not rows[0] else ()
            lines.extend(BELOW + piece for piece in below)
        return lines
    return [MARGIN + _line(columns, fitting(widths, room), row) for row in rows]


def _folded(text: str, width: int | None, margin: int) -> list[str]:
    if width is None:
        return [text]
    return textwrap.wrap(text, max(width - margin, LEAST_PROSE))


def fitting(widths: list[int], room: int) -> list[int]:
    """Widths that fit into ``room`` together: the widest gives first, none goes below eight cells."""
    widths = list(widths)
    while sum(widths) > room and max(widths) > LEAST_WIDTH:
        widest = widths.index(max(widths))
        below = max((w for w in widths if w < widths[widest]), default=LEAST_WIDTH)
        widths[widest] -= min(sum(widths) - room, max(1, widths[widest] - max(below, LEAST_WIDTH)))
    return widths


def _line(columns: tuple[Column, ...], widths: list[int], texts: list[str]) -> str:
    padded = []
    for column, width, text in zip(columns, widths, texts, strict=True):
        if cell_len(text) > width:
            text = chop_cells(text, width - 1)[0] + "…"
        space = " " * (width - cell_len(text))
        padded.append(space + text if column.right else text + space)
    return GAP.join(padded).rstrip()


def to_markdown(table: Table, title: bool = True) -> str:
    """A pipe table; every cell escaped, so that no name can break the page."""
    lines = [f"### {escape(table.title)}", ""] if title else []
    if not table.rows:
        lines.append(escape(table.empty))
    else:
        lines.append("| " + " | ".join(escape(c.title) for c in table.columns) + " |")
        lines.append("|" + "|".join("---:" if c.right else "---" for c in table.columns) + "|")
        lines.extend(f"| {' | '.join(map(escape, row))} |" for row in table.shown_rows("› "))
    lines.extend(f"\n{escape(remark)}" for remark in table.remarks)
    return "\n".join(lines)


_SPECIAL = re.compile(r"([\\`*_{}\[\]<>()#+!|~&$])")
_LINE_START = re.compile(r"^(\s*)([-=]|\d+[.)])(?=\s|$|[-=])")


def escape(text: str) -> str:
    """Text as it is, wherever it stands in Markdown (CommonMark 0.31, section 2.4: backslash escapes)."""
    flat = " ".join(text.split())
    return _LINE_START.sub(r"\1\\\2", _SPECIAL.sub(r"\\\1", flat))


def to_plain(table: Table) -> list[dict[str, Any]]:
    """Rows as mappings of raw values, for JSON; those of a tree with their depth."""
    rows = [dict(zip((c.key for c in table.columns), row, strict=True)) for row in table.rows]
    for depth, row in zip(table.depths, rows, strict=False):
        row["depth"] = depth
    return rows


def to_json(tables: dict[str, Any]) -> str:
    return json.dumps(tables, indent=2, ensure_ascii=False)
