"""Every ended print as the line of a print history that a reading makes the same print of.

All figures are said, so that a reading does not take those that a part or a file has by now; and «anyway», since
it did run, whatever printer and spool are like by now. Left out is what no line can say: which grams of a head
came from which spool when it was swapped.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from operator import attrgetter
from typing import Any

from buildlog.facts.pieces import Lot
from buildlog.facts.printing import Feed, Job, JobLine
from buildlog.facts.snapshot import Snapshot, grouped
from buildlog.intake import print_run
from buildlog.intake.csv_out import csv_rows, side_said
from buildlog.proposals.file_base import FileBase
from buildlog.proposals.lines import Ask, Line
from buildlog.proposals.outcomes import CameOut
from buildlog.terms import FigureOrigin, Grade, JobState, Side

ENDED = (JobState.FINISHED, JobState.FAILED)


def print_history(snapshot: Snapshot) -> str:
    """The list, in the order in which the prints were started."""
    return csv_rows(print_run.KIND, print_run.FIELDS, _ended_prints(snapshot).values())


def prints_held(snapshot: Snapshot) -> dict[tuple[str, str], FileBase]:
    """Each as if its line had been read, so that a history is not taken a second time where it came from."""
    found = {}
    for key, said in _ended_prints(snapshot).items():
        texts = {field.name: field.show(said.get(field.name)) for field in print_run.FIELDS}
        found[print_run.KIND, key] = FileBase({name: text for name, text in texts.items() if text}, {})
    return found


def _ended_prints(snapshot: Snapshot) -> dict[str, dict[str, Any]]:
    """What each line says, by what it is known by; of two that started at one moment the one that took longer."""
    order = attrgetter("started_at", "ended_at", "id")
    jobs = sorted((job for job in snapshot.jobs if job.state in ENDED), key=order)
    return {print_run.key_of(said["printer"], said["started"]): said for said in _told(snapshot, jobs)}


def _told(snapshot: Snapshot, jobs: list[Job]) -> Iterator[dict[str, Any]]:
    files = {file.id: file.code for file in snapshot.print_files if file.retired_at is None}
    spools: dict[int | None, str] = {spool.id: spool.code for spool in snapshot.spools}
    made = grouped((lot for lot in snapshot.lots if lot.parent_id is None), lambda lot: lot.job_line_id)
    for job in jobs:
        assert job.printer_id is not None
        heads, lines = _heads(snapshot, job), snapshot.lines_of_job[job.id]
        yield {
            "printer": snapshot.printer[job.printer_id].code,
            "started": job.started_at,
            "ended": job.ended_at,
            "outcome": print_run.FAILED if job.state is JobState.FAILED else print_run.FINISHED,
            "restarts": job.restarts,
            "unattended": job.unattended,
            "anyway": True,
            **_laid(snapshot, files, job, lines, heads),
            **_planned(snapshot, job, heads),
            "spools": tuple(spools[_spool_told(snapshot, job, feeds)] for feeds in heads.values()),
            **_figures(job, heads),
            "outcomes": tuple(_not_as_usual(snapshot, job, lines, made)),
            "cause": job.cause or next((line.cause for line in lines if line.cause), ""),
            **_failure(job),
        }


def _heads(snapshot: Snapshot, job: Job) -> dict[int, list[Feed]]:
    """The feeds of a print by head, each in the order of time."""
    ordered = sorted(snapshot.feeds_of_job[job.id], key=lambda feed: (feed.head, feed.from_at or "", feed.id))
    return grouped(ordered, lambda feed: feed.head)


def _laid(
    snapshot: Snapshot, files: Mapping[int, str], job: Job, lines: list[JobLine], heads: Iterable[int]
) -> dict[str, Any]:
    """The file, where it is in use and still lays down just that; else the lines."""
    said = {"purpose": lines[0].purpose.value}
    file_id = job.print_file_id
    if file_id is not None and file_id in files:
        of_file = snapshot.lines_of_file.get(file_id, ())
        same_heads = {tool.head for tool in snapshot.tools_of_file.get(file_id, ())} == set(heads)
        if same_heads and [*map(_what_of, of_file)] == [*map(_what_of, lines)]:
            return {**said, "file": files[file_id]}
    laid = (Line(snapshot.part[line.part_id].code, line.side, line.quantity) for line in lines if line.part_id)
    return {**said, "lines": tuple(laid), "what": lines[0].what}


def _what_of(line: Any) -> tuple[int | None, Side, int]:
    return line.part_id, line.side, line.quantity


def _planned(snapshot: Snapshot, job: Job, heads: dict[int, list[Feed]]) -> dict[str, Any]:
    """The estimates, by head."""
    said: dict[str, Any] = {"print_time": job.estimate_minutes, "estimate_from": job.estimate_from}
    for head, feeds in heads.items():
        first, ending = feeds[0], "" if head == 1 else f"_{head}"
        material = snapshot.material[first.material_id].code if first.material_id else None
        said[f"material{ending}"] = Ask(material, None if material else first.polymer)
        said[f"estimated_grams{ending}"] = sum(feed.part_mg for feed in feeds)
        said[f"support{ending}"] = sum(feed.support_mg for feed in feeds)  # a second head lays down none
        said[f"purge{ending}"] = sum(feed.purge_mg for feed in feeds)
    return said


def _spool_told(snapshot: Snapshot, job: Job, feeds: list[Feed]) -> int | None:
    """The first spool of a head that could have fed it all the time; a swapped one may have gone elsewhere."""
    for feed in feeds:
        others = (other for other in snapshot.feeds_of_spool[feed.spool_id] if other.job_id != job.id)
        if not any(_overlap(other, job) for other in others):
            return feed.spool_id
    return feeds[0].spool_id


def _overlap(feed: Feed, job: Job) -> bool:
    started, ended = job.started_at or "", job.ended_at or ""
    return feed.from_at is not None and feed.from_at < ended and (feed.to_at is None or started < feed.to_at)


def _figures(job: Job, heads: dict[int, list[Feed]]) -> dict[str, Any]:
    """What it really took and drew, where somebody said so; the rest a reading reckons as it was reckoned then."""
    said: dict[str, Any] = {}
    if job.real_from is not FigureOrigin.ESTIMATE:
        said = {"real_time": job.real_minutes, "figures_from": job.real_from}
    for name, feeds in zip(("grams", "grams_2"), heads.values(), strict=False):
        told = [feed.real_from for feed in feeds if feed.real_from not in (None, FigureOrigin.ESTIMATE)]
        if told:
            said |= {name: sum(feed.real_mg or 0 for feed in feeds), "figures_from": told[-1]}
    return said


def _not_as_usual(
    snapshot: Snapshot, job: Job, lines: list[JobLine], made: Mapping[int | None, list[Lot]]
) -> Iterator[CameOut]:
    """The pieces that did not come out as usual: good ones of a print that finished, scrap of one that failed."""
    usual = None if job.state is JobState.FAILED else Grade.GOOD
    counts: Counter[tuple[str, Side | None, Grade | None]] = Counter()
    for line in lines:
        if line.part_id is None:
            continue
        # what was no print of parts became no lots
        kept = [(lot.grade, lot.quantity) for lot in made.get(line.id, ())]
        kept = kept or [(Grade.GOOD, line.quantity - line.scrapped)]
        for grade, pieces in ((None, line.scrapped), *kept):
            counts[snapshot.part[line.part_id].code, side_said(line.side), grade] += pieces
    for (code, side, grade), pieces in counts.items():
        if pieces and grade is not usual:
            yield CameOut(code, side, pieces, grade)


def _failure(job: Job) -> dict[str, Any]:
    if job.state is not JobState.FAILED:
        return {}
    stopped = job.stopped_at if job.stopped_at != job.ended_at else None
    return {"went_wrong": job.went_wrong_at, "stopped": stopped, "ran_on": job.filament_ran_on}
