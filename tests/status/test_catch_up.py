"""What should have happened since the last entry, in which order, with which moments."""

from dataclasses import replace
from typing import Any

import pytest

from buildlog.facts.journal import WISH, JournalGroup
from buildlog.facts.printing import Feed, Job, SetUp
from buildlog.facts.stock import SpoolEntry
from buildlog.facts.story import Shot
from buildlog.proposals.fits import RecordFit
from buildlog.proposals.notes import AddNote
from buildlog.proposals.orders import ExpectOrder, ReceiveOrder
from buildlog.proposals.printers import PrinterUp
from buildlog.proposals.prints import FailPrint, FinishPrint, PrintRan, StartPrint
from buildlog.proposals.shots import FilmShot, FootageLost, FootageSafe
from buildlog.proposals.spools import WeighSpool
from buildlog.proposals.steps import ReopenStep, TickStep
from buildlog.status.catch_up import catch_up, last_entry_before
from buildlog.status.day_rhythm import when_up
from buildlog.status.due import Answer, Due
from buildlog.status.waits import how_many_wait
from buildlog.terms import FitKind, JobState, Moment, SetUpKind, SpoolEntryKind, StepKind, minutes_between

NOW = Moment("2026-11-25T12:00:00Z")
LEFT_AT = Moment("2026-11-18T20:00:00Z")  # Wednesday before, 21:00 at home


@pytest.fixture
def root(shop: Any) -> Any:
    return shop.assembly("ROOT", shop.build())


def dues(shop: Any, since: Moment = LEFT_AT, settled: frozenset[str] = frozenset()) -> tuple[Due, ...]:
    return catch_up(shop.status(NOW), since, settled)


def keys(found: tuple[Due, ...]) -> list[str]:
    return [due.key for due in found]


def run(shop: Any, started: str, minutes: int, **given: Any) -> Any:
    """A print that is on the record as running since then."""
    return shop.row(
        "jobs", Job, state=JobState.RUNNING, printer_id=1, started_at=Moment(started),
        estimate_minutes=minutes, name="claws", queued_at=Moment(started), **given,
    )  # fmt: skip


def queue(shop: Any, name: str, minutes: int, rank: int) -> Any:
    return shop.row(
        "jobs", Job, state=JobState.QUEUED, printer_id=1, estimate_minutes=minutes, name=name,
        queued_at=Moment("2026-11-18T10:00:00Z"), rank=rank,
    )  # fmt: skip


def test_a_print_past_its_end_ended_as_estimated_and_what_waited_followed_by_day(shop: Any, root: Any) -> None:
    shop.printer()
    run(shop, "2026-11-18T10:00:00Z", 600)  # by the usual ratio of 1.08 to 21:48 at home
    queue(shop, "second", 240, 1)
    queue(shop, "third", 600, 2)
    first, second, third = dues(shop)
    assert first.as_planned.asking is not None
    assert (first.as_planned.asking.kind, first.as_planned.asking.at) == (FinishPrint, "2026-11-18T20:48:00Z")
    assert first.told == "ended 18 Nov 21:48"
    # a quarter of an hour later by day: 22:03; the third waits for the morning
    assert (second.due_at, second.told) == (
        "2026-11-18T21:03:00Z",
        "began 18 Nov 22:03, ended Thu 02:22",
    )
    assert third.due_at == "2026-11-19T07:00:00Z"  # 08:00 at home
    asking = third.as_planned.asking
    assert asking is not None
    assert asking.filled({}) == StartPrint(job=3, printer="P0", ended=Moment("2026-11-19T17:48:00Z"))


