import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def project() -> dict[str, Any]:
    """pyproject.toml as it stands."""
    return tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))


@pytest.fixture(scope="session")
def folders(project: dict[str, Any]) -> dict[str, Path]:
    """Every top folder that the wheel maps into the package, by package name."""
    return {name: ROOT / folder for name, folder in project["tool"]["setuptools"]["package-dir"].items()}


@pytest.fixture(scope="session")
def wheel_names(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    """Names of the files in a wheel built from a copy of the checkout; built once, some ten seconds."""
    copy, out = tmp_path_factory.mktemp("checkout"), tmp_path_factory.mktemp("wheel")
    tracked = ("buildlog", "migrations", "demo_db", "shared", "pyproject.toml", "README.md", "LICENSE")
    subprocess.run(["cp", "-r", *(str(ROOT / name) for name in tracked), str(copy)], check=True)
    command = [sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "--disable-pip-version-check"]
    built = subprocess.run([*command, "-w", str(out), str(copy)], capture_output=True, text=True, check=False)
    assert built.returncode == 0, built.stderr
    (wheel,) = out.glob("buildlog-*.whl")
    with zipfile.ZipFile(wheel) as archive:
        return set(archive.namelist())
