"""What one piece of each part costs in print hours, by its ready file or by its own figure."""

from functools import lru_cache
from typing import NamedTuple

from buildlog.facts.frozen import frozen
from buildlog.facts.printing import PrintFile
from buildlog.facts.snapshot import Snapshot
from buildlog.facts.tree import Part, Revision
from buildlog.methods.learned import Learned
from buildlog.methods.print_hours import Failures, expected_hours, variance_hours
from buildlog.status.learning import Learning, Polymers
from buildlog.status.printers_that_can import Can, PrintersThatCan
from buildlog.terms import Moment, Side

LARGEST_EXPONENT = 200.0
"""A print with λT beyond this never comes through; its hours are cut off there instead of refused."""


class PieceHours(NamedTuple):
    """One piece of a part on a side, as it would be printed now.

    ``estimated_minutes``: its share by grams of its ready file's figure, else the revision's own figure, as told by
    whoever estimated it. ``expected_minutes``: with the learned ratio and failures. ``retries`` is expected ÷
    (estimated × ratio), at least 1: so many times the grams go through the nozzle. ``variance`` in minutes².
    ``printer_ids`` can print it (``up_printer_ids`` and are not down now), else ``why_none`` says what each lacks.
    ``has_figures`` False: nobody has said how long it takes; then its minutes are 0.
    """

    part_id: int
    side: Side
    estimated_minutes: float
    expected_minutes: float
    variance: float
    ratio_log_sd: float
    retries: float
    print_file_id: int | None
    printer_ids: tuple[int, ...]
    up_printer_ids: tuple[int, ...]
    why_none: str
    has_figures: bool


@frozen
class Reckoned:
    """``minutes`` are the estimate × learned ratio, a print that comes through at once."""

    minutes: float
    expected_minutes: float
    variance: float
    learned: Learned

    @property
    def retries(self) -> float:
        return max(1.0, self.expected_minutes / self.minutes) if self.minutes > 0 else 1.0


def failures_of(learned: Learned, hours: float) -> Failures:
    """How a print of so many hours fails; see LARGEST_EXPONENT."""
    per_hour = learned.failures_per_hour
    if hours * per_hour > LARGEST_EXPONENT:
        per_hour = LARGEST_EXPONENT / hours
    return _failures(per_hour, learned.bad_start_share, learned.bad_start_loss_hours)


_failures = lru_cache(Failures)
"""The same ones for all prints of a printer and its polymers."""


def reckon(estimated_minutes: float, learned: Learned) -> Reckoned:
    """Mean and variance of the machine time until a print of this estimate has come through."""
    hours = estimated_minutes * learned.ratio / 60
    if hours <= 0:
        return Reckoned(0.0, 0.0, 0.0, learned)
    failures = failures_of(learned, hours)
    expected = expected_hours(hours, failures)
    return Reckoned(hours * 60, expected * 60, variance_hours(hours, failures) * 3600, learned)