def test_each_answer_of_a_print_says_what_it_records(shop: Any, root: Any) -> None:
    shop.printer()
    run(shop, "2026-11-18T10:00:00Z", 600)
    queue(shop, "second", 240, 1)
    first, second = dues(shop)
    assert first.failed.asking is not None
    assert first.failed.asking.kind is FailPrint
    assert {"cause", "went_wrong", "outcomes"} <= set(first.failed.asking.asks)
    assert second.failed.asking is not None
    assert (second.failed.asking.kind, second.failed.asking.values["came_out"]) == (PrintRan, "failed")
    assert [due.reply(Answer.NOT_DONE).asking for due in (first, second)] == [None, None]
    assert first.reply(Answer.LATER).asking is None


def test_a_follower_that_should_still_run_is_started_without_an_end(shop: Any, root: Any) -> None:
    shop.printer()
    run(shop, "2026-11-25T00:00:00Z", 600)  # to 11:48 at home
    queue(shop, "second", 240, 1)
    _, second = dues(shop)
    assert second.told == "began 12:03, runs until 16:22"
    assert second.as_planned.asking is not None
    assert second.as_planned.asking.filled({}) == StartPrint(job=2, printer="P0")


def test_a_print_said_to_run_on_keeps_its_printer_and_one_that_never_began_makes_room(shop: Any, root: Any) -> None:
    shop.printer()
    run(shop, "2026-11-18T10:00:00Z", 600)
    queue(shop, "second", 240, 1)
    queue(shop, "third", 60, 2)
    assert keys(dues(shop, settled=frozenset({"print:1"}))) == []
    third = dues(shop, settled=frozenset({"print:2"}))[-1]
    assert (third.key, third.due_at) == ("print:3", "2026-11-18T21:03:00Z")


def test_a_queue_goes_on_where_a_printer_is_free_from_the_last_entry_on(shop: Any, root: Any) -> None:
    shop.printer()
    job = run(shop, "2026-11-18T10:00:00Z", 600)
    queue(shop, "second", 240, 1)
    before = dues(shop)[1].due_at
    shop.change("jobs", job, state=JobState.FINISHED, ended_at=Moment("2026-11-18T20:48:00Z"))
    (second,) = dues(shop)
    assert (second.key, second.due_at) == ("print:2", before)
    (second,) = dues(shop, since=Moment("2026-11-19T20:00:00Z"))
    assert second.due_at == "2026-11-19T20:15:00Z"
    assert dues(shop, since=Moment("2026-11-25T11:50:00Z")) == ()


def test_a_print_follows_on_the_printer_that_is_loaded_for_it(shop: Any, root: Any) -> None:
    printers = [shop.printer(), shop.printer()]
    red, blue = shop.material(), shop.material(code="PLA-BLUE", name="blue")
    for printer, material in zip(printers, (red, blue), strict=True):
        loaded = {"kind": SetUpKind.LOADED, "head": 1, "at": LEFT_AT}
        shop.row("set_ups", SetUp, printer_id=printer.id, spool_id=shop.spool(material).id, **loaded)
    for number in (1, 2):
        job = queue(shop, f"print {number}", 60, number)
        shop.change("jobs", job, printer_id=None)
        shop.row("feeds", Feed, job_id=job.id, head=1, material_id=blue.id, part_mg=1000)
    assert [(due.where, due.what) for due in dues(shop)] == [("P1", "print 1"), ("P1", "print 2")]


def test_nothing_begins_on_a_printer_that_is_down(shop: Any, root: Any) -> None:
    printer = shop.printer()
    run(shop, "2026-11-18T10:00:00Z", 600)
    queue(shop, "second", 240, 1)
    shop.down(printer)
    assert keys(dues(shop)) == ["print:1"]


def test_a_printer_past_its_day_is_asked_about_first(shop: Any, root: Any) -> None:
    until = Moment("2026-11-22T09:00:00Z")
    shop.down(shop.printer(), until)
    (due,) = dues(shop)
    assert (due.key, due.told) == ("printer:1", "up again Sun 10:00")
    assert due.as_planned.asking is not None
    assert (due.as_planned.asking.filled({}), due.as_planned.asking.at) == (PrinterUp(printer="P0"), until)


