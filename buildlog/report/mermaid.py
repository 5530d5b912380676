"""Mermaid charts for Markdown, within the limits in which every viewer we tried draws them.

At most 14 categories on an axis, 500 edges and 50,000 characters in a diagram; figures without exponents; every
label escaped, its first character too, since a label may begin with a keyword.
"""

from collections.abc import Sequence

MOST_CATEGORIES = 14
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


def line_chart(title: str, unit: str, categories: Sequence[str], lines: Sequence[Sequence[float]]) -> str:
    """Lines over the same axis; a shorter one ends where it ends."""
    shown = categories[:MOST_CATEGORIES]
    highest = max((value for line in lines for value in line[: len(shown)]), default=0.0)
    names = ", ".join(f'"{label(c)}"' for c in shown)
    drawn = [f"  line [{', '.join(figure(v) for v in line[: len(shown)])}]" for line in lines if line]
    return fenced(
        [
            "xychart-beta",
            f'  title "{label(title)}"',
            f"  x-axis [{names}]",
            f'  y-axis "{label(unit)}" 0 --> {figure(max(highest, 1.0))}',
            *drawn,
        ]
    )


def flowchart(nodes: Sequence[str], edges: Sequence[tuple[int, int]]) -> str:
    """Boxes by their place in ``nodes``, arrows between them; edges over the limit are left out by the caller."""
    if len(edges) > MOST_EDGES:
        raise ValueError(f"{len(edges)} edges are more than viewers draw")
    boxes = [f'  n{index}["{label(text)}"]' for index, text in enumerate(nodes)]
    return fenced(["flowchart LR", *boxes, *(f"  n{a} --> n{b}" for a, b in edges)])
