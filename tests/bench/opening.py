"""Each screen brought into view for the first time and again, beside an empty screen of an empty app."""

import asyncio
import time
from collections.abc import Awaitable, Callable, Iterator
from pathlib import Path
from statistics import median
from typing import Any

from result import Result
from textual.app import App, ComposeResult
from textual.screen import Screen
from textual.widgets import Static

from buildlog.ledger import Ledger
from buildlog.screens.app import Buildlog
from buildlog.screens.registry import FIRST, MODES

SIZE = (120, 40)


class Empty(Screen[None]):
    def compose(self) -> ComposeResult:
        yield Static("nothing here")


class EmptyApp(App[None]):
    MODES = {"first": Empty, "second": Empty}  # noqa: RUF012 - Textual declares it so
    DEFAULT_MODE = "first"


def measure_opening(path: Path, name: str, runs: int) -> Iterator[Result]:
    """By turns; the slowest screen is told, the others beside it."""
    empty: dict[str, list[float]] = {"first": [], "again": []}
    ours: dict[str, dict[str, list[float]]] = {}
    for _ in range(runs):
        first, again = asyncio.run(_open_empty())
        empty["first"].append(first)
        empty["again"].append(again)
        for mode, (first, again) in asyncio.run(_open_ours(path)).items():
            kept = ours.setdefault(mode, {"first": [], "again": []})
            kept["first"].append(first)
            kept["again"].append(again)
    for when in ("first", "again"):
        base = median(empty[when])
        ratios = sorted(((median(kept[when]) / base, mode) for mode, kept in ours.items()), reverse=True)
        told = ", ".join(f"{mode} {ratio:.1f}" for ratio, mode in ratios) + f" to {base * 1000:.0f} ms"
        what = "for the first time" if when == "first" else "again"
        yield Result(f"slowest screen opened {what}, {name}", ratios[0][0], 4.0, "×", told)


async def _open_empty() -> tuple[float, float]:
    app = EmptyApp()
    async with app.run_test(size=SIZE) as pilot:
        await pilot.pause()
        first = await _painted(app, lambda: app.switch_mode("second"))
        await _painted(app, lambda: app.switch_mode("first"))
        return first, await _painted(app, lambda: app.switch_mode("second"))


async def _open_ours(path: Path) -> dict[str, tuple[float, float]]:
    ledger = Ledger.open(path)
    app = Buildlog(ledger)
    took: dict[str, tuple[float, float]] = {}
    async with app.run_test(size=SIZE):
        await _rest(app)
        for mode in (mode for mode in MODES if mode != FIRST):
            first = await _painted(app, lambda to=mode: app.action_go(to))
            await _rest(app)
            await _painted(app, lambda: app.action_go(FIRST))
            await _rest(app)
            took[mode] = first, await _painted(app, lambda to=mode: app.action_go(to))
            await _rest(app)
    ledger.close()
    return took


async def _painted(app: App[Any], switch: Callable[[], Awaitable[Any]]) -> float:
    """Seconds until the screen has been painted after all that its coming into view set off."""
    began = time.perf_counter()
    await switch()
    painted = asyncio.Event()
    app.screen.call_after_refresh(painted.set)
    await painted.wait()
    return time.perf_counter() - began


async def _rest(app: Buildlog) -> None:
    """Until it waits for the person only."""
    while app.status is None:
        await asyncio.sleep(0.01)
    await asyncio.sleep(0.2)  # what it loads begins once the data has been painted
    while any(worker.is_running for worker in app.workers):
        await asyncio.sleep(0.01)
    await asyncio.sleep(0.2)