def test_a_parcel_past_its_day_came_then_or_is_expected_anew(shop: Any, root: Any) -> None:
    item = shop.bought(5)
    line = shop.order(item, 20, Moment("2026-11-23T11:00:00Z"))
    order = shop.change("orders", shop.rows["orders"][0], code="O-01")
    (due,) = dues(shop)
    assert (due.where, due.what, due.told) == ("O-01", "I0 ×20", "due Mon 23 Nov")
    assert due.as_planned.asking is not None
    assert due.as_planned.asking.filled({}) == ReceiveOrder(order="O-01")
    assert due.as_planned.asking.at == order.expected_at
    assert due.not_done.asking is not None
    assert due.not_done.asking.filled({}) == ExpectOrder(order="O-01", expected=Moment("2026-11-28T12:00:00Z"))
    shop.change("orders", order, expected_at=Moment("2026-11-26T11:00:00Z"))
    assert (line.quantity, dues(shop)) == (20, ())


def test_an_open_step_was_done_by_day_as_soon_as_it_could(shop: Any, root: Any) -> None:
    leg = shop.assembly("LEG", root)
    sand = shop.step(leg, StepKind.SAND, name="sand", bench_minutes=40)
    shop.step(leg, StepKind.PAINT, name="paint", bench_minutes=30)
    (due,) = dues(shop)
    assert (due.where, due.what) == ("LEG", "sand")
    # left at 21:00 at home: 40 minutes later
    assert (due.due_at, due.caution_key) == ("2026-11-18T20:40:00Z", "sanding_dust")
    assert due.as_planned.asking is not None
    assert due.as_planned.asking.kind is TickStep
    assert due.failed.asking is not None
    assert due.failed.asking.kind is AddNote
    shop.tick(sand, shop.position(leg), at=Moment("2026-11-18T23:30:00Z"))  # half past midnight: next morning
    (after,) = dues(shop)
    assert (after.what, after.due_at) == ("paint", "2026-11-19T07:30:00Z")


def test_a_step_that_joins_pieces_waits_for_the_last_of_them(shop: Any, root: Any) -> None:
    leg = shop.assembly("LEG", root)
    shin, toe = shop.part("SHIN"), shop.part("TOE")
    shop.use(shin, leg), shop.use(toe, leg)
    shop.step(leg, StepKind.BOND, name="bond", bench_minutes=30)
    shop.lot(shin, made_at=Moment("2026-11-19T09:00:00Z"))
    assert keys(dues(shop)) == []
    shop.lot(toe, made_at=Moment("2026-11-20T09:00:00Z"))
    (due,) = dues(shop)
    assert due.due_at == "2026-11-20T09:30:00Z"
    assert due.told == "done Fri 10:30, open since 10:00"


def test_a_step_that_has_just_opened_is_not_asked_about(shop: Any, root: Any) -> None:
    leg = shop.assembly("LEG", root)
    shop.step(leg, StepKind.SAND, bench_minutes=40)
    assert dues(shop, since=Moment("2026-11-25T11:30:00Z")) == ()
    assert len(dues(shop, since=Moment("2026-11-25T11:20:00Z"))) == 1


def test_a_step_on_pieces_is_asked_about_once(shop: Any, root: Any) -> None:
    toe = shop.part("TOE")
    for code in ("LEG", "ARM"):
        shop.use(toe, shop.assembly(code, root))
    shop.step(toe, StepKind.PAINT, name="prime", bench_minutes=5)
    shop.lot(toe, 2, made_at=Moment("2026-11-20T09:00:00Z"))
    (due,) = dues(shop)
    assert (due.where, due.key) == ("TOE", "step:1-0")
    assert due.due_at == "2026-11-20T09:05:00Z"


