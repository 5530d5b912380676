"""What was done in a stretch of time, told from dated facts alone, so that it can be told again at any time."""

from collections import Counter
from collections.abc import Iterator
from functools import cache

from buildlog.facts.naming import part_name, position_name
from buildlog.facts.snapshot import Snapshot
from buildlog.report.goals import goals_reached
from buildlog.report.period import Period
from buildlog.report.story import story_told
from buildlog.report.supplied import what_came, what_was_ordered
from buildlog.status.notes import about_of, build_of
from buildlog.terms import JobState, Side
from buildlog.wording import hours


def what_was_done(snapshot: Snapshot, build_id: int, period: Period) -> list[tuple[str, list[str]]]:
    """(heading, lines) for every kind of thing that happened, none of them empty."""
    sections = (
        ("Goals reached", list(goals_reached(snapshot, build_id, period))),
        ("Printed", list(_printed(snapshot, build_id, period))),
        ("Went wrong", list(_failed(snapshot, build_id, period))),
        ("Worked on", list(_worked(snapshot, build_id, period))),
        ("Fitted", list(_fitted(snapshot, build_id, period))),
        ("Fits", list(_fits(snapshot, build_id, period))),
        ("Changed", list(_changed(snapshot, build_id, period))),
        ("Asked", list(_asked(snapshot, build_id, period))),
        ("Decided", list(_decided(snapshot, build_id, period))),
        *story_told(snapshot, build_id, period),
        ("Ordered", list(what_was_ordered(snapshot, period))),
        ("Came in", list(what_came(snapshot, period))),
        ("Notes", list(_notes(snapshot, build_id, period))),
    )
    return [(heading, lines) for heading, lines in sections if lines]


def _summed(counts: Counter[str]) -> Iterator[str]:
    for text, times in sorted(counts.items()):
        yield f"{text} ×{times}" if times > 1 else text


def _printed(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    made: Counter[str] = Counter()
    for lot in snapshot.lots:
        if not period.holds(lot.made_at):
            continue
        part = snapshot.part[lot.part_id]
        if lot.job_line_id and lot.parent_id is None and part.build_id == build_id:
            grade = "" if lot.grade.value == "good" else f" ({lot.grade.value})"
            made[f"{part.code} {part.name}{_of_side(lot.side)}{grade}"] += lot.quantity
    yield from _summed(made)


def _failed(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    for job in snapshot.jobs:
        if job.state is not JobState.FAILED or not period.holds(job.ended_at):
            continue
        codes = sorted(
            {
                part_name(snapshot, line.part_id, line.side)
                for line in snapshot.lines_of_job.get(job.id, ())
                if line.part_id is not None and snapshot.part[line.part_id].build_id == build_id
            }
        )
        if codes:
            ran = f" after {hours(job.real_minutes)}" if job.real_minutes else ""
            why = f": {job.cause}" if job.cause else ""
            yield f"{', '.join(codes)}{ran}{why}"


def _worked(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    steps = {step.id: step for step in snapshot.steps}
    lots = {lot.id: lot for lot in snapshot.lots}
    done: Counter[str] = Counter()
    for tick in snapshot.steps_done:
        if not period.holds(tick.at):
            continue
        if tick.position_id is not None:
            assembly = snapshot.assembly[snapshot.position[tick.position_id].assembly_id]
            if assembly.build_id == build_id:
                done[f"{position_name(snapshot, tick.position_id)}: {steps[tick.step_id].name}"] += 1
        elif tick.lot_id is not None and snapshot.part[lots[tick.lot_id].part_id].build_id == build_id:
            lot = lots[tick.lot_id]
            done[f"{part_name(snapshot, lot.part_id, lot.side)}: {steps[tick.step_id].name}"] += tick.pieces
    yield from _summed(done)


def _fitted(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    usages = {usage.id: usage for usage in snapshot.usages}
    # what a successor takes over with the slot goes on standing there: it was not fitted anew
    going_on = {(f.position_id, f.lot_id, f.what, f.until_at) for f in snapshot.fittings if f.lot_id or f.what}
    where = cache(lambda position_id: position_name(snapshot, position_id))  # many go to the same place
    found: Counter[str] = Counter()
    for fitting in snapshot.fittings:
        if not period.holds(fitting.from_at):
            continue
        part = snapshot.part[usages[fitting.usage_id].part_id]
        taken_over = (fitting.position_id, fitting.lot_id, fitting.what, fitting.from_at) in going_on
        if part.build_id == build_id and not taken_over:
            stand_in = " (stand-in)" if fitting.stand_in else ""
            found[f"{where(fitting.position_id)}: {fitting.what or part.name}{stand_in}"] += 1
    yield from _summed(found)


def _fits(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    tests = {test.id: test for test in snapshot.fit_tests}
    for result in snapshot.fit_results:
        test = tests[result.fit_test_id]
        if snapshot.assembly[test.assembly_id].build_id == build_id and period.holds(result.at):
            then = f", then {result.what_then.value}" if result.what_then else ""
            words = f" ({result.text})" if result.text else ""
            yield f"{position_name(snapshot, result.position_id)}: {test.name} {result.outcome.value}{then}{words}"


def _changed(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    first = {revisions[0].id for revisions in snapshot.revisions_of.values()}
    for revision in snapshot.revisions:
        part = snapshot.part[revision.part_id]
        if part.build_id == build_id and revision.id not in first and period.holds(revision.since_at):
            what = f": {revision.what_changed}" if revision.what_changed else ""
            yield f"{part.code} {part.name} is now revision {revision.letter}{what}"


def _asked(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    for question in snapshot.questions:
        if question.build_id == build_id and question.retired_at is None and period.holds(question.asked_at):
            yield f"{question.code} {question.text}"


def _decided(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    for question in snapshot.questions:
        if question.build_id == build_id and period.holds(question.answered_at):
            yield f"{question.text} — {question.answer}"


def _notes(snapshot: Snapshot, build_id: int, period: Period) -> Iterator[str]:
    """Notes on things of this build, and on what builds share."""
    for note in snapshot.notes:
        if period.holds(note.at) and build_of(snapshot, note.noun, note.row_id) in (None, build_id):
            about = "" if note.row_id is None else f"{about_of(snapshot, note.noun, note.row_id)}: "
            yield about + note.text + (f" (picture: {note.photo})" if note.photo else "")


def _of_side(side: Side) -> str:
    return {Side.LEFT: ", left", Side.RIGHT: ", right"}.get(side, "")
