"""The screens by name."""

import subprocess
import sys

from buildlog.ledger import Ledger
from buildlog.screens.registry import HOMES, MODES

OPENS_ALL = """
import asyncio, sys
from pathlib import Path
from buildlog.ledger import Ledger
from buildlog.screens.app import Buildlog
from buildlog.screens.registry import MODES

async def loaded_late(path):
    ledger = Ledger.open(Path(path))
    app = Buildlog(ledger)
    async with app.run_test(size=(120, 40)) as pilot:
        while "buildlog.record.writer" not in sys.modules:  # what is loaded last once the data stands
            await pilot.pause(0.01)
        await app.workers.wait_for_complete()
        before = set(sys.modules)
        for mode in MODES:
            await app.action_go(mode)
            await pilot.pause()
            await app.workers.wait_for_complete()
        print(*sorted(set(sys.modules) - before))
    ledger.close()

asyncio.run(loaded_late(sys.argv[1]))
"""


def test_a_screen_that_is_shown_first_has_nothing_left_to_load(demo: Ledger) -> None:
    # in a program of its own: here the other tests have loaded it
    done = subprocess.run(
        [sys.executable, "-c", OPENS_ALL, str(demo.path)], capture_output=True, text=True, check=True
    )
    assert [name for name in done.stdout.split() if name.startswith("buildlog")] == []


SHOWS_TODAY = """
import asyncio, sys
from pathlib import Path
from buildlog.ledger import Ledger
from buildlog.screens import registry
from buildlog.screens.app import Buildlog

async def loaded_for_data(path):
    loaded = []
    registry.load_screens = lambda: loaded.extend(sys.modules)  # called once the data is on screen
    ledger = Ledger.open(Path(path))
    async with Buildlog(ledger).run_test(size=(120, 40)) as pilot:
        while not loaded:
            await pilot.pause(0.01)
    print(*loaded)
    ledger.close()

asyncio.run(loaded_for_data(sys.argv[1]))
"""


def test_today_shows_its_data_before_any_form_or_question_is_loaded(demo: Ledger) -> None:
    done = subprocess.run(
        [sys.executable, "-c", SHOWS_TODAY, str(demo.path)], capture_output=True, text=True, check=True
    )
    loaded = done.stdout.split()
    assert "buildlog.screens.today_rows" in loaded
    assert [
        name for name in loaded if name.startswith(("buildlog.proposals", "buildlog.screens.dialogs.question"))
    ] == []


def test_what_is_at_home_somewhere_is_at_home_on_a_screen_that_there_is() -> None:
    assert set(HOMES.values()) <= set(MODES)
