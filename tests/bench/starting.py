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
DOWN, UP = b"\x1b[B", b"\x1b[A"


def measure_start(ledger: Path, name: str, data_target: float, runs: int, with_frame: bool) -> Iterator[Result]:
    """The line above the keys names the ledger's file as soon as the data is on screen. Our modules are compiled
    beforehand, as those of the empty app were when they were installed.
    """
    compileall.compile_dir(buildlog.__path__[0], quiet=1)
    empty, frame, data, peak = [], [], [], []
    for _ in range(runs):
        with Terminal(EMPTY) as terminal:
            empty.append(terminal.seconds_until("nothing here"))
        with Terminal(BUILDLOG, {"BUILDLOG_LEDGER": str(ledger)}) as terminal:
            frame.append(terminal.seconds_until(FIRST_FRAME))
            data.append(terminal.seconds_until(ledger.name))
            terminal.settle()
        peak.append(terminal.peak_mb)
    base = median(empty)
    told = f"{median(frame) * 1000:.0f} ms to {base * 1000:.0f} ms"
    if with_frame:
        yield Result("first frame", median(frame) / base, 1.3, "×", told)
    told = f"{median(data) * 1000:.0f} ms to {base * 1000:.0f} ms"
    yield Result(f"data on screen, {name}", median(data) / base, data_target, "×", told)
    yield Result(f"peak memory, {name}", max(peak), 300, "MB")


def measure_keys(ledger: Path, name: str, presses: int) -> Iterator[Result]:
    """The cursor down and up a list, against a line of text that changes; both programs run at once."""
    with Terminal(EMPTY) as empty, Terminal(BUILDLOG, {"BUILDLOG_LEDGER": str(ledger)}) as ours:
        empty.seconds_until("nothing here")
        ours.seconds_until(ledger.name)
        for terminal in (empty, ours):
            terminal.settle()
            terminal.press(DOWN)
        took = [(empty.press(key), ours.press(key)) for _ in range(presses // 2) for key in (DOWN, UP)]
    base, here = (median(column) for column in zip(*took, strict=True))
    told = f"{here * 1000:.1f} ms to {base * 1000:.1f} ms"
    yield Result(f"key to repaint, {name}", here / base, 4.0, "×", told)
