"""What keeps pieces from being printed: file, figures, material, spool, printer."""

from collections.abc import Iterator

from buildlog.facts.printing import Job
from buildlog.facts.snapshot import Snapshot
from buildlog.status import bench_minutes
from buildlog.status.accounts import Accounts
from buildlog.status.blocker import Blocker, BlockerKind, Thing
from buildlog.status.hours import Hours, PieceHours
from buildlog.status.slot import Slot
from buildlog.status.stock import Stock
from buildlog.terms import JobState, Side

Key = tuple[int, Side]


class PrintCauses:
    def __init__(self, snapshot: Snapshot, accounts: Accounts, hours: Hours, stock: Stock) -> None:
        self._snapshot, self._accounts, self._hours, self._stock = snapshot, accounts, hours, stock
        self._no_figures = set(hours.no_figures)
        self._spools = {spool.id: spool for spool in snapshot.spools}
        busy = {job.printer_id for job in snapshot.jobs if job.state is JobState.RUNNING}
        self._idle = {
            printer.id
            for printer in snapshot.printers
            if printer.retired_at is None and printer.id not in busy and not accounts.set_up[printer.id].is_down
        }

    def minutes(self, key: Key, count: int) -> int:
        piece = self._hours.pieces.get(key)
        return round(piece.expected_minutes * count) if piece else 0

    def start_minutes_of(self, job: Job) -> int | None:
        """A person's work to start a queued print; None while its printer (or every one) is taken or down."""
        can_start = job.printer_id in self._idle if job.printer_id is not None else bool(self._idle)
        return bench_minutes.START_PRINT if can_start else None

    def of(self, position_id: int, key: Key, same: list[Slot], thing: Thing) -> Iterator[Blocker]:
        piece = self._hours.pieces.get(key)
        count, minutes = len(same), self.minutes(key, len(same))
        keeps = list(self._keeps(position_id, key, same, piece, thing))
        if key in self._no_figures:
            text = f"{thing.name}: nobody has said how long it prints"
            yield Blocker(
                BlockerKind.NO_FIGURES, position_id, thing, text, count, bench_minutes=bench_minutes.TYPE_FIGURES
            )
        if key not in self._hours.ready_file:
            text = f"{count} × {thing.name}: no file is ready for this revision"
            yield Blocker(
                BlockerKind.NEEDS_PREPARING,
                position_id,
                thing,
                text,
                count,
                print_minutes=minutes,
                bench_minutes=bench_minutes.PREPARE_FILE,
            )
        else:
            idle = piece is not None and any(printer in self._idle for printer in piece.up_printer_ids)
            yield Blocker(
                BlockerKind.NOT_PRINTED,
                position_id,
                thing,
                f"{count} × {thing.name} to print",
                count,
                print_minutes=minutes,
                bench_minutes=bench_minutes.START_PRINT if idle and not keeps else None,
            )
        yield from keeps

    def _keeps(
        self, position_id: int, key: Key, same: list[Slot], piece: PieceHours | None, thing: Thing
    ) -> Iterator[Blocker]:
        """What a person or a parcel must change before it could be started."""
        short = self._stock.not_covered.get(key)
        if short is not None and (blocked := sum(slot.rank >= short.rank for slot in same)):
            material = self._snapshot.material[short.material_id] if short.material_id is not None else None
            about = Thing("material", material.id, material.code) if material else thing
            yield Blocker(BlockerKind.NO_MATERIAL, position_id, about, short.reason, blocked, short.due_at)
        else:
            yield from self._spool(position_id, key, len(same), piece, thing)
        if piece is not None and not piece.printer_ids:
            text = f"no printer can take {thing.name}: {piece.why_none}"
            yield Blocker(BlockerKind.NO_PRINTER, position_id, thing, text, len(same))
        elif piece is not None and not piece.up_printer_ids:
            down = [(self._accounts.set_up[printer].down_until, printer) for printer in piece.printer_ids]
            until, printer_id = min(down, key=lambda d: (d[0] is None, d[0] or "", d[1]))
            printer = self._snapshot.printer[printer_id]
            about = Thing("printer", printer_id, printer.code)
            yield Blocker(BlockerKind.PRINTER_DOWN, position_id, about, f"{printer.name} is down", len(same), until)

    def _spool(
        self, position_id: int, key: Key, count: int, piece: PieceHours | None, thing: Thing
    ) -> Iterator[Blocker]:
        """No one spool blocks for one-lot demands and where no printer stops at the end of filament; else it is a
        caution at the start.
        """
        check = self._stock.one_spool.get(key)
        if check is None:
            return
        can = [self._snapshot.printer[i] for i in (piece.printer_ids if piece else ())]
        must_last = self._snapshot.part[key[0]].one_lot or not any(p.stops_at_filament_end for p in can)
        if not check.enough and must_last:
            text = f"no one spool holds enough for {thing.name}: {check.text}"
            yield Blocker(BlockerKind.NO_ONE_SPOOL, position_id, thing, text, count)
        elif check.wet and check.spool_id is not None:
            spool = self._spools[check.spool_id]
            about = Thing("spool", spool.id, spool.code)
            minutes = bench_minutes.DRY_SPOOL
            yield Blocker(
                BlockerKind.SPOOL_WET, position_id, about, f"dry {spool.code} first", count, bench_minutes=minutes
            )
