"""A refusal that only says no helps nobody: each message has a second half that says what to do instead."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import buildlog

SOURCES = sorted(Path(buildlog.__file__).parent.rglob("*.py"))
TOLD = {"Refused", "UndoRefused", "Conflict", "NoLedgerThere"}
"""Classes whose message is written where they are raised."""
LEAST_WORDS = 2


def messages(path: Path) -> Iterator[tuple[int, str]]:
    """Line and text of each message written there; what is filled in stands as {}."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        raised = node.exc if isinstance(node, ast.Raise) else None
        if isinstance(raised, ast.Call) and ast.unparse(raised.func) in TOLD and raised.args:
            text = _text(raised.args[0])
            if text:
                yield node.lineno, text


def _text(message: ast.expr) -> str:
    if isinstance(message, ast.Constant):
        return str(message.value)
    if isinstance(message, ast.JoinedStr):
        return "".join(str(part.value) if isinstance(part, ast.Constant) else "{}" for part in message.values)
    return ""


def says_what_to_do(text: str) -> bool:
    """After a colon, a semicolon or a full stop there are words more."""
    halves = text.rstrip(".").replace("; ", ": ").replace(". ", ": ").split(": ")
    return len(halves) > 1 and (halves[-1] == "{}" or len(halves[-1].split()) >= LEAST_WORDS)


def test_a_bare_no_is_found() -> None:
    assert not says_what_to_do("{} is kept since {}.")
    assert says_what_to_do("{} is kept since {}: undo that first.")


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: str(path.relative_to(SOURCES[0].parents[0])))
def test_every_refusal_says_what_to_do_instead(path: Path) -> None:
    assert [f"line {line}: {text}" for line, text in messages(path) if not says_what_to_do(text)] == []
