"""Mermaid charts for Markdown, within the limits in which every viewer we tried draws them.

At most 14 categories on an axis, 500 edges and 50,000 characters in a diagram; figures without exponents; every
label escaped, its first character too, since a label may begin with a keyword.
"""

from collections.abc import Sequence

MOST_CATEGORIES = 14
CHART_WIDTH = 900  # at the usual 700 the names of 14 categories run into each other
MOST_EDGES = 500
MOST_CHARACTERS = 50_000


def label(text: str) -> str:
    """Every character but inner ASCII letters, digits and spaces as its number; the first one always."""
    flat = " ".join(text.split())
    return "".join(
        c if i and c.isascii() and (c.isalnum() or c == " ") else f"#{ord(c)};" for i, c in enumerate(flat)
    )


def figure(value: float) -> str:
    return f"{value:.2f}"


def fenced(lines: Sequence[str]) -> str:
    """A fenced diagram; ValueError when it is longer than viewers draw."""
    body = "\n".join(lines)
    if len(body) > MOST_CHARACTERS:
        raise ValueError(f"a diagram of {len(body)} characters is more than viewers draw")
    return f"```mermaid\n{body}\n```"


def line_chart(title: str, unit: str, categories: Sequence[str], lines: Sequence[tuple[str, Sequence[float]]]) -> str:
    """Lines, each with its colour, over the same axis; a shorter one ends where it ends, a later one is on top."""
    shown = categories[:MOST_CATEGORIES]
    drawn = [(colour, values[: len(shown)]) for colour, values in lines if values]
    highest = max((value for _, values in drawn for value in values), default=0.0)
    names = ", ".join(f'"{label(c)}"' for c in shown)
    return fenced(
        [
            "---",
            "config:",
            "  xyChart:",
            f"    width: {CHART_WIDTH}",
            "  themeVariables:",
            "    xyChart:",
            f'      plotColorPalette: "{", ".join(colour for colour, _ in drawn)}"',
            "---",
            "xychart-beta",
            f'  title "{label(title)}"',
            f"  x-axis [{names}]",
            f'  y-axis "{label(unit)}" 0 --> {figure(max(highest, 1.0))}',
            *(f"  line [{', '.join(map(figure, values))}]" for _, values in drawn),
        ]
    )


def flowchart(nodes: Sequence[str], edges: Sequence[tuple[int, int]]) -> str:
    """Boxes by their place in ``nodes``, arrows between them; edges over the limit are left out by the caller."""
    if len(edges) > MOST_EDGES:
        raise ValueError(f"{len(edges)} edges are more than viewers draw")
    boxes = [f'  n{index}["{label(text)}"]' for index, text in enumerate(nodes)]
    return fenced(["flowchart LR", *boxes, *(f"  n{a} --> n{b}" for a, b in edges)])