def test_a_cure_that_nothing_goes_on_from_is_asked_whether_it_holds(shop: Any, root: Any) -> None:
    leg = shop.assembly("LEG", root)
    bond = shop.step(leg, StepKind.BOND, name="bond", load_after_minutes=24 * 60)
    shop.tick(bond, shop.position(leg), at=Moment("2026-11-18T12:00:00Z"))
    (due,) = dues(shop)
    assert (due.kind, due.told, due.as_planned.asking) == ("cure", "over Thu 13:00", None)
    assert due.failed.asking is not None
    assert due.failed.asking.kind is ReopenStep
    assert dues(shop, settled=frozenset({due.key})) == ()
    assert dues(shop, since=Moment("2026-11-20T12:00:00Z")) == ()


def test_a_fit_is_asked_about_once_what_it_touches_is_there(shop: Any, root: Any) -> None:
    leg = shop.assembly("LEG", root)
    shin = shop.part("SHIN")
    usage = shop.use(shin, leg)
    shop.fit_test(leg, usage, kind=FitKind.ON_PERSON)
    assert dues(shop) == ()
    shop.fit(shop.lot(shin), shop.position(leg), usage, from_at=Moment("2026-11-21T09:00:00Z"))
    (due,) = dues(shop)
    assert (due.where, due.due_at, due.caution_key) == ("LEG", "2026-11-21T09:10:00Z", "on_person")
    assert due.as_planned.asking is not None
    passed = due.as_planned.asking.filled({})
    assert isinstance(passed, RecordFit)
    assert passed.outcome == "passed"


def test_a_spool_that_fed_prints_and_was_not_weighed_asks_for_the_scale(shop: Any, root: Any) -> None:
    shop.printer()
    spool = shop.spool(shop.material())
    job = run(shop, "2026-11-18T10:00:00Z", 600)
    ended = Moment("2026-11-18T21:00:00Z")
    shop.change("jobs", job, state=JobState.FINISHED, ended_at=ended)
    shop.row("feeds", Feed, job_id=job.id, head=1, spool_id=spool.id, from_at=job.started_at, to_at=ended,
             part_mg=100_000)  # fmt: skip
    (due,) = dues(shop)
    assert (due.key, due.what) == ("spool:1", "900 g ± 3.0 g by the book")
    assert due.as_planned.asking is not None
    assert (due.as_planned.asking.kind, due.as_planned.asking.asks) == (WeighSpool, ("gross",))
    shop.row("spool_entries", SpoolEntry, spool_id=spool.id, at=NOW, kind=SpoolEntryKind.WEIGHED, gross_mg=1_100_000)
    assert dues(shop) == ()


def test_a_shot_of_a_filming_day_that_is_over_was_filmed_then_and_its_footage_copied(shop: Any, root: Any) -> None:
    films_at = Moment("2026-11-21T13:00:00Z")
    episode = shop.episode(shop.rows["builds"][0], films_at)
    shot = shop.row("shots", Shot, code="S-01", build_id=1, episode_id=episode.id, what="the jaw opens")
    (due,) = dues(shop)
    assert (due.where, due.what, due.told) == ("S-01", "film the jaw opens", "filmed Sat 14:00")
    assert due.as_planned.asking is not None
    assert (due.as_planned.asking.filled({}), due.as_planned.asking.at) == (FilmShot(shot="S-01"), films_at)
    shop.change("shots", shot, filmed_at=films_at)
    (due,) = dues(shop)
    assert due.told == "copied Sat 15:00"
    assert due.as_planned.asking is not None
    assert due.as_planned.asking.filled({}) == FootageSafe(shot="S-01")
    assert due.failed.asking is not None
    assert due.failed.asking.filled({}) == FootageLost(shot="S-01")


def test_a_shot_of_a_coming_filming_day_is_not_asked_about(shop: Any, root: Any) -> None:
    episode = shop.episode(shop.rows["builds"][0], Moment("2026-11-28T13:00:00Z"))
    shop.row("shots", Shot, code="S-01", build_id=1, episode_id=episode.id, what="the jaw opens")
    assert dues(shop) == ()


