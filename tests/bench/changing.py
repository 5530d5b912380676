"""What reading and taking stock again costs after a change, against the bare rows of the whole, in CPU time."""

import time
from collections.abc import Iterator
from pathlib import Path

from reading import bare_rows, cpu_seconds
from result import Result

from buildlog.ledger import Ledger
from buildlog.proposals.lines import Line
from buildlog.proposals.prints import FinishPrint, StartPrint
from buildlog.proposals.spools import WeighSpool
from buildlog.status.status import Status, take_stock
from buildlog.terms import Side

TODAY = ("machines", "doable", "outlook", "alerts")


def measure_change(path: Path) -> Iterator[Result]:
    """With what Today asks for. Weighed twice: the first time may teach how many grams prints really take."""
    ledger = Ledger.open(path)
    status = _asked(take_stock(ledger.snapshot(), ledger.now()))
    spool = next(s for s in status.snapshot.spools if status.accounts.spools[s.id].usable)
    lines = (Line(status.snapshot.parts[0].code, Side.LEFT, 1),)
    changes = {
        "a spool weighed": WeighSpool(spool=spool.code, gross=spool.tare_mg + 500_000),
        "a spool weighed again": WeighSpool(spool=spool.code, gross=spool.tare_mg + 499_000),
        "a print started": StartPrint(
            printer="P2", lines=lines, spools=(spool.code,), anyway=True, print_time=60, grams=20_000
        ),
        "a print finished": FinishPrint(printer="P2"),
    }
    for name, wish in changes.items():
        ledger.record(wish)
        time.sleep(1.1)  # a moment is a second
        bare = cpu_seconds(lambda: bare_rows(path))
        began = time.process_time()
        status = _asked(take_stock(ledger.snapshot(), ledger.now(), status))
        again = time.process_time() - began
        yield Result(f"read + take_stock after {name}", again / bare, None, "×", f"{again * 1000:.0f} ms")
    ledger.close()


def _asked(status: Status) -> Status:
    for name in TODAY:
        getattr(status, name)
    return status
