"""What the demo promises, counted in the record. All of it is invented."""

from collections import Counter
from dataclasses import fields
from itertools import pairwise
from typing import Any

import pytest

from buildlog.demo import demo_files, lay_demo
from buildlog.errors import Refused
from buildlog.facts.shot_state import ShotState
from buildlog.facts.slot_numbers import slot_sides
from buildlog.facts.snapshot import Snapshot
from buildlog.ledger import Ledger
from buildlog.status.blocker import BlockerKind
from buildlog.status.fit_judging import Verdict
from buildlog.status.shots import shots_standing
from buildlog.status.status import Status, take_stock
from buildlog.terms import FitOutcome, JobState, MilestoneKind, minutes_between

LONGEST_FILE = 1600
FILMING = (BlockerKind.FILM_FIRST,)


@pytest.fixture(scope="session")
def held(demo: Ledger) -> Snapshot:
    return demo.snapshot()


@pytest.fixture(scope="session")
def status(demo: Ledger, held: Snapshot) -> Status:
    return take_stock(held, demo.now())


def slots_of(held: Snapshot) -> int:
    return sum(
        len(slot_sides(usage.side_rule, usage.quantity, position.side, held.part[usage.part_id].handed))
        for position in held.positions
        for usage in held.usages
        if usage.assembly_id == position.assembly_id and usage.ended_at is None
    )


def coded(rows: Any, code: str) -> Any:
    return next(row for row in rows if row.code == code)


def test_the_laid_demo_passes_the_check_and_is_one_group(demo: Ledger) -> None:
    assert demo.check() == []
    assert len(demo.journal()) == 1


def test_it_is_laid_only_into_an_empty_ledger(demo: Ledger) -> None:
    with pytest.raises(Refused, match="ledger of its own"):
        lay_demo(demo)


def test_every_file_of_it_is_short_enough_for_a_person_to_have_written_it() -> None:
    for path in demo_files():
        assert len(path.read_text(encoding="utf-8").splitlines()) <= LONGEST_FILE, path.name


def test_it_has_two_builds_with_three_hundred_parts_and_usages_and_nine_hundred_slots(held: Snapshot) -> None:
    assert {build.code for build in held.builds} == {"LB", "DC"}
    assert len(held.parts) + len(held.usages) >= 290
    assert 850 <= slots_of(held) <= 1000


def test_it_has_four_materials_and_three_printers_of_which_one_is_down(held: Snapshot, status: Status) -> None:
    assert len(held.materials) == 4
    states = {machine.code: machine for machine in status.machines.printers}
    assert len(states) == 3
    assert [code for code, machine in states.items() if machine.set_up.is_down] == ["P3"]
    assert states["P3"].set_up.down_until is not None


def test_one_print_runs_and_one_waits_to_be_taken_off(demo: Ledger, status: Status) -> None:
    running = {m.code: m.running for m in status.machines.printers if m.running is not None}
    assert {code: job.past_end for code, job in running.items()} == {"P1": False, "P2": True}


def test_eighteen_episodes_are_closed_and_the_next_films_in_a_few_days_with_goals(
    demo: Ledger, held: Snapshot
) -> None:
    closed = [episode for episode in held.episodes if episode.closed_at is not None]
    (next_one,) = [episode for episode in held.episodes if episode.closed_at is None]
    assert len(closed) == 18
    assert 2 <= minutes_between(demo.now(), next_one.films_at) / 1440 <= 4
    assert [goal for goal in held.goals if goal.episode_id == next_one.id]


def test_the_parade_is_hard_and_six_to_seven_weeks_ahead(demo: Ledger, held: Snapshot) -> None:
    parade = coded(held.milestones, "PARADE")
    assert parade.hard
    assert parade.build_id is None
    assert 42 <= minutes_between(demo.now(), parade.due_at) / 1440 <= 49
    kinds = {milestone.kind for milestone in held.milestones}
    assert {MilestoneKind.REHEARSAL, MilestoneKind.FREEZE, MilestoneKind.TRANSPORT} <= kinds


def test_prints_failed_early_and_late_and_once_the_filament_ran_on(held: Snapshot) -> None:
    failed = [job for job in held.jobs if job.state is JobState.FAILED]
    assert len(failed) >= 12
    spans = [(job.started_at, job.stopped_at) for job in failed]
    hours = [minutes_between(start, stop) / 60 for start, stop in spans if start and stop]
    assert min(hours) < 1
    assert max(hours) > 5
    assert any(job.filament_ran_on for job in failed)
    assert any(job.restarts for job in held.jobs)


