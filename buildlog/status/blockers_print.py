"""What keeps pieces from being printed: file, figures, material, spool, printer."""

from collections import defaultdict
from collections.abc import Iterator

from buildlog.facts.naming import part_name
from buildlog.facts.printing import Job
from buildlog.facts.snapshot import Snapshot
from buildlog.status import bench_minutes
from buildlog.status.accounts import Accounts
from buildlog.status.blocker import Blocker, BlockerKind, Thing
from buildlog.status.hours import Hours, PieceHours
from buildlog.status.kept import Kept
from buildlog.status.needs import Needs
from buildlog.status.slot import TO_GET, Slot
from buildlog.status.spool_check import SpoolCheck
from buildlog.status.stock import NotCovered, Stock
from buildlog.terms import JobState, Moment, Origin, Side

Key = tuple[int, Side]


Place = tuple[int, int, Side]
"""Position, part and side."""
ToPrint = tuple[tuple[Slot, ...], PieceHours | None, NotCovered | None, SpoolCheck | None, bool]
"""Slots alike in one place that are to be printed, and all that decides what keeps them from it: how long a piece
takes, of what none is left, its spool, and whether a printer is free (a plain tuple, for there are many)."""

PRINTED_READ = ("parts", "printers", "spools", "materials")


def printed_causes(
    snapshot: Snapshot, accounts: Accounts, needs: Needs, hours: Hours, stock: Stock, kept: Kept
) -> dict[Place, tuple[Blocker, ...]]:
    """What keeps the pieces to get of each printed part from being printed, place by place."""
    idle = kept.ask("idle", ("jobs", "printers"), (accounts.set_up,), lambda: idle_printers(snapshot, accounts))
    to_get = kept.ask("places to get", ("parts",), (needs,), lambda: _places_to_get(snapshot, needs))
    pieces, short, spool = hours.pieces, stock.not_covered, stock.one_spool
    asked: dict[Place, ToPrint] = {}
    for place, slots in to_get.items():
        key = place[1:]
        piece = pieces.get(key)
        is_any_free = piece is not None and not idle.isdisjoint(piece.up_printer_ids)
        asked[place] = (slots, piece, short.get(key), spool.get(key), is_any_free)
    down = {printer_id: state.down_until for printer_id, state in accounts.set_up.items()}
    down = kept.ask("down until", (), (down,), lambda: down)
    causes = PrintCauses(snapshot, hours, down)
    rests_on = (down, hours.no_figures)
    return kept.ask_each("printed", PRINTED_READ, rests_on, asked, causes.of)


def idle_printers(snapshot: Snapshot, accounts: Accounts) -> frozenset[int]:
    busy = {job.printer_id for job in snapshot.jobs_of_state.get(JobState.RUNNING, ())}
    return frozenset(
        printer.id
        for printer in snapshot.printers
        if printer.retired_at is None and printer.id not in busy and not accounts.set_up[printer.id].is_down
    )


def start_minutes_of(job: Job, idle: frozenset[int]) -> int | None:
    """A person's work to start a queued print; None while its printer (or every one) is taken or down."""
    can_start = job.printer_id in idle if job.printer_id is not None else bool(idle)
    return bench_minutes.START_PRINT if can_start else None


def _places_to_get(snapshot: Snapshot, needs: Needs) -> dict[Place, tuple[Slot, ...]]:
    """Slots of printed parts still to get, those held on purpose left out."""
    printed = {part.id for part in snapshot.parts if part.origin is Origin.PRINTED}
    found: defaultdict[Place, list[Slot]] = defaultdict(list)
    for position_id, slots in needs.by_position.items():
        for slot in slots:
            if slot.holds is TO_GET and not slot.held and slot.part in printed:
                found[position_id, slot.part, slot.side].append(slot)
    return {place: tuple(slots) for place, slots in found.items()}


_NEEDS_PREPARING, _NOT_PRINTED = BlockerKind.NEEDS_PREPARING, BlockerKind.NOT_PRINTED
_NO_MATERIAL = BlockerKind.NO_MATERIAL


