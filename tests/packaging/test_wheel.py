from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

pytestmark = pytest.mark.slow


def _files(folder: str) -> set[str]:
    return {
        f"buildlog/{folder}/{file.relative_to(ROOT / folder)}"
        for file in (ROOT / folder).rglob("*")
        if file.is_file() and "__pycache__" not in file.parts and "pictures" not in file.parts
    }


def test_the_wheel_holds_every_file_of_the_mapped_folders(wheel_names: set[str]) -> None:
    for folder in ("migrations", "demo_db", "shared"):
        assert _files(folder) - wheel_names == set(), folder


def test_the_wheel_holds_every_module_and_style(wheel_names: set[str]) -> None:
    source = {
        str(file.relative_to(ROOT))
        for pattern in ("*.py", "*.tcss", "py.typed")
        for file in (ROOT / "buildlog").rglob(pattern)
    }
    assert source - wheel_names == set()


def test_the_wheel_holds_nothing_but_the_package_and_its_papers(wheel_names: set[str]) -> None:
    strangers = {name for name in wheel_names if name.split("/")[0] != "buildlog" and ".dist-info/" not in name}
    assert strangers == set()
    assert not {name for name in wheel_names if name.endswith(".pyc") or "/pictures/" in name}
    assert any(name.endswith(".dist-info/licenses/LICENSE") for name in wheel_names)
