"""What running, queued and to-print work asks of each material, in the order in which it is laid."""

from collections.abc import Iterator
from typing import NamedTuple

from buildlog.facts.snapshot import Snapshot
from buildlog.status.hours import Hours
from buildlog.status.needs import Needs
from buildlog.status.piece_hours import PieceHours, current_revisions
from buildlog.status.slot import TO_GET
from buildlog.terms import Moment, Side

Key = tuple[int, Side]


class HeadAsk(NamedTuple):
    """What one piece asks of one head: an exact material, or a polymer in any colour. ``waste_mg`` is what failures
    are expected to cost on top.
    """

    material_id: int | None
    polymer: str
    mg: int
    waste_mg: int


class Work(NamedTuple):
    """Minutes of printing and what they ask. ``kind`` is running, queued, to print or spare; ``key`` and ``rank`` are
    those of the slot.
    """

    kind: str
    minutes: float
    asks: tuple[HeadAsk, ...]
    key: Key | None = None
    rank: int = 0
    one_lot: bool = False


def work_under_way(snapshot: Snapshot, hours: Hours) -> Iterator[Work]:
    """Running, then queued prints."""
    yield from _running(hours)
    yield from _queued(snapshot, hours)


def work_to_print(snapshot: Snapshot, needs: Needs, hours: Hours, asked: "PieceAsks") -> Iterator[Work]:
    """Slots to print in allotment order, then spares wanted."""
    known: dict[Key, tuple[float, tuple[HeadAsk, ...], bool]] = {}
    parts = snapshot.part
    for key, need in needs.by_part.items():
        if need.to_get and (piece := hours.pieces.get(key)) is not None:
            known[key] = (piece.expected_minutes, asked.of(piece), parts[piece.part_id].one_lot)
    for slot in needs.slots:
        if slot.holds is TO_GET and (told := known.get(key := (slot.part, slot.side))) is not None:
            minutes, asks, one_lot = told
            yield Work("to print", minutes, asks, key, slot.rank, one_lot)
    for key, need in needs.by_part.items():
        if need.spares_to_get and (piece := hours.pieces.get(key)) is not None:
            spare = Work("spare", piece.expected_minutes, asked.of(piece))
            yield from [spare] * need.spares_to_get


class PieceAsks:
    """What one piece of (part, side) asks: its share of its ready file, else its own demands. Both sides of a part
    ask the same unless they come from files that differ.
    """

    def __init__(self, snapshot: Snapshot, now: Moment, hours: Hours) -> None:
        self._snapshot, self._hours = snapshot, hours
        self._revisions = current_revisions(snapshot, now)
        self._files = {file.id: file for file in snapshot.print_files}
        self._known: dict[int | tuple[int, int, float], tuple[HeadAsk, ...]] = {}

    def of(self, piece: PieceHours) -> tuple[HeadAsk, ...]:
        part_id, file_id = piece.part_id, piece.print_file_id
        alike = part_id if file_id is None else (part_id, file_id, piece.estimated_minutes)
        found = self._known.get(alike)
        if found is None:
            retries = piece.retries
            found = self._known[alike] = tuple(
                _ask(self._snapshot, self._hours, material, polymer, mg, retries)
                for material, polymer, mg in self._heads(piece)
            )
        return found

    def _heads(self, piece: PieceHours) -> Iterator[tuple[int | None, str | None, float]]:
        if piece.print_file_id is not None:
            share = self._share(piece)
            for tool in self._snapshot.tools_of_file.get(piece.print_file_id, ()):
                yield tool.material_id, tool.polymer, (tool.part_mg + tool.support_mg + tool.purge_mg) * share
        elif (revision := self._revisions.get(piece.part_id)) is not None:
            for demand in self._snapshot.demands_of.get(revision.id, ()):
                mg = demand.part_mg + demand.support_mg + demand.purge_mg
                yield demand.material_id, demand.polymer, mg

    def _share(self, piece: PieceHours) -> float:
        """The same share of the file's grams as of its minutes."""
        file = self._files[piece.print_file_id or 0]
        if file.print_minutes > 0:
            return piece.estimated_minutes / file.print_minutes
        return 1 / max(1, sum(line.quantity for line in self._snapshot.lines_of_file.get(file.id, ())))


def _ask(
    snapshot: Snapshot, hours: Hours, material: int | None, polymer: str | None, mg: float, retries: float
) -> HeadAsk:
    """With the learned ratio of grams; failures cost as many grams as they cost hours (approximation)."""
    real = mg * hours.learning.grams_ratio(material)
    named = snapshot.material[material].polymer if material is not None else polymer or ""
    return HeadAsk(material, named, round(real), round(real * (retries - 1)))


def _running(hours: Hours) -> Iterator[Work]:
    """What running feeds still draw is on the accounts of their spools (approximation: a running print whose spool
    nobody has named asks for nothing; what failures of running prints cost is left to the safety stock).
    """
    for job in hours.running:
        yield Work("running", job.expected_minutes, ())


def _queued(snapshot: Snapshot, hours: Hours) -> Iterator[Work]:
    material_of = {spool.id: spool.material_id for spool in snapshot.spools}
    for job in hours.queued:
        asks = (
            _ask(
                snapshot,
                hours,
                material_of[feed.spool_id] if feed.spool_id is not None else feed.material_id,
                feed.polymer,
                feed.part_mg + feed.support_mg + feed.purge_mg,
                job.retries,
            )
            for feed in snapshot.feeds_of_job.get(job.job_id, ())
        )
        yield Work("queued", job.expected_minutes, tuple(asks))