def test_prints_of_one_printer_do_not_overlap(held: Snapshot) -> None:
    by_printer: dict[int, list[tuple[str, str]]] = {}
    for job in held.jobs:
        if job.printer_id is not None and job.started_at is not None:
            by_printer.setdefault(job.printer_id, []).append((job.started_at, job.ended_at or "9"))
    for spans in by_printer.values():
        spans.sort()
        assert all(first[1] <= second[0] for first, second in pairwise(spans))


def test_one_usable_spool_only_is_below_nothing_by_the_record_and_not_far(status: Status) -> None:
    usable = [state for state in status.accounts.spools.values() if state.usable]
    (below,) = [state for state in usable if state.net_mg < 0]
    assert below.flagged
    assert below.net_mg > -60_000


def test_the_first_mandibles_are_superseded_and_the_old_pair_stands_in_on_the_right(held: Snapshot) -> None:
    for old, new in (("MD01", "MD11"), ("MD02", "MD12"), ("MD03", "MD13")):
        assert coded(held.parts, old).superseded_by_id == coded(held.parts, new).id
    standing = [fitting for fitting in held.fittings if fitting.until_at is None and fitting.stand_in]
    assert sum(fitting.lot_id is not None for fitting in standing) >= 3
    assert {"cardboard eye, painted", "hinge cut by hand from a bottle"} <= {fitting.what for fitting in standing}


def test_the_left_wing_case_leads_and_the_right_one_is_held(held: Snapshot, status: Status) -> None:
    wing = coded(held.assemblies, "WING")
    assert wing.lead_side == "L"
    progress = {
        position.side.value: status.progress.by_position[position.id] for position in held.positions_of[wing.id]
    }
    assert progress["R"].held > 0
    assert progress["L"].held == 0


def test_questions_are_open_and_fits_failed_and_went_stale(held: Snapshot, status: Status) -> None:
    assert len([q for q in held.questions if q.answered_at is None]) >= 3
    assert any(result.outcome is FitOutcome.FAILED for result in held.fit_results)
    verdicts = Counter(state.verdict for state in status.fits.all)
    assert verdicts[Verdict.STALE] >= 1
    assert verdicts[Verdict.FAILED] >= 1


def test_the_flexible_material_is_short_before_the_next_filming_day_and_more_is_on_order(
    held: Snapshot, status: Status
) -> None:
    flexible = coded(held.materials, "TPU-BLACK")
    assert status.stock.materials[flexible.id].weeks[0].left_mg < 0
    assert [order.code for order in held.orders if order.closed_at is None] == ["O-40"]


def test_some_assemblies_are_ready_some_one_sided_and_some_empty(held: Snapshot, status: Status) -> None:
    of = status.progress.by_position
    assert sum(p.ready for p in of.values()) >= 10
    assert sum(p.filled == 0 and p.slots > 0 for p in of.values()) >= 10
    legs = coded(held.assemblies, "LEGH")
    left, right = sorted(held.positions_of[legs.id], key=lambda position: position.side.value)
    assert of[left.id].ready
    assert not of[right.id].ready


def test_laid_at_another_moment_it_has_the_same_shape(demo: Ledger, another_demo: Ledger) -> None:
    def shape(ledger: Ledger) -> dict[str, int]:
        held = ledger.snapshot()
        rows = {f.name: getattr(held, f.name) for f in fields(held)}
        return {name: len(value) for name, value in rows.items() if isinstance(value, tuple)}

    assert shape(another_demo) == shape(demo)
    assert another_demo.check() == []


def test_shots_are_at_every_stage_one_is_carried_over_and_one_holds_a_step_that_cannot_be_undone(
    held: Snapshot, status: Status
) -> None:
    states = Counter(one.state for one in shots_standing(held, status.now))
    assert set(states) == set(ShotState)
    assert any(one.carried_over for one in shots_standing(held, status.now))
    first = {leaf.about.name for leaves in status.blockers.leaves.values() for leaf in leaves if leaf.kind in FILMING}
    assert len(first) == 1
    assert [q for q in held.viewer_questions if q.answered_at is None]
    assert [p for p in held.promises if p.kept_at is None]