class PieceReckoner:
    """Reckons pieces; every print file is reckoned once, and so are figures that are alike."""

    def __init__(self, snapshot: Snapshot, now: Moment, learning: Learning, can: PrintersThatCan) -> None:
        self._snapshot, self._learning, self._can = snapshot, learning, can
        self._revision = current_revisions(snapshot, now)
        self._files = _ready_files(snapshot, now, self._revision)
        self._reckoned: dict[int, tuple[Reckoned, int]] = {}
        self._by_own_figure: dict[int, PieceHours] = {}
        self._polymers_asked: dict[tuple[tuple[int | None, str | None], ...], Polymers] = {}
        self._figures: dict[tuple[int, int | None, Polymers, str], Reckoned] = {}

    def piece(self, part: Part, side: Side) -> PieceHours:
        file = self._files.get((part.id, side))
        if file is not None:
            return self._from_file(part, side, self._revision[part.id], file)
        known = self._by_own_figure.get(part.id)
        if known is None:
            known = self._from_own_figure(part, side, self._revision.get(part.id))
            self._by_own_figure[part.id] = known
        return known if known.side is side else PieceHours(known.part_id, side, *known[2:])

    def _from_own_figure(self, part: Part, side: Side, revision: Revision | None) -> PieceHours:
        demands = self._snapshot.demands_of.get(revision.id, []) if revision else []
        able = self._can.for_part(part, demands)
        minutes = revision.print_minutes if revision else None
        polymers = self._polymers(tuple([(demand.material_id, demand.polymer) for demand in demands]))
        origin = revision.figures_from if revision else ""
        asked = (minutes or 0, _only(able), polymers, origin)
        reckoned = self._figures.get(asked)
        if reckoned is None:
            reckoned = self._figures[asked] = reckon(asked[0], self._learning.cell(*asked[1:]))
        return _piece(part, side, minutes or 0, 1.0, reckoned, None, able, minutes is not None)

    def _from_file(self, part: Part, side: Side, revision: Revision, file: PrintFile) -> PieceHours:
        heads = max((tool.head for tool in self._snapshot.tools_of_file.get(file.id, [])), default=1)
        able = self._can.for_file_of_part(file, heads, part)
        reckoned, total_mg = self.file(file, able)
        lines = self._snapshot.lines_of_file.get(file.id, [])
        if total_mg and (piece_mg := self._piece_mg(revision.id)):
            share = piece_mg / total_mg
        else:
            share = 1 / sum(line.quantity for line in lines)
        return _piece(part, side, file.print_minutes * share, share, reckoned, file.id, able, True)

    def file(self, file: PrintFile, able: Can) -> tuple[Reckoned, int]:
        """A run of the file, and the grams of its pieces by their figures (0 when one of them has none)."""
        if file.id not in self._reckoned:
            tools = self._snapshot.tools_of_file.get(file.id, [])
            polymers = self._polymers(tuple([(tool.material_id, tool.polymer) for tool in tools]))
            learned = self._learning.cell(_only(able), polymers, file.estimate_from)
            weights = [
                (self._piece_mg(line.revision_id), line.quantity)
                for line in self._snapshot.lines_of_file.get(file.id, [])
            ]
            total = sum(mg * quantity for mg, quantity in weights) if all(mg for mg, _ in weights) else 0
            self._reckoned[file.id] = (reckon(file.print_minutes, learned), total)
        return self._reckoned[file.id]

    def _piece_mg(self, revision_id: int) -> int:
        return sum(demand.part_mg + demand.support_mg for demand in self._snapshot.demands_of.get(revision_id, ()))

    def _polymers(self, asks: tuple[tuple[int | None, str | None], ...]) -> Polymers:
        known = self._polymers_asked.get(asks)
        if known is None:
            materials = self._snapshot.material
            named = {polymer if material is None else materials[material].polymer for material, polymer in asks}
            known = self._polymers_asked[asks] = tuple(sorted(name for name in named if name))
        return known


def _piece(
    part: Part,
    side: Side,
    estimated_minutes: float,
    share: float,
    reckoned: Reckoned,
    file_id: int | None,
    able: Can,
    has_figures: bool,
) -> PieceHours:
    """The share of a print that one piece bears; the variances of all its pieces together are the print's."""
    return PieceHours(
        part.id, side, estimated_minutes, reckoned.expected_minutes * share, reckoned.variance * share,
        reckoned.learned.ratio_log_sd, reckoned.retries, file_id, able.printer_ids, able.up_printer_ids,
        able.why_none, has_figures,
    )  # fmt: skip


def current_revisions(snapshot: Snapshot, now: Moment) -> dict[int, Revision]:
    """The newest revision of each part at ``now``."""
    found: dict[int, Revision] = {}
    for part_id, revisions in snapshot.revisions_of.items():
        for revision in revisions:  # oldest first
            if revision.since_at <= now:
                found[part_id] = revision
    return found


def _ready_files(snapshot: Snapshot, now: Moment, current: dict[int, Revision]) -> dict[tuple[int, Side], PrintFile]:
    """The newest live file that lays down the current revision, by (part, side)."""
    found: dict[tuple[int, Side], PrintFile] = {}
    for file in sorted(snapshot.print_files, key=lambda f: (f.prepared_at, f.id)):
        if file.prepared_at > now or (file.retired_at is not None and file.retired_at <= now):
            continue
        for line in snapshot.lines_of_file.get(file.id, ()):
            revision = current.get(line.part_id)
            if revision is not None and revision.id == line.revision_id:
                found[line.part_id, line.side] = file
    return found


def _only(able: Can) -> int | None:
    """The one printer that can; figures of its own are taken only when it is sure to print this."""
    return able.printer_ids[0] if len(able.printer_ids) == 1 else None
