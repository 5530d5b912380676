"""A week without an entry is caught up with by keys alone, and they are counted."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.lines import Line
from buildlog.proposals.lots import CountPart
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.nouns import Add, form_from_texts
from buildlog.proposals.orders import PlaceOrder
from buildlog.proposals.places import read_slot
from buildlog.proposals.printers import LoadSpool
from buildlog.proposals.prints import QueuePrint, StartPrint
from buildlog.proposals.slots import FitPiece
from buildlog.proposals.spools import ReceiveSpool, WeighSpool
from buildlog.terms import FitOutcome, JobState, Moment, Side, moment

SECONDS_PER_KEY = 1
SECONDS_PER_LINE = 10
"""Our assumption of somebody who does not type fast: a second a key, and ten to read a line and to remember."""
LINES_OF_THE_WEEK = 23
KEYS_OF_THE_WEEK = 118
"""Counted: all keys from the one that opens the screen on, every letter and figure typed among them. Seven prints, a
parcel, twelve steps, a fit and two weigh-ins stand there as lines; the eighth print is told by its form. At the
assumed speed that is six minutes.
"""
DELIVERY = timedelta(days=4)

BED = {"printer_class": "BIG", "bed_x": "350", "bed_y": "350", "bed_z": "400"}
BUILD = {"build": "LB"}
THINGS: tuple[tuple[str, dict[str, str]], ...] = (
    ("build", {"code": "LB", "name": "Lantern Beetle"}),
    ("supplier", {"code": "FIL", "name": "filament house", "lead_days": "4"}),
    ("material", {"code": "PLA-AMBER", "name": "Amber PLA", "polymer": "PLA", "supplier": "FIL"}),
    ("material", {"code": "ABS-BLACK", "name": "Black ABS", "polymer": "ABS", "supplier": "FIL"}),
    ("printer", {"code": "BIG", "name": "Big bed", **BED}),
    ("printer", {"code": "TWIN", "name": "Second one", **BED}),
    ("assembly", {"code": "BEETLE", "name": "Beetle", **BUILD}),
    ("assembly", {"code": "LEG", "name": "Leg", "parent": "BEETLE", "paired": "yes", **BUILD}),
    ("assembly", {"code": "WING", "name": "Wing", "parent": "BEETLE", "paired": "yes", **BUILD}),
    ("assembly", {"code": "HEAD", "name": "Head", "parent": "BEETLE", **BUILD}),
    ("part", {"code": "SHIN", "name": "Shin", "handed": "yes", "assembly": "LEG", **BUILD}),
    ("part", {"code": "TOE", "name": "Toe", "quantity": "2", "assembly": "LEG", **BUILD}),
    ("part", {"code": "PANEL", "name": "Wing panel", "handed": "yes", "assembly": "WING", **BUILD}),
    ("part", {"code": "CROWN", "name": "Crown", "quantity": "2", "assembly": "HEAD", **BUILD}),
    ("part", {"code": "VISOR", "name": "Visor", "assembly": "HEAD", **BUILD}),
    ("part", {"code": "BRIDGE", "name": "Nose bridge", "assembly": "HEAD", **BUILD}),
    ("step", {"code": "LEG-SAND", "name": "sand the leg", "assembly": "LEG", "kind": "sand", "bench_time": "20"}),
    ("step", {"code": "LEG-BOND", "name": "bond the leg", "assembly": "LEG", "kind": "bond", "bench_time": "30",
              "handle_after": "4:00"}),
    ("step", {"code": "LEG-PAINT", "name": "paint the leg", "assembly": "LEG", "kind": "paint", "bench_time": "40"}),
    ("step", {"code": "WING-JOIN", "name": "join the wing", "assembly": "WING", "kind": "assemble",
              "bench_time": "30"}),
    ("step", {"code": "WING-WIRE", "name": "wire the wing", "assembly": "WING", "kind": "wire", "bench_time": "45"}),
    ("step", {"code": "WING-PAINT", "name": "paint the wing", "assembly": "WING", "kind": "paint",
              "bench_time": "40"}),
    ("fit test", {"code": "NOSE", "name": "bridge sits flush", "assembly": "HEAD", "parts": "BRIDGE",
                  "kind": "look"}),
)  # fmt: skip
FILES = (
    ("F-SHIN-L", "SHIN L", "10:00", "PLA-AMBER", "180"),
    ("F-SHIN-R", "SHIN R", "10:00", "PLA-AMBER", "180"),
    ("F-PANELS", "PANEL L, PANEL R", "16:00", "PLA-AMBER", "300"),
    ("F-TOES", "TOE x4", "4:00", "ABS-BLACK", "80"),
    ("F-CROWN", "CROWN x2", "6:00", "ABS-BLACK", "90"),
    ("F-VISOR", "VISOR", "9:00", "ABS-BLACK", "200"),
    ("F-SPARE", "BRIDGE", "2:00", "ABS-BLACK", "20"),
)


@pytest.fixture
def left_alone(ledger: Ledger, clock: Any) -> Ledger:
    """Told on Wednesday at noon what runs and waits; a week later nothing else has been said."""
    clock.move_on(days=-7)
    read = moment_reader(ledger.now(), "Europe/Berlin")
    files = [
        ("print file", {"code": code, "name": code.removeprefix("F-").lower(), "printer_class": "BIG", "lines": lines,
                        "print_time": hours, "material": material, "grams": grams})
        for code, lines, hours, material, grams in FILES
    ]  # fmt: skip
    long_ago, ago = clock.ago(days=20), clock.ago
    forms = [form_from_texts(noun, texts, read) for noun, texts in (*THINGS, *files)]
    ledger.record_all([(Add(form), long_ago) for form in forms], "lay the week")
    for wish, at in (
        (ReceiveSpool(material="PLA-AMBER", codes=("A1",), tare=200_000), long_ago),
        (ReceiveSpool(material="ABS-BLACK", codes=("B1",), tare=200_000), long_ago),
        (LoadSpool(printer="BIG", spool="A1"), ago(days=5)),
        (LoadSpool(printer="TWIN", spool="B1"), ago(days=5)),
        (WeighSpool(spool="A1", gross=1_200_000), ago(days=1)),
        (WeighSpool(spool="B1", gross=1_200_000), ago(days=1)),
        (CountPart(part="BRIDGE", pieces=1), ago(days=2)),
        (FitPiece(slot=read_slot("HEAD / BRIDGE")), ago(days=1)),
        (ordered(moment(clock() + DELIVERY)), ago(hours=2)),
        (StartPrint(printer="BIG", file="F-SHIN-L"), ago(hours=2)),
        (StartPrint(printer="TWIN", file="F-TOES"), ago(hours=1)),
        *((QueuePrint(printer="BIG", file=file), None) for file in ("F-SHIN-R", "F-PANELS")),
        *((QueuePrint(printer="TWIN", file=file), None) for file in ("F-CROWN", "F-VISOR", "F-SPARE")),
    ):  # fmt: skip
        ledger.record(wish, at)
    clock.move_on(days=7)
    return ledger


def ordered(expected: Moment) -> PlaceOrder:
    return PlaceOrder(code="O-01", lines=(Line("ABS-BLACK", quantity=2),), expected=expected)


class Counted:
    """Presses keys on the screens, and counts them; what is typed counts each letter."""

    def __init__(self, on: Any) -> None:
        self._on = on
        self.keys = 0

    async def press(self, keys: str) -> None:
        self.keys += len(keys.split())
        await self._on.press(keys)

    async def type(self, text: str) -> None:
        self.keys += len(text)
        await self._on.type(text)


FAILURES = {"crown": ("came off", "Wed 20:00", "CROWN x1 salvage"), "visor": ("jam", "Thu 12:00", "")}
WEIGHED = {"A1": "420", "B1": "610"}


async def answer(week: Counted, due: Any) -> None:
    """As somebody who knows what happened: all went as planned but for two prints; the scale says the rest."""
    if due.kind == "spool":
        await week.press("y")
        await week.type(WEIGHED[due.where])
        await week.press("enter")
    elif due.what in FAILURES:
        cause, when, kept = FAILURES[due.what]
        await week.press("x")
        await week.type(cause)
        await week.press("down")
        await week.type(when)
        await week.press("down")
        await week.type(kept)
        await week.press("enter")
    else:
        await week.press("y")


async def tell_the_reprint(week: Counted) -> None:
    """Nobody had queued it: a visor from Friday evening to Saturday morning on TWIN."""
    await week.press("a 1")
    for typed in ("Fri 20:00", "F-VISOR", "", "TWIN", "Sat 5:30"):
        await week.type(typed)
        await week.press("down" if typed != "Sat 5:30" else "enter")


async def test_a_week_is_caught_up_with_by_keys_alone_within_ten_minutes(left_alone: Ledger, screens: Any) -> None:
    lines = 0
    async with screens(left_alone) as on:
        week = Counted(on)
        await week.press("0")
        while (due := on.app.shown.due_here) is not None:
            lines += 1
            await answer(week, due)
            assert on.app.shown.due_here != due, on.text
        await tell_the_reprint(week)
        assert "Nothing waits: the ledger is up to date." in on.text
    assert (lines, week.keys) == (LINES_OF_THE_WEEK, KEYS_OF_THE_WEEK)
    told = lines + 1
    assert (week.keys * SECONDS_PER_KEY + told * SECONDS_PER_LINE) / 60 < 10

    snapshot = left_alone.snapshot()
    states = [job.state for job in snapshot.jobs]
    assert (len(states), states.count(JobState.FAILED), states.count(JobState.FINISHED)) == (8, 2, 6)
    crown = next(job for job in snapshot.jobs if job.name == "crown")
    assert (crown.cause, crown.went_wrong_at) == ("came off", "2026-11-18T19:00:00Z")
    reprint = snapshot.jobs[-1]
    assert (reprint.started_at, reprint.ended_at) == ("2026-11-20T19:00:00Z", "2026-11-21T04:30:00Z")
    panels = next(job for job in snapshot.jobs if job.name == "panels")
    assert (panels.started_at, panels.ended_at) == ("2026-11-19T08:06:00Z", "2026-11-20T01:23:00Z")
    assert len(snapshot.steps_done) == 12
    assert all(tick.at < left_alone.now() and not tick.overruled for tick in snapshot.steps_done)
    legs = {
        (p.side, f.lot_id is not None) for f in snapshot.fittings for p in snapshot.positions if p.id == f.position_id
    }
    assert {(Side.LEFT, True), (Side.RIGHT, True)} <= legs
    assert [result.outcome for result in snapshot.fit_results] == [FitOutcome.PASSED]
    assert snapshot.orders[0].closed_at == snapshot.orders[0].expected_at
    weighed = [entry.gross_mg for entry in snapshot.spool_entries if entry.at == left_alone.now()]
    assert sorted(mg for mg in weighed if mg) == [420_000, 610_000]
    assert left_alone.check() == []
