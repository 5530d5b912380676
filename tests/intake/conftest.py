"""Files to read, and the reading of them."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from buildlog.errors import FileProblems
from buildlog.files import ReadReport, read_into
from buildlog.ledger import Ledger


@pytest.fixture
def written(tmp_path: Path) -> Callable[..., Path]:
    """``written("parts.csv", "code,name\\n…")``: a file in a folder of its own, of text or bytes."""

    def write(name: str, content: str | bytes) -> Path:
        path = tmp_path / "files" / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(content.encode() if isinstance(content, str) else content)
        return path

    return write


@pytest.fixture
def read(ledger: Ledger, written: Callable[..., Path]) -> Callable[..., ReadReport]:
    """``read("parts.csv", "code,name\\n…")``: writes a file and reads it into the ledger."""

    def read_file(name: str, content: str | bytes, **how: Any) -> ReadReport:
        return read_into(ledger, [written(name, content)], **how)

    return read_file


@pytest.fixture
def problems(ledger: Ledger, read: Callable[..., ReadReport]) -> Callable[..., tuple[tuple[int, str, str], ...]]:
    """What is wrong with a file, and proof that nothing was recorded."""

    def found(name: str, content: str | bytes, **how: Any) -> tuple[tuple[int, str, str], ...]:
        before = ledger.journal(1)
        with pytest.raises(FileProblems) as caught:
            read(name, content, **how)
        assert ledger.journal(1) == before
        return caught.value.problems

    return found


SHEET = """
# a build sheet
[[build]]
code = "LB"
name = "Lantern Beetle"

[[material]]
code = "ABS-BLACK"
name = "black"
polymer = "ABS"
price = 19.90

[[printer]]
code = "P1"
name = "large one"
class = "large"
bed_x = 300
bed_y = 300
bed_z = 400
"runs unattended" = true

[[assembly]]
code = "LEG"
name = "leg"
parent = "BEETLE"
paired = true
lead_side = "L"
lead_test = "KNEE"

[[assembly]]
code = "BEETLE"
name = "beetle"

[[part]]
code = "FL01"
name = "femur"
assembly = "LEG"
handed = true
"print time (h)" = 4.5
material = "ABS-BLACK"
"weight (kg)" = 0.0845

[[part]]
code = "FL02"
name = "tibia"
assembly = "LEG"
print_time = "2:30"
material = "any ABS"
grams = 40

[[fit-test]]
code = "KNEE"
name = "knee moves"
assembly = "LEG"
kind = "motion"

[[step]]
code = "GLUE1"
name = "bond"
assembly = "LEG"
kind = "bond"
minutes = 25
"handle after" = "24h"

[[milestone]]
code = "PARADE"
name = "parade"
kind = "event"
due = 2026-12-20T17:00:00
"by then" = ["BEETLE shown", "LEG L"]
"""


@pytest.fixture
def sheet() -> str:
    """A small build with one of most things."""
    return SHEET


@pytest.fixture
def built(read: Callable[..., ReadReport]) -> None:
    """The small build, read in."""
    read("lb.toml", SHEET)
