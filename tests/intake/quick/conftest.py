"""A bench that the examples of quick entry speak of, laid once: lines are read, and tried without being written."""

import tomllib
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from buildlog.intake.quick.known import Known
from buildlog.intake.quick.reading import Read, read_line
from buildlog.ledger import Ledger
from buildlog.proposals.lines import Line
from buildlog.proposals.lots import CountPart
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.nouns import Add, form_from_texts
from buildlog.proposals.orders import PlaceOrder
from buildlog.proposals.places import read_slot
from buildlog.proposals.printers import LoadSpool
from buildlog.proposals.prints import PrintRan, StartPrint
from buildlog.proposals.shots import PlanShot
from buildlog.proposals.slots import FitPiece
from buildlog.proposals.spools import ReceiveSpool
from buildlog.terms import Moment, moment

ZONE = "Europe/Berlin"
NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)  # a Wednesday, 13:00 in Berlin


def ago(**span: float) -> Moment:
    return moment(NOW - timedelta(**span))


@pytest.fixture(scope="session")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Ledger]:
    folder = tmp_path_factory.mktemp("quick")
    ledger = Ledger.open(folder / "ledger.db", folder / "backups", lambda: NOW)
    rows = tomllib.loads((Path(__file__).parent / "bench.toml").read_text("utf-8"))["row"]
    read = moment_reader(ledger.now(), ZONE)
    forms = [form_from_texts(row["noun"], {k: v for k, v in row.items() if k != "noun"}, read) for row in rows]
    ledger.record_all([(Add(form), ago(days=20)) for form in forms], "lay the bench")
    for wish, at in (
        (ReceiveSpool(material="ABS-BLACK", codes=("BLACK-3", "BLACK-4"), tare=200_000), ago(days=10)),
        (LoadSpool(printer="BIG", spool="BLACK-3"), ago(days=9)),
        (CountPart(part="FL07", side="L", pieces=6), ago(days=8)),
        (CountPart(part="FL07", side="R", pieces=6), ago(days=8)),
        (CountPart(part="BUSH", pieces=4), ago(days=8)),
        *((FitPiece(slot=read_slot("LEG R / FL07")), ago(days=7)) for _ in range(3)),
        *((FitPiece(slot=read_slot(f"LEG {side} / BUSH")), ago(days=7)) for side in "LR"),
        *(
            (
                PrintRan(file="PLATES-7", printer="BIG", ended=ago(days=day - 0.1), came_out="failed", cause=cause),
                ago(days=day),
            )
            for day, cause in ((6, "a clog"), (5, "stringing"), (4, "stringing"))
        ),
        (StartPrint(file="PLATES-7", printer="BIG"), ago(hours=25)),
        (PlanShot(what="the jaw bites", build="LB", code="SHOT-1"), ago(days=3)),
        (PlaceOrder(code="O1", lines=(Line("SCREW-M4", quantity=50),)), ago(days=2)),
    ):
        ledger.record(wish, at)
    yield ledger
    ledger.close()


@pytest.fixture(scope="session")
def known(bench: Ledger) -> Known:
    return Known(bench.snapshot())


@pytest.fixture
def read(bench: Ledger, known: Known) -> Callable[[str], Read]:
    reader = moment_reader(bench.now(), ZONE)
    return lambda text: read_line(text, known, reader)