def test_a_shot_that_holds_a_step_is_asked_about_before_it(shop: Any, root: Any) -> None:
    step = shop.step(shop.assembly("LEG", root), StepKind.SAND, name="sand", cannot_be_undone=True)
    shot = shop.row("shots", Shot, code="S-01", build_id=1, what="the raw seam", step_id=step.id)
    (due,) = dues(shop)
    assert (due.key, due.what) == ("shot:1", "film the raw seam, before «sand»")
    filmed, safe = Moment("2026-11-20T09:00:00Z"), Moment("2026-11-20T11:00:00Z")
    shop.change("shots", shot, filmed_at=filmed, safe_at=safe)
    (due,) = dues(shop)
    assert (due.what, due.told) == ("sand", "done Fri 12:30, open since 12:00")


def test_today_counts_only_what_the_record_is_sure_of(shop: Any, root: Any) -> None:
    shop.step(shop.assembly("LEG", root), StepKind.SAND)
    shop.order(shop.bought(5), 20, Moment("2026-11-23T11:00:00Z"))
    shop.printer()
    run(shop, "2026-11-18T10:00:00Z", 600)
    queue(shop, "second", 240, 1)
    assert how_many_wait(shop.status(NOW)) == 3


def group(number: int, recorded: str, at: str = "", action: str = "add_note") -> JournalGroup:
    return JournalGroup(number, Moment(recorded), Moment(at or recorded), action, "", "", "", WISH, None)


def test_the_last_entry_is_the_one_before_this_sitting() -> None:
    week_ago = group(1, "2026-11-18T20:00:00Z")
    sitting = [group(3, "2026-11-25T11:00:00Z"), group(2, "2026-11-25T08:30:00Z")]
    assert last_entry_before([*sitting, week_ago], NOW) == week_ago.recorded_at
    assert last_entry_before([week_ago], NOW) == week_ago.recorded_at
    assert last_entry_before([], NOW) == NOW
    assert last_entry_before(sitting, NOW) == "2026-11-25T08:30:00Z"


def test_catching_up_that_was_broken_off_goes_on_from_the_last_moment_told() -> None:
    week_ago = group(1, "2026-11-18T20:00:00Z")
    broken_off = [
        group(4, "2026-11-25T07:05:00Z", "2026-11-20T09:00:00Z"),
        group(3, "2026-11-25T07:00:00Z", "2026-11-21T09:00:00Z"),
    ]
    assert last_entry_before([*broken_off, week_ago], NOW) == "2026-11-21T09:00:00Z"
    read_in = group(5, "2026-11-25T07:10:00Z", "2026-09-01T09:00:00Z", "several")
    assert last_entry_before([read_in, *broken_off, week_ago], NOW) == "2026-11-25T07:10:00Z"


@pytest.mark.parametrize(
    ("at", "wanted"),
    [
        ("2026-11-18T20:00:00Z", "2026-11-18T20:00:00Z"),
        ("2026-11-18T22:30:00Z", "2026-11-19T07:00:00Z"),
        ("2026-11-19T02:00:00Z", "2026-11-19T07:00:00Z"),
    ],
)
def test_what_needs_a_person_waits_for_the_morning(shop: Any, at: str, wanted: str) -> None:
    assert when_up(Moment(at), shop.snapshot().settings) == wanted


def test_a_day_may_end_after_midnight(shop: Any) -> None:
    late = replace(shop.snapshot().settings, day_starts_minutes=600, day_ends_minutes=120)
    assert when_up(Moment("2026-11-19T00:30:00Z"), late) == "2026-11-19T00:30:00Z"  # 01:30 at home
    slept = when_up(Moment("2026-11-19T02:00:00Z"), late)
    assert minutes_between(Moment("2026-11-19T02:00:00Z"), slept) == 7 * 60
