"""The scripts that make README and pictures, and the folder in which the sections about the demo work."""

import sys
from pathlib import Path
from types import ModuleType

import pytest

sys.path.insert(0, str(Path(__file__).parent))  # the scripts import each other as they do when they are run


@pytest.fixture(scope="session")
def readme() -> ModuleType:
    """make_readme.py"""
    import make_readme

    return make_readme


@pytest.fixture(scope="session")
def pictures() -> ModuleType:
    """make_pictures.py"""
    import make_pictures

    return make_pictures


@pytest.fixture(scope="session")
def text(readme: ModuleType) -> str:
    """README.md as it stands."""
    return readme.README.read_text("utf-8")


@pytest.fixture(scope="session")
def demo_folder(readme: ModuleType, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder in which the demo was laid with the README's own line."""
    folder = tmp_path_factory.mktemp("demo")
    with readme.at_home_in(folder):
        laid = readme.ran(readme.LAYS_DEMO)
    assert laid.exit_code == 0, laid.talk
    return folder
