"""How many print hours are left, on which printers, and what usually comes on top."""

from collections import defaultdict
from collections.abc import Iterable
from functools import cached_property
from itertools import repeat
from typing import TYPE_CHECKING

from buildlog.facts.frozen import frozen, frozen_with_late_answers
from buildlog.facts.snapshot import Snapshot
from buildlog.methods.print_hours import Spread, spread
from buildlog.status.ended_usages import ended_slots
from buildlog.status.job_hours import QueuedJob, RunningJob, queued_jobs, running_jobs
from buildlog.status.kept import Kept
from buildlog.status.learning import Learning
from buildlog.status.needs import Needs
from buildlog.status.piece_hours import PieceHours, PieceReckoner
from buildlog.status.printers_that_can import PrintersThatCan
from buildlog.status.set_up import settle_set_ups
from buildlog.status.slot import TO_GET, UNDER_WAY
from buildlog.terms import Moment, Origin, Side

if TYPE_CHECKING:
    from buildlog.status.failing import Failing
    from buildlog.status.on_top import OnTop

__all__ = [
    "Hours",
    "PieceHours",
    "PrinterSet",
    "QueuedJob",
    "RunningJob",
    "count_hours",
]

Key = tuple[int, Side]


@frozen
class PrinterSet:
    """Expected minutes that exactly these printers can take; no printers: what none can."""

    printer_ids: tuple[int, ...]
    running_minutes: int
    queued_minutes: int
    to_print_minutes: int

    @property
    def minutes(self) -> int:
        return self.running_minutes + self.queued_minutes + self.to_print_minutes


@frozen_with_late_answers
class Hours:
    """``pieces`` has every (part, side) that is printed and is or was asked for, to print or not; ``ready_file``
    those of them with a file for the current revision; ``no_figures`` are to print and nobody has said how long they
    take. ``position_minutes`` are the expected minutes of the slots to print or under way in a position itself (not
    below it), each slot once. Total, low and high are of all running, queued and to-print work; they, the sets and
    what comes on top are summed when they are first asked for.
    """

    running: tuple[RunningJob, ...]
    queued: tuple[QueuedJob, ...]
    pieces: dict[Key, PieceHours]
    ready_file: dict[Key, int]
    no_figures: tuple[Key, ...]
    position_minutes: dict[int, float]
    learning: Learning
    needs: Needs
    snapshot: Snapshot
    now: Moment

    @cached_property
    def sets(self) -> tuple[PrinterSet, ...]:
        return _sets(self.running, self.queued, self._to_print)

    @property
    def total_minutes(self) -> int:
        return round(self._whole.mean)

    @property
    def low_minutes(self) -> int:
        return round(self._whole.low)

    @property
    def high_minutes(self) -> int:
        return round(self._whole.high)

    @cached_property
    def on_top(self) -> "OnTop":
        from buildlog.status.on_top import usually_on_top  # for Prints only

        return usually_on_top(self.snapshot, self.needs, self.pieces, self.now)

    @cached_property
    def failing(self) -> "Failing":
        from buildlog.status.failing import share_failing  # for the answer alone

        return share_failing(self.snapshot, self.now)

    @cached_property
    def _whole(self) -> Spread:
        jobs: list[RunningJob | QueuedJob] = [*self.running, *self.queued]
        return _spread([*zip(jobs, repeat(1), strict=False), *self._to_print])

    @cached_property
    def _to_print(self) -> list[tuple[PieceHours, int]]:
        """Pieces, and how many of each are to print."""
        by_part = self.needs.by_part
        return [(piece, by_part[key].to_get) for key, piece in self.pieces.items() if key in by_part]

    @property
    def estimated_minutes(self) -> dict[Key, int]:
        """Minutes of one piece as estimated, without the learned ratio and failures."""
        return {key: round(piece.estimated_minutes) for key, piece in self.pieces.items()}


PIECES_READ = (
    "assemblies", "positions", "parts", "revisions", "demands", "usages", "materials", "printers",
    "print_files", "file_lines", "file_tools",
)  # fmt: skip


