"""A whole week from an empty ledger, by keys alone at 80×24; what was recorded is looked at."""

from pathlib import Path
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.status.fits import Verdict
from buildlog.status.status import Status, take_stock
from buildlog.terms import JobState, Side


def stock_of(ledger: Ledger) -> Status:
    return take_stock(ledger.snapshot(), ledger.now())


LOOKS_IN_SECONDS = 1.5


class Week:
    """One walk: each method is something that a maker does, by the keys that do it."""

    def __init__(self, on: Any, ledger: Ledger, clock: Any) -> None:
        self.on, self.ledger, self.clock = on, ledger, clock

    async def answers_the_six_questions(self) -> None:
        await self.on.press("enter")
        for answer in (
            {"name": "Lantern Beetle"},
            {"name": "winter parade", "due": "2027-01-30 18:00"},
            {"name": "large bed", "bed_x": "350", "bed_y": "350", "bed_z": "400", "printer_class": "large bed"},
            {"polymer": "PETG", "colour": "black"},
            {"name": "foreleg"},
            {"name": "shin", "handed": "yes", "print_time": "3:00", "grams": "90"},
        ):
            await self.on.fill(answer)
            await self.on.press("enter")
        assert self.on.app.current_mode == "mirror", self.on.text

    async def adds(self, noun: str, **texts: str) -> None:
        """By the form of the noun, found by typing its name."""
        await self.on.press("ctrl+p")
        await self.on.write(f"{noun}: list")
        await self.on.press("enter a")
        await self.on.fill(texts)
        await self.on.press("enter")
        assert not self.on.app.screen.is_modal, self.on.text

    async def prepares_first_what_mirror_shows(self, code: str) -> None:
        """Enter on the first blocker: the form of the file that is wanted, its figures filled in."""
        await self.on.press("2 enter enter")
        await self.on.fill({"code": code})
        await self.on.press("enter")

    async def starts(self, file: str) -> None:
        """One of the likeliest files, by its number in the list; somebody stays near."""
        await self.on.press("1 s")
        line = next(line for line in self.on.lines if f"  {file} " in line and "LARGE-BED" in line and "ends" in line)
        await self.on.press(f"{line.split(file)[0].split()[-1]} 1")

    async def later(self, **span: float) -> None:
        """Until the screens have looked at the clock again."""
        self.clock.move_on(**span)
        await self.on.pilot.pause(LOOKS_IN_SECONDS)
        await self.on.settle()

    async def finishes(self) -> None:
        """All pieces good, when it should have been over."""
        await self.on.press("1 f 1")

    async def fails(self, **texts: str) -> None:
        await self.on.press("1 x")
        await self.on.fill(texts)
        await self.on.press("enter")

    async def weighs(self, grams: str) -> None:
        await self.on.press("1 w")
        if not self.on.app.screen.query("TypedEntry"):
            await self.on.press("1")
        await self.on.fill({"gross": grams})
        await self.on.press("enter")

    async def plans_an_episode(self) -> None:
        """With a goal in free words, and a shot."""
        await self.on.press("7 e 1")
        await self.on.fill({"films_at": "2026-11-28 14:00", "title": "the foreleg"})
        await self.on.press("enter a")
        await self.on.fill({"goals": "the foreleg turns"})
        await self.on.press("enter s")
        await self.on.fill({"what": "the toes go on"})
        await self.on.press("enter")

    async def films(self) -> None:
        """The shot, then its footage copied and looked at; the goal is reached."""
        await self.on.press("7 f enter c t")

    async def writes_and_closes(self, file: Path) -> None:
        """The week's text to a file; the next episode is planned with the closing."""
        await self.on.press("7 w")
        await self.on.fill({"path": str(file)})
        await self.on.press("enter x enter y")

    async def prints(self, file: str, hours: int) -> None:
        """From the start to the pieces in the hand."""
        await self.starts(file)
        await self.later(hours=hours)
        await self.finishes()

    async def ticks_the_first_step(self) -> None:
        """Of those that are open; done just now."""
        await self.on.press("1 t 1")
        if self.on.app.screen.is_modal:
            await self.on.press("enter")


@pytest.fixture
def week(ledger: Ledger, clock: Any) -> Any:
    return lambda on: Week(on, ledger, clock)


