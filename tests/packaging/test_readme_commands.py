""".ci/run takes the test command out of the README, so that the two cannot drift apart."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize(("heading", "last_word"), [("See it", "demo"), ("Test it", "pytest")])
def test_the_readme_has_one_command_on_one_line_under(heading: str, last_word: str) -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    section = re.search(rf"^## {heading}\n(.*?)(?=^## |\Z)", readme, re.MULTILINE | re.DOTALL)
    assert section is not None
    block = re.search(r"^```\w*\n(.*?)^```", section[1], re.MULTILINE | re.DOTALL)
    assert block is not None
    (command,) = block[1].splitlines()
    assert command.startswith("python3 -m venv .venv && ")
    assert command.endswith(last_word)
