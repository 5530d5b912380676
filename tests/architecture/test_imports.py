"""What is loaded when a part of the program is imported, seen in a process of its own."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]

SCREEN = {"textual"}
WRITING = {"sqlalchemy", "sqlmodel", "alembic", "pydantic"}


def _modules(*names: str) -> list[str]:
    """Every module of these packages and modules below buildlog."""
    found = []
    for name in names:
        place = ROOT / "buildlog" / name.replace(".", "/")
        files = sorted(place.rglob("*.py")) if place.is_dir() else [place.with_suffix(".py")]
        for file in files:
            parts = file.relative_to(ROOT).with_suffix("").parts
            found.append(".".join(parts[:-1] if parts[-1] == "__init__" else parts))
    return found


def _loaded_with(modules: list[str]) -> set[str]:
    """Names in sys.modules after importing them all, in a fresh interpreter."""
    program = "".join(f"import {module}\n" for module in modules) + "import sys\nprint(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return set(done.stdout.split())


def test_commands_start_without_screens_and_without_the_writing_side() -> None:
    assert _loaded_with(["buildlog.commands"]) & (SCREEN | WRITING) == set()


def test_no_command_module_loads_screens_or_the_writing_side_when_imported() -> None:
    assert _loaded_with(_modules("commands")) & (SCREEN | WRITING) == set()


def test_the_reading_side_runs_without_sqlalchemy_and_textual() -> None:
    reading = _modules("terms", "errors", "locations", "reference", "methods", "facts", "proposals")
    reading += _modules("status", "intake", "report", "record.reader", "ledger")
    assert _loaded_with(reading) & (SCREEN | WRITING) == set()


def test_the_writing_side_runs_without_textual() -> None:
    assert _loaded_with(_modules("record")) & SCREEN == set()


def test_the_screens_are_imported_without_the_writing_side() -> None:
    # the first frame comes before SQLAlchemy, which takes longer to load than Textual
    assert _loaded_with(_modules("screens")) & WRITING == set()


def test_methods_load_nothing_of_ours() -> None:
    methods = _modules("methods")
    ours = {name for name in _loaded_with(methods) if name.split(".")[0] == "buildlog"}
    assert ours == {"buildlog", *methods}


def test_nothing_but_the_screens_is_loaded_on_the_way_to_the_first_frame() -> None:
    loaded = _loaded_with(["buildlog.commands.entering", "buildlog.screens.app"])
    assert loaded & {"typer", "pydantic", "jinja2", "alembic", *WRITING} == set()
    assert {name for name in loaded if name.startswith(("buildlog.intake", "buildlog.report"))} == set()


def test_the_facts_are_loaded_after_the_first_frame() -> None:
    loaded = _loaded_with(["buildlog.commands.entering", "buildlog.screens.app", "buildlog.screens.today"])
    facts = {name for name in loaded if name.startswith(("buildlog.facts.", "buildlog.status."))}
    assert facts == {"buildlog.facts.frozen"}  # holds no facts: it declares classes, those of the screens too