PRINTED = {
    "printer_class": "large bed",
    "material": "PETG-BLACK",
}


async def test_a_week_is_kept_from_an_empty_ledger_by_keys_alone(
    ledger: Ledger, clock: Any, screens: Any, week: Any, tmp_path: Path
) -> None:
    async with screens(ledger, size=(80, 24)) as on:
        maker = week(on)
        await maker.answers_the_six_questions()
        toe = {"quantity": "2", "print_time": "0:40", "material": "PETG-BLACK", "grams": "12"}
        await maker.adds("part", code="TOE", name="toe", **toe)
        await maker.adds("spool", code="PB1", material="PETG-BLACK", tare="200")
        await on.press("1 l 1")
        await maker.prepares_first_what_mirror_shows("F-SHIN-L")
        await maker.adds("print file", code="F-SHIN-R", lines="SHIN R", print_time="3:05", grams="90", **PRINTED)
        toes = {"lines": "TOE L x2, TOE R x2", "print_time": "2:40", "grams": "50"}
        await maker.adds("print file", code="F-TOES", **toes, **PRINTED)
        assert blocked(ledger) == {"not printed"}
        await maker.plans_an_episode()

        await maker.prints("F-SHIN-L", hours=4)
        await maker.starts("F-TOES")
        await maker.later(hours=1)
        await maker.fails(cause="came off the bed")
        await maker.prints("F-TOES", hours=4)
        await maker.prints("F-SHIN-R", hours=12)
        states = [JobState.FINISHED, JobState.FAILED, JobState.FINISHED, JobState.FINISHED]
        assert [job.state for job in ledger.snapshot().jobs] == states
        await maker.weighs("970")
        assert stock_of(ledger).accounts.spools[1].net_mg == 770_000
        assert blocked(ledger) == set()

        bolt = {"assembly": "FORELEG", "kind": "assemble", "bench_time": "0:25"}
        await maker.adds("step", code="BOLT", name="bolt the toes to the shin", **bolt)
        knee = {"assembly": "FORELEG", "parts": "SHIN, TOE", "kind": "motion"}
        await maker.adds("fit test", code="KNEE", name="toe turns on the shin", **knee)
        await maker.adds("question", code="Q1", text="How is the leg fixed to the frame?", holds="FORELEG")
        assert blocked(ledger) == {"step open", "question open"}
        for _ in Side.LEFT, Side.RIGHT:
            await maker.ticks_the_first_step()
        assert sorted(lot.mark for lot in fitted(ledger)) == MARKS
        await on.press("5 r 1 r 1")
        assert [state.verdict for state in stock_of(ledger).fits.all] == [Verdict.PASSED] * 2
        await on.press("2 a")
        await on.fill({"answer": "two bolts through the hip"})
        await on.press("enter")
        assert blocked(ledger) == set()
        assert "ready" in on.text
        await maker.films()
        await maker.writes_and_closes(tmp_path / "week.md")
    assert_the_week_is_told(ledger, tmp_path / "week.md")


def assert_the_week_is_told(ledger: Ledger, file: Path) -> None:
    snapshot = ledger.snapshot()
    assert [shot.safe_at is not None for shot in snapshot.shots] == [True]
    assert [goal.ticked_at is not None for goal in snapshot.goals] == [True]
    episodes = snapshot.episodes
    assert [(episode.number, episode.closed_at is not None) for episode in episodes] == [(1, True), (2, False)]
    text = file.read_text("utf-8")
    for told in WRITTEN:
        assert told in text
    assert ledger.check() == []


WRITTEN = (
    "the foreleg",
    "came off the bed",
    "bolt the toes to the shin",
    "two bolts through the hip",
    "the toes go on",
)
MARKS = ["SHINL-A", "SHINR-A", "TOEL-A", "TOEL-B", "TOER-A", "TOER-B"]


def blocked(ledger: Ledger) -> set[str]:
    """The kinds of all that holds anything."""
    return {leaf.kind.value for leaves in stock_of(ledger).blockers.leaves.values() for leaf in leaves}


def fitted(ledger: Ledger) -> list[Any]:
    """The pieces that stand in slots."""
    snapshot = ledger.snapshot()
    return [snapshot.lot[fitting.lot_id] for fitting in snapshot.fittings if fitting.lot_id is not None]
