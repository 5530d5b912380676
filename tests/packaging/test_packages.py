from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]


def _holding_python(folder: Path) -> set[Path]:
    return {file.parent for file in folder.rglob("*.py")}


def test_the_list_of_packages_equals_the_tree(project: dict[str, Any], folders: dict[str, Path]) -> None:
    # a package left out of the list still works in an editable install but is missing from the wheel
    in_tree = {
        ".".join((name, *found.relative_to(folder).parts))
        for name, folder in folders.items()
        for found in _holding_python(folder)
    }
    assert set(project["tool"]["setuptools"]["packages"]) == in_tree


def test_every_folder_with_python_is_a_package(folders: dict[str, Path]) -> None:
    bare = {
        found.relative_to(ROOT)
        for folder in folders.values()
        for found in _holding_python(folder)
        if not (found / "__init__.py").exists()
    }
    assert bare == set()


def test_tests_are_no_packages() -> None:
    assert list((ROOT / "tests").rglob("__init__.py")) == []
