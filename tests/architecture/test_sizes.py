"""The budget of the house: a file is about one thing, a function fits a screen."""

import ast
from collections.abc import Iterator
from pathlib import Path
from statistics import median

import pytest

ROOT = Path(__file__).parents[2]
MOST_FILE_LINES = 350
MOST_FUNCTION_LINES = 50
MOST_CLASS_LINES = 200
MOST_METHODS = 20
MOST_APP_LINES = 100
MOST_MEDIAN_LINES = 130  # «near 100»

FUNCTIONS = (ast.FunctionDef, ast.AsyncFunctionDef)


def _files(*folders: str) -> list[Path]:
    return [file for folder in folders for file in sorted((ROOT / folder).rglob("*.py"))]


def _lines(node: ast.stmt) -> int:
    return (node.end_lineno or node.lineno) - node.lineno + 1


def _nodes(file: Path) -> Iterator[ast.stmt]:
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if isinstance(node, ast.stmt):
            yield node


def _name(file: Path, node: ast.stmt | None = None) -> str:
    place = str(file.relative_to(ROOT))
    return place if node is None else f"{place}:{node.lineno} {getattr(node, 'name', '')}"


def test_no_file_is_longer_than_the_budget() -> None:
    long = {
        _name(file): count
        for file in _files("buildlog", "tests", "migrations/env.py")
        if (count := len(file.read_text("utf-8").splitlines())) > MOST_FILE_LINES
    }
    assert long == {}


def test_the_median_file_is_near_a_hundred_lines() -> None:
    counts = [len(file.read_text("utf-8").splitlines()) for file in _files("buildlog")]
    assert median(count for count in counts if count) <= MOST_MEDIAN_LINES


def test_no_function_is_longer_than_a_screen() -> None:
    long = {
        _name(file, node): _lines(node)
        for file in _files("buildlog", "tests")
        for node in _nodes(file)
        if isinstance(node, FUNCTIONS) and _lines(node) > MOST_FUNCTION_LINES
    }
    assert long == {}


def test_no_class_is_longer_or_does_more_than_the_budget() -> None:
    large = {}
    for file in _files("buildlog", "tests"):
        for node in _nodes(file):
            if not isinstance(node, ast.ClassDef):
                continue
            methods = sum(isinstance(inner, FUNCTIONS) for inner in node.body)
            if _lines(node) > MOST_CLASS_LINES or methods > MOST_METHODS:
                large[_name(file, node)] = (_lines(node), methods)
    assert large == {}


def test_the_app_class_stays_below_a_hundred_lines() -> None:
    apps = {
        _name(file, node): _lines(node)
        for file in _files("buildlog/screens")
        for node in _nodes(file)
        if isinstance(node, ast.ClassDef)
        and any(getattr(getattr(base, "value", base), "id", "") == "App" for base in node.bases)
    }
    assert apps
    assert {name: lines for name, lines in apps.items() if lines >= MOST_APP_LINES} == {}


@pytest.mark.parametrize("word", ["manager", "helper", "util", "misc", "common"])
def test_no_module_has_a_name_that_says_nothing(word: str) -> None:
    assert [_name(file) for file in _files("buildlog") if word in file.stem] == []