class PrintCauses:
    def __init__(self, snapshot: Snapshot, hours: Hours, down: dict[int, Moment | None]) -> None:
        self._snapshot, self._down = snapshot, down
        self._no_figures = frozenset(hours.no_figures)
        self._spools = {spool.id: spool for spool in snapshot.spools}
        self._materials = {row.id: Thing("material", row.id, row.code) for row in snapshot.materials}

    def of(self, place: Place, one: ToPrint) -> tuple[Blocker, ...]:
        position_id, part_id, side = place
        slots, piece, _, _, can_start = one
        count = len(slots)
        minutes = piece.expected_minutes * count if piece else 0
        thing = Thing("part", part_id, part_name(self._snapshot, part_id, side))
        keeps = self._keeps(place, one, thing)
        if piece is None or piece.print_file_id is None:
            kind, text = _NEEDS_PREPARING, f"{count} × {thing.name}: no file is ready for this revision"
            mine: int | None = bench_minutes.PREPARE_FILE
        else:
            kind, text = _NOT_PRINTED, f"{count} × {thing.name} to print"
            mine = bench_minutes.START_PRINT if can_start and not keeps else None
        found = (Blocker(kind, position_id, thing, text, count, None, minutes, mine), *keeps)
        if (part_id, side) not in self._no_figures:
            return found
        text = f"{thing.name}: nobody has said how long it prints"
        return Blocker(
            BlockerKind.NO_FIGURES, position_id, thing, text, count, bench_minutes=bench_minutes.TYPE_FIGURES
        ), *found

    def _keeps(self, place: Place, one: ToPrint, thing: Thing) -> list[Blocker]:
        """What a person or a parcel must change before it could be started."""
        same, piece, short, spool, _ = one
        position_id, blocked = place[0], 0
        found: list[Blocker] = []
        if short is not None:
            rank, material_id, _, reason, due_at = short
            blocked = sum([slot.rank >= rank for slot in same])
        if blocked:
            about = thing if material_id is None else self._materials[material_id]
            found.append(Blocker(_NO_MATERIAL, position_id, about, reason, blocked, due_at))
        elif spool is not None and (spool.wet or not spool.enough):
            found += self._spool(place, len(same), piece, spool, thing)
        if piece is not None and not piece.printer_ids:
            text = f"no printer can take {thing.name}: {piece.why_none}"
            found.append(Blocker(BlockerKind.NO_PRINTER, position_id, thing, text, len(same)))
        elif piece is not None and not piece.up_printer_ids:
            down = [(self._down[printer], printer) for printer in piece.printer_ids]
            until, printer_id = min(down, key=lambda d: (d[0] is None, d[0] or "", d[1]))
            printer = self._snapshot.printer[printer_id]
            about = Thing("printer", printer_id, printer.code)
            found.append(
                Blocker(BlockerKind.PRINTER_DOWN, position_id, about, f"{printer.name} is down", len(same), until)
            )
        return found

    def _spool(
        self, place: Place, count: int, piece: PieceHours | None, check: SpoolCheck, thing: Thing
    ) -> Iterator[Blocker]:
        """No one spool blocks for one-lot demands and where no printer stops at the end of filament; else it is a
        caution at the start.
        """
        position_id = place[0]
        if not check.enough and self._must_last(place[1], piece):
            text = f"no one spool holds enough for {thing.name}: {check.text}"
            yield Blocker(BlockerKind.NO_ONE_SPOOL, position_id, thing, text, count)
        elif check.wet and check.spool_id is not None:
            spool = self._spools[check.spool_id]
            about = Thing("spool", spool.id, spool.code)
            minutes = bench_minutes.DRY_SPOOL
            yield Blocker(
                BlockerKind.SPOOL_WET, position_id, about, f"dry {spool.code} first", count, bench_minutes=minutes
            )

    def _must_last(self, part_id: int, piece: PieceHours | None) -> bool:
        printers = self._snapshot.printer
        can = piece.printer_ids if piece else ()
        return self._snapshot.part[part_id].one_lot or not any(printers[i].stops_at_filament_end for i in can)
