"""Prints what the program takes, as ratios measured in one run: `python tests/bench/run.py [--quick]`.

CPU time where one process is measured, the clock where a terminal is. Everything is measured several times, ours and
what it is compared with by turns, and the median is told. It passes no judgement in its exit status: what is over is
said in DEVELOPERS.md.
"""

import os
import platform
import shutil
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import big_ledger
from acting import measure_action
from changing import measure_change
from opening import measure_opening
from reading import measure_growth, measure_reading
from result import Result
from starting import measure_keys, measure_start

from buildlog.demo import lay_demo
from buildlog.ledger import Ledger

SIZES = (500, 5_000, 50_000)


def main(quick: bool) -> None:
    runs = 3 if quick else 9
    folder = Path(tempfile.mkdtemp(prefix="buildlog-bench-"))
    try:
        print(f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}", end="")
        print(f", load {os.getloadavg()[0]:.1f} at the start", flush=True)
        for result in _measure(folder, runs):
            print(result.line(), flush=True)
    finally:
        shutil.rmtree(folder)


def _measure(folder: Path, runs: int) -> Iterator[Result]:
    demo, big = folder / "demo.db", folder / "big.db"
    ledger = Ledger.open(demo)
    lay_demo(ledger)
    ledger.close()
    big_ledger.make(big)
    sizes = {pieces: big_ledger.make(folder / f"{pieces}.db", pieces) for pieces in SIZES}
    yield from measure_reading(big, runs)
    yield from measure_growth(sizes, runs)
    yield from measure_start(demo, "demo", 2.0, runs, with_frame=True)
    yield from measure_start(big, "big ledger", 3.0, runs, with_frame=False)
    yield from measure_keys(demo, "demo", 10 * runs)
    yield from measure_keys(big, "big ledger", 10 * runs)
    yield from measure_opening(demo, "demo", runs)
    yield from measure_action(demo, "demo", 150, runs)
    yield from measure_action(big, "big ledger", 600, runs)
    yield from measure_change(big)


if __name__ == "__main__":
    main("--quick" in sys.argv[1:])
