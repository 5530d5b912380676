"""From an action to the screen in view, in the app itself."""

import asyncio
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median

from result import Result

from buildlog.ledger import Ledger
from buildlog.proposals.spools import WeighSpool
from buildlog.screens.app import Buildlog


def measure_action(ledger: Path, name: str, target_ms: float, runs: int) -> Iterator[Result]:
    recorded, shown = asyncio.run(_act(ledger, runs))
    yield Result(f"action to row, {name}", recorded * 1000, None, "ms")
    yield Result(f"row to the screen in view, {name}", shown * 1000, target_ms, "ms")


async def _act(path: Path, runs: int) -> tuple[float, float]:
    """Seconds from a wish until its row is written, and from then until the screen in view shows it."""
    ledger = Ledger.open(path)
    app = Buildlog(ledger)
    recorded, shown = [], []
    async with app.run_test(size=(120, 40)):
        await _until(lambda: app.status is not None)
        spool = next(s for s in app.status.snapshot.spools if app.status.accounts.spools[s.id].usable)
        for run in range(runs + 1):
            before = app.status  # lets go of the one held since the last run, which takes a while
            began = time.perf_counter()
            await app.record(WeighSpool(spool=spool.code, gross=spool.tare_mg + 500_000 - run * 1000))
            written = time.perf_counter()
            await _until(lambda held=before: app.status is not held)
            painted = asyncio.Event()
            app.shown.call_after_refresh(painted.set)
            await painted.wait()
            recorded.append(written - began)
            shown.append(time.perf_counter() - written)
    ledger.close()
    return median(recorded[1:]), median(shown[1:])  # the first one loads what writing takes


async def _until(holds: Callable[[], bool]) -> None:
    while not holds():
        await asyncio.sleep(0.001)
