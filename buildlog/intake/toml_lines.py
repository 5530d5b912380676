"""Where tables and keys stand in a TOML text, which ``tomllib`` does not tell: only for messages."""

import re
from dataclasses import dataclass, field

_HEADER = re.compile(r"\s*\[\[?\s*([^\[\]]+?)\s*\]\]?\s*(?:#.*)?")
_KEY = re.compile(r"""\s*("(?:[^"\\]|\\.)*"|'[^']*'|[A-Za-z0-9_-]+)\s*(?:\.[^=]*)?=""")
_TOKEN = re.compile(r"\"\"\"|'''|\"(?:[^\"\\\n]|\\.)*\"|'[^'\n]*'|#.*|[\[\]{}]")


@dataclass(slots=True)
class TableLines:
    """Line of the header, and of each key below it."""

    at: int
    keys: dict[str, int] = field(default_factory=dict)

    def of(self, key: str) -> int:
        return self.keys.get(key, self.at)


def table_lines(text: str) -> dict[str, list[TableLines]]:
    """Tables by name in the order of the text; those keys that stand before the first table are of ``""``."""
    top = TableLines(1)
    found: dict[str, list[TableLines]] = {"": [top]}
    current, depth, closes = top, 0, ""
    for number, line in enumerate(text.split("\n"), 1):
        if not depth and not closes:
            header = _HEADER.fullmatch(line.rstrip("\r"))
            if header:
                current = TableLines(number)
                found.setdefault(_bare(header[1]), []).append(current)
                continue
            key = _KEY.match(line)
            if key:
                current.keys.setdefault(_bare(key[1]), number)
        depth, closes = _after(line, depth, closes)
    return found


def _bare(name: str) -> str:
    return name[1:-1] if name[:1] in "\"'" and name[-1:] == name[:1] and len(name) > 1 else name


def _after(line: str, depth: int, closes: str) -> tuple[int, str]:
    """How many brackets are open after this line, and the quotes that close a text over several lines."""
    position = 0
    while position < len(line):
        if closes:
            end = line.find(closes, position)
            if end < 0:
                return depth, closes
            position, closes = end + 3, ""
            continue
        token = _TOKEN.search(line, position)
        if token is None:
            break
        position = token.end()
        if token[0] in ('"""', "'''"):
            closes = token[0]
        elif token[0] in "[{":
            depth += 1
        elif token[0] in "]}":
            depth = max(0, depth - 1)
    return depth, closes
