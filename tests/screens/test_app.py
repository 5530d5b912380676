"""What works on all screens: the frame, the live Status, undo and redo, going about, and a ledger in trouble."""

import subprocess
import sys
from collections.abc import Callable
from typing import Any

import pytest
from textual.screen import ModalScreen

from buildlog.ledger import Ledger
from buildlog.proposals.prints import CancelPrint
from buildlog.screens.keys import SCREENS, Scope, in_force, keys_of
from buildlog.terms import JobState

LOOKS_IN_SECONDS = 2


def states(ledger: Ledger) -> list[str]:
    return [job.state.value for job in ledger.snapshot().jobs]


async def test_an_empty_ledger_leads_in(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger, size=(80, 24)) as on:
        for begin in ("six questions", "buildlog demo", "buildlog read", "buildlog add"):
            assert begin in on.text
        assert on.lines[0].startswith(" [1 Today]")
        for key in "1234":
            await on.press(key)
            assert [line for line in on.lines[:-2] if "build" in line and "…" in line] == []


async def test_another_programs_write_shows_within_two_seconds(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        assert [queued.job_id for queued in on.app.status.hours.queued] == [4]
        other = Ledger(workshop.path, workshop.backups, workshop.clock)
        other.record(CancelPrint(job=4))
        other.close()
        await on.pilot.pause(LOOKS_IN_SECONDS)
        assert on.app.status.hours.queued == ()


async def test_undo_says_what_it_takes_back_and_redo_puts_it_back(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("f 1")
        assert states(workshop)[2] == JobState.FINISHED
        await on.press("u")
        assert "Take this back?" in on.text
        assert "Finished" in on.text
        await on.press("y")
        assert states(workshop)[2] == JobState.RUNNING
        await on.press("ctrl+r")
        assert states(workshop)[2] == JobState.FINISHED
        await on.press("u y")
        assert states(workshop)[2] == JobState.RUNNING


async def test_undo_left_with_no_changes_nothing(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("f 1 u n")
        assert states(workshop)[2] == JobState.FINISHED


async def test_undo_takes_back_nothing_that_another_program_wrote(workshop: Ledger, screens: Any) -> None:
    before = states(workshop)
    async with screens(workshop) as on:
        await on.press("u")
        assert "Nothing was changed from here yet; t in 8 Journal takes back older ones." in on.text
    assert states(workshop) == before


async def test_number_keys_go_to_screens_and_esc_comes_back(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        for key, name in (("2", "mirror"), ("3", "prints"), ("4", "stock"), ("1", "today")):
            await on.press(key)
            assert on.app.current_mode == name
        await on.press("escape")
        assert on.app.current_mode == "today"
        assert "This is the first screen: q leaves" in on.text
        await on.press("2 3 escape")
        assert on.app.current_mode == "mirror"


async def test_the_help_tells_every_key_that_works_here(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(80, 100)) as on:
        await on.press("question_mark")
        assert all(key.tooltip[:40] in on.text for key in in_force(Scope.TODAY))
        await on.press("question_mark")
        assert not isinstance(on.app.screen, ModalScreen)


@pytest.mark.parametrize("scope", SCREENS)
async def test_no_key_of_a_screen_is_dead(workshop: Ledger, screens: Any, scope: Scope) -> None:
    async with screens(workshop) as on:
        await on.app.switch_mode(scope.name.lower())
        await on.settle()
        places = [on.app, on.app.shown, *on.app.shown.query("*")]
        for key in in_force(scope):
            action = key.action.partition("(")[0]
            found = [p for p in places if hasattr(p, f"action_{action}") or hasattr(p, f"_action_{action}")]
            assert found, key.id


@pytest.mark.parametrize(
    "scope", [Scope.TODAY, Scope.PRINTS, Scope.STOCK, Scope.FITS, Scope.JOURNAL, Scope.CATCH_UP]
)  # where nothing stands under the cursor, keys of the others say the same; each is pressed in a test of its screen
async def test_every_key_of_a_screen_shows_or_asks_something(workshop: Ledger, screens: Any, scope: Scope) -> None:
    async with screens(workshop) as on:
        await on.app.switch_mode(scope.name.lower())
        await on.settle()
        for key in keys_of(scope):
            if key.id == "unfold_alerts":  # so few alerts stand unfolded
                continue
            before = on.text
            await on.press(key.keys[0])
            assert on.text != before, key.id
            await on.press("escape")


async def test_finding_goes_to_a_named_thing(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("ctrl+p T W I N enter")
        assert on.app.current_mode == "prints"
        assert on.app.shown.cursor_key.startswith("printer:")


async def test_finding_does_what_a_key_does(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("ctrl+p l e a v i n g enter")
        assert on.app.screen.focused.name == "leaving"


async def test_a_refusal_says_why_and_records_nothing(workshop: Ledger, screens: Any) -> None:
    before = len(workshop.journal())
    async with screens(workshop) as on:
        await on.press("3 v 2 enter")
        assert "Head 1 asks for PLA-AMBER, B1 is ABS-BLACK" in on.text
        await on.press("enter")
    assert len(workshop.journal()) == before


async def test_a_ledger_that_cannot_be_written_says_so_and_is_read(
    workshop: Ledger, screens: Any, clock: Callable[[], Any]
) -> None:
    locked = Ledger(workshop.path, workshop.backups, clock)
    locked.why_read_only = "the file is write-protected"
    async with screens(locked) as on:
        assert "read only" in on.lines[1]
        await on.press("f 1")
        assert "can be read but not written" in on.text
        await on.press("enter")
    assert states(locked)[2] == JobState.RUNNING
    locked.close()


async def test_a_small_window_says_that_it_is_too_small(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(50, 12)) as on:
        assert "too small" in on.text
        await on.pilot.resize_terminal(80, 24)
        await on.settle()
        assert "Machines" in on.text


async def test_the_theme_changes_by_a_key(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        before = on.app.theme
        await on.press("ctrl+t")
        assert on.app.theme != before


async def test_without_colour_everything_is_still_said(
    workshop: Ledger, screens: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with screens(workshop) as on:
        assert "! over since" in on.text
        assert "✗ down: fan" in on.text


async def test_clock_times_move_on_by_themselves(workshop: Ledger, screens: Any, clock: Any) -> None:
    async with screens(workshop) as on:
        assert "done 20:" in on.text
        clock.move_on(hours=9)
        await on.pilot.pause(LOOKS_IN_SECONDS)
        assert sum("over since" in line for line in on.lines[3:8]) == 2


def test_the_first_frame_loads_neither_status_nor_forms_nor_the_writing_side() -> None:
    program = (
        "import sys, buildlog.screens.app, buildlog.screens.today\n"
        "late = ('buildlog.status', 'buildlog.proposals', 'buildlog.report', 'sqlalchemy', 'typer')\n"
        "print([name for name in sys.modules if name.startswith(late)])"
    )
    told = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"
