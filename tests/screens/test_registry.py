"""The screens by name."""

import subprocess
import sys

from buildlog.screens.registry import HOMES, MODES


def test_every_screen_is_loaded_before_it_is_shown() -> None:
    # in a program of its own: here the other tests have loaded them
    code = "import sys; from buildlog.screens.registry import load_screens; load_screens(); print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = set(done.stdout.split())
    assert {f"buildlog.screens.{mode}" for mode in MODES} <= loaded
    assert {f"buildlog.screens.{mode}_rows" for mode in MODES} <= loaded


def test_what_is_at_home_somewhere_is_at_home_on_a_screen_that_there_is() -> None:
    assert set(HOMES.values()) <= set(MODES)
