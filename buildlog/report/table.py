"""One answer as a table of plain values: shown as text, written as JSON, set in Markdown from the same rows."""

import json
import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from rich.cells import cell_len


@dataclass(frozen=True, slots=True)
class Column:
    """``key`` names the raw value with its unit (``left_mg``); ``show`` turns it into words."""

    key: str
    title: str
    show: Callable[[Any], str] = str
    right: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of raw values in the order of the columns; ``empty`` is said where there is none."""

    key: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Any, ...], ...]
    empty: str = "Nothing."
    remarks: tuple[str, ...] = field(default=())


def shown(column: Column, value: Any) -> str:
    """One cell in words, without anything that could steer a terminal."""
    text = "" if value is None else column.show(value)
    return "".join(c if unicodedata.category(c)[0] != "C" else " " for c in text)


def to_text(table: Table) -> str:
    """Aligned by terminal cells, a heading line first."""
    lines = [table.title]
    if not table.rows:
        lines.append(f"  {table.empty}")
    else:
        cells = [[shown(c, v) for c, v in zip(table.columns, row, strict=True)] for row in table.rows]
        heads = [column.title for column in table.columns]
        widths = [max(cell_len(text) for text in column) for column in zip(heads, *cells, strict=True)]
        lines.extend("  " + _line(table.columns, widths, row) for row in [heads, *cells])
    lines.extend(f"  {remark}" for remark in table.remarks)
    return "\n".join(lines)


def _line(columns: tuple[Column, ...], widths: list[int], texts: list[str]) -> str:
    padded = []
    for column, width, text in zip(columns, widths, texts, strict=True):
        space = " " * (width - cell_len(text))
        padded.append(space + text if column.right else text + space)
    return "  ".join(padded).rstrip()


def to_markdown(table: Table, title: bool = True) -> str:
    """A pipe table; every cell escaped, so that no name can break the page."""
    lines = [f"### {escape(table.title)}", ""] if title else []
    if not table.rows:
        lines.append(escape(table.empty))
    else:
        lines.append("| " + " | ".join(escape(c.title) for c in table.columns) + " |")
        lines.append("|" + "|".join("---:" if c.right else "---" for c in table.columns) + "|")
        for row in table.rows:
            texts = (escape(shown(c, v)) for c, v in zip(table.columns, row, strict=True))
            lines.append("| " + " | ".join(texts) + " |")
    lines.extend(f"\n{escape(remark)}" for remark in table.remarks)
    return "\n".join(lines)


_SPECIAL = re.compile(r"([\\`*_{}\[\]<>()#+!|~&$])")
_LINE_START = re.compile(r"^(\s*)([-=]|\d+[.)])(?=\s|$|[-=])")


def escape(text: str) -> str:
    """Text as it is, wherever it stands in Markdown (CommonMark 0.31, section 2.4: backslash escapes)."""
    flat = " ".join(text.split())
    return _LINE_START.sub(r"\1\\\2", _SPECIAL.sub(r"\\\1", flat))


def to_plain(table: Table) -> list[dict[str, Any]]:
    """Rows as mappings of raw values, for JSON."""
    return [dict(zip((c.key for c in table.columns), row, strict=True)) for row in table.rows]


def to_json(tables: dict[str, Any]) -> str:
    return json.dumps(tables, indent=2, ensure_ascii=False)
