"""What reading and taking stock cost against the bare rows, in CPU time of one process."""

import sqlite3
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from statistics import median

from big_ledger import NOW
from result import Result

from buildlog.facts.snapshot import Snapshot
from buildlog.record.reader import SNAPSHOT_FIELDS, Reader, table_name
from buildlog.reference import reference
from buildlog.status.status import Status, take_stock
from buildlog.terms import moment

LAZY = ("progress", "machines", "doable", "outlook", "cost", "figures", "alerts")
LAZY_STOCK = ("materials", "baskets", "hours_burn_down", "timeline")
LAZY_HOURS = ("sets", "total_minutes", "on_top")


def cpu_seconds(work: Callable[[], object]) -> float:
    began = time.process_time()
    kept = work()
    took = time.process_time() - began
    del kept
    return took


def bare_rows(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        for name in SNAPSHOT_FIELDS:
            connection.execute(f'SELECT * FROM "{table_name(name)}"').fetchall()


def first_snapshot(path: Path) -> Snapshot:
    """As a program that was just started: a reader that has read before reads only what changed."""
    with closing(Reader(path)) as reader:
        return reader.snapshot(reference())


def status_of(path: Path) -> Status:
    return take_stock(first_snapshot(path), moment(NOW))


def everything_of(path: Path) -> Status:
    """With every answer that is given only when it is asked for."""
    status = status_of(path)
    for of, names in ((status, LAZY), (status.stock, LAZY_STOCK), (status.hours, LAZY_HOURS)):
        for name in names:
            getattr(of, name)
    return status


def measure_reading(big: Path, runs: int) -> Iterator[Result]:
    works: tuple[Callable[[], object], ...] = (
        lambda: bare_rows(big),
        lambda: first_snapshot(big),
        lambda: status_of(big),
        lambda: everything_of(big),
    )
    for work in works:
        work()  # imports, caches of the disk
    took = [[cpu_seconds(work) for work in works] for _ in range(runs)]
    bare, read, stock, everything = (median(column) for column in zip(*took, strict=True))
    milliseconds = f"{bare * 1000:.0f} ms of bare rows"
    yield Result("read", read / bare, None, "×", milliseconds)
    yield Result("read + take_stock", stock / bare, 4.0, "×", f"{stock * 1000:.0f} ms to {milliseconds}")
    yield Result("the same with every answer asked for", everything / bare, None, "×", f"{everything * 1000:.0f} ms")


def measure_growth(ledgers: dict[int, Path], runs: int) -> Iterator[Result]:
    """Time per piece, the largest ledger against the smallest and against the one of a tenth: 1 is linear."""
    per_piece: dict[int, float] = {}
    for pieces, path in ledgers.items():
        status_of(path)
        again = runs if pieces > 5000 else runs * 4
        per_piece[pieces] = median(cpu_seconds(lambda p=path: status_of(p)) for _ in range(again)) / pieces
    told = ", ".join(f"{pieces}: {seconds * 1e6:.0f} µs" for pieces, seconds in per_piece.items())
    largest = per_piece.pop(max(per_piece))
    yield Result("time per piece, 50,000 to fewer", largest / min(per_piece.values()), 1.5, "×", told)