def count_hours(snapshot: Snapshot, now: Moment, needs: Needs, learning: Learning, kept: Kept | None = None) -> Hours:
    """Hours of running, queued and to-print work over all open builds; slots held on purpose are among them."""
    kept = kept or Kept(snapshot, now)
    set_up = settle_set_ups(snapshot, now)
    can = PrintersThatCan(snapshot, set_up, now)
    fitted = {printer_id: (state.nozzle_um, state.is_down) for printer_id, state in set_up.items()}
    fitted = kept.ask("nozzles", (), (fitted,), lambda: fitted)  # which spool is loaded matters to no piece
    polymers = learning.polymers
    asked = kept.ask("parts asked for", (), (needs,), lambda: tuple(needs.by_part))
    pieces = kept.ask(
        "pieces", PIECES_READ, (asked, learning.tally, fitted), lambda: _pieces(snapshot, now, asked, learning, can)
    )
    running = running_jobs(snapshot, now, learning, polymers)
    queued = queued_jobs(snapshot, learning, can, polymers)
    lines = kept.ask(
        "minutes of lines", ("job_lines",), (running, queued), lambda: _line_minutes(snapshot, running, queued)
    )
    return Hours(
        running=running,
        queued=queued,
        pieces=pieces,
        ready_file={key: p.print_file_id for key, p in pieces.items() if p.print_file_id is not None},
        no_figures=kept.ask("no figures", (), (needs, pieces), lambda: _no_figures(needs, pieces)),
        position_minutes=kept.ask(
            "minutes of positions", (), (needs, pieces, lines), lambda: _by_position(needs, pieces, lines)
        ),
        learning=learning,
        needs=needs,
        snapshot=snapshot,
        now=now,
    )


def _pieces(
    snapshot: Snapshot, now: Moment, asked: Iterable[Key], learning: Learning, can: PrintersThatCan
) -> dict[Key, PieceHours]:
    reckoner = PieceReckoner(snapshot, now, learning, can)
    then = [(ended.part_id, ended.side) for ended in ended_slots(snapshot, now)]
    return {
        (part.id, side): reckoner.piece(part, side)
        for part_id, side in dict.fromkeys([*asked, *then])
        if (part := snapshot.part[part_id]).origin is Origin.PRINTED
    }


def _no_figures(needs: Needs, pieces: dict[Key, PieceHours]) -> tuple[Key, ...]:
    """In allotment order."""
    lacking = {key for key, piece in pieces.items() if not piece.has_figures}
    if not lacking:
        return ()
    asked = ((slot.part, slot.side) for slot in needs.slots if slot.holds is TO_GET)
    return tuple(dict.fromkeys(key for key in asked if key in lacking))


def _spread(work: Iterable[tuple[RunningJob | QueuedJob | PieceHours, int]]) -> Spread:
    """Mean, low and high in minutes of so many of each. How well the ratios are known is taken as one common factor,
    their log sd weighted by minutes (approximation: cells with little of the work hardly count).
    """
    means, variances, weighted = [], [], 0.0
    for one, count in work:
        means.append(one.expected_minutes * count)
        variances.append(one.variance * count)
        weighted += one.ratio_log_sd * one.expected_minutes * count
    total = sum(means)
    return spread(means, variances, weighted / total if total else 0.0)


def _sets(
    running: Iterable[RunningJob], queued: Iterable[QueuedJob], to_print: Iterable[tuple[PieceHours, int]]
) -> tuple[PrinterSet, ...]:
    """Minutes by the set of printers that can; the sets with most minutes first."""
    minutes: defaultdict[tuple[int, ...], list[float]] = defaultdict(lambda: [0.0, 0.0, 0.0])
    for one in running:
        minutes[(one.printer_id,) if one.printer_id is not None else ()][0] += one.expected_minutes
    for waiting in queued:
        minutes[waiting.printer_ids][1] += waiting.expected_minutes
    for piece, count in to_print:
        if count:
            minutes[piece.printer_ids][2] += piece.expected_minutes * count
    sets = [PrinterSet(ids, *(round(m) for m in three)) for ids, three in minutes.items()]
    return tuple(sorted(sets, key=lambda s: (-s.minutes, s.printer_ids)))


def _line_minutes(snapshot: Snapshot, running: Iterable[RunningJob], queued: Iterable[QueuedJob]) -> dict[int, float]:
    """Minutes of one piece of each line under way. The pieces of a job bear its minutes evenly."""
    job_minutes = {job.job_id: job.expected_minutes for job in running}
    job_minutes |= {job.job_id: job.expected_minutes for job in queued}
    return {
        line.id: minutes / max(1, sum(one.quantity for one in snapshot.lines_of_job[job_id]))
        for job_id, minutes in job_minutes.items()
        for line in snapshot.lines_of_job.get(job_id, ())
    }


def _by_position(needs: Needs, pieces: dict[Key, PieceHours], line_minutes: dict[int, float]) -> dict[int, float]:
    """Minutes of the slots to print or under way, by position; rounded where they are said, so that sums agree."""
    each = {key: piece.expected_minutes for key, piece in pieces.items()}
    found: defaultdict[int, float] = defaultdict(float)
    for slot in needs.slots:
        holds = slot.holds
        if holds is TO_GET:
            found[slot.position] += each.get((slot.part, slot.side), 0.0)
        elif holds is UNDER_WAY and slot.line is not None:
            found[slot.position] += line_minutes.get(slot.line, 0.0)
    return {position: minutes for position, minutes in found.items() if minutes}
