"""What is on the printers stands on Today before the whole record is read and reckoned with."""

import asyncio
from threading import Event
from typing import Any

import pytest
from textual.pilot import Pilot

from buildlog.ledger import Ledger
from buildlog.screens.app import Buildlog
from buildlog.screens.keys import KEYS, Key, Scope

PATIENCE_SECONDS = 10


class LongLedger(Ledger):
    """One that takes its time to be read as a whole."""

    def __init__(self, *given: Any) -> None:
        super().__init__(*given)
        self.goes_on = Event()

    def snapshot(self, afresh: bool = False) -> Any:
        assert self.goes_on.wait(PATIENCE_SECONDS)
        return super().snapshot(afresh)


@pytest.fixture
def long_ledger(workshop: Ledger) -> Any:
    opened = LongLedger(workshop.path, workshop.backups, workshop.clock)
    yield opened
    opened.close()


def text_of(app: Buildlog) -> str:
    strips = app.screen._compositor.render_strips()
    return "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips)


async def until_seen(app: Buildlog, pilot: Pilot[None], words: str) -> str:
    async with asyncio.timeout(PATIENCE_SECONDS):
        while words not in text_of(app):
            await pilot.pause(0.01)
    return text_of(app)


async def test_the_machines_stand_while_the_rest_is_read(long_ledger: LongLedger) -> None:
    app = Buildlog(long_ledger)
    async with app.run_test(size=(120, 40)) as pilot:
        first = await until_seen(app, pilot, "Machines")
        assert app.status is None
        long_ledger.goes_on.set()
        whole = await until_seen(app, pilot, "Can be done now")
    big = next(line for line in first.splitlines() if "BIG" in line)
    assert "Both shins · A1 PLA-AMBER 440 g" in big
    assert big.endswith("since 10:00")
    assert "✗ down: fan" in first
    assert "reading the ledger" in first
    assert "done 20:" in whole
    assert "since 10:00" not in whole


@pytest.mark.parametrize(
    "key", [key for key in KEYS if {Scope.TODAY, Scope.LIST} & {*key.scopes}], ids=lambda k: k.id
)
async def test_no_key_of_today_trips_over_what_is_not_read_yet(long_ledger: LongLedger, key: Key) -> None:
    app, before = Buildlog(long_ledger), long_ledger.journal()
    async with app.run_test(size=(120, 40)) as pilot:
        await until_seen(app, pilot, "Machines")
        await pilot.press(*key.keys)
        await pilot.pause()
        await pilot.press("escape")
        long_ledger.goes_on.set()
        await until_seen(app, pilot, "Can be done now")
    assert long_ledger.journal() == before


@pytest.mark.parametrize(("keys", "then"), [((), "TWIN"), (("down", "down"), "OLD"), (("down", "up"), "TWIN")])
async def test_the_cursor_begins_on_what_comes_first_unless_it_was_moved(
    long_ledger: LongLedger, keys: tuple[str, ...], then: str
) -> None:
    app = Buildlog(long_ledger)
    async with app.run_test(size=(120, 40)) as pilot:
        first = await until_seen(app, pilot, "Machines")
        await pilot.press(*keys)
        long_ledger.goes_on.set()
        whole = await until_seen(app, pilot, "Can be done now")
    assert first.index("BIG") < first.index("TWIN")
    assert whole.index("TWIN") < whole.index("BIG")  # it is over
    assert f"▌ {then}" in whole


async def test_a_screen_that_is_gone_to_meanwhile_is_shown_when_all_is_read(long_ledger: LongLedger) -> None:
    app = Buildlog(long_ledger)
    async with app.run_test(size=(120, 40)) as pilot:
        await until_seen(app, pilot, "Machines")
        await pilot.press("3")
        long_ledger.goes_on.set()
        await until_seen(app, pilot, "done 20:")
        await pilot.press("1")
        await until_seen(app, pilot, "Can be done now")


async def test_a_ledger_without_printers_waits_for_all(ledger: Ledger) -> None:
    opened = LongLedger(ledger.path, ledger.backups, ledger.clock)
    app = Buildlog(opened)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause(0.2)
        assert "reading the ledger" in text_of(app)
        assert "Machines" not in text_of(app)
        opened.goes_on.set()
        await until_seen(app, pilot, "Nothing is on the record yet")
    opened.close()
