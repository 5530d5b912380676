"""Start, keys and memory of the real program in a real terminal, beside an empty Textual app."""

import compileall
import sys
from collections.abc import Iterator
from pathlib import Path
from statistics import median

from result import Result
from terminal import Terminal

import buildlog

EMPTY = (sys.executable, str(Path(__file__).with_name("empty_app.py")))
BUILDLOG = (str(Path(sys.executable).with_name("buildlog")),)
FIRST_FRAME = "reading the ledger"
FIRST_DATA = "Machines"
"""The heading over what is on each printer."""
ALL_DATA = "Can be done now"
"""The heading of what comes last on Today."""
DOWN, UP = b"\x1b[B", b"\x1b[A"


def measure_start(ledger: Path, name: str, data_target: float, runs: int, with_frame: bool) -> Iterator[Result]:
    """What is on each printer is there first, then the rest of Today at once. Our modules are compiled beforehand, as
    those of the empty app were when they were installed.
    """
    compileall.compile_dir(buildlog.__path__[0], quiet=1)
    empty, frame, data, whole, peak = [], [], [], [], []
    for _ in range(runs):
        with Terminal(EMPTY) as terminal:
            empty.append(terminal.seconds_until("nothing here"))
        with Terminal(BUILDLOG, {"BUILDLOG_LEDGER": str(ledger)}) as terminal:
            frame.append(terminal.seconds_until(FIRST_FRAME))
            data.append(terminal.seconds_until(FIRST_DATA))
            whole.append(terminal.seconds_until(ALL_DATA))
            terminal.settle()
        peak.append(terminal.peak_mb)
    base = median(empty)

    def beside(what: str, took: list[float], target: float | None) -> Result:
        told = f"{median(took) * 1000:.0f} ms to {base * 1000:.0f} ms"
        return Result(what, median(took) / base, target, "×", told)

    if with_frame:
        yield beside("first frame", frame, 1.3)
    yield beside(f"data on screen, {name}", data, data_target)
    yield beside(f"all of Today on screen, {name}", whole, None)
    yield Result(f"peak memory, {name}", max(peak), 300, "MB")


def measure_keys(ledger: Path, name: str, presses: int) -> Iterator[Result]:
    """The cursor down and up a list, against a line of text that changes; both programs run at once."""
    with Terminal(EMPTY) as empty, Terminal(BUILDLOG, {"BUILDLOG_LEDGER": str(ledger)}) as ours:
        empty.seconds_until("nothing here")
        ours.seconds_until(ALL_DATA)
        for terminal in (empty, ours):
            terminal.settle()
            terminal.press(DOWN)
        took = [(empty.press(key), ours.press(key)) for _ in range(presses // 2) for key in (DOWN, UP)]
    base, here = (median(column) for column in zip(*took, strict=True))
    told = f"{here * 1000:.1f} ms to {base * 1000:.1f} ms"
    yield Result(f"key to repaint, {name}", here / base, 4.0, "×", told)
