"""A shop with two printers, three materials, four spools, parts of every kind and a print file."""

from collections.abc import Callable
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals import bought, orders, printers, prints, spools
from buildlog.proposals.field import fields_of
from buildlog.proposals.nouns import values_from_texts
from buildlog.proposals.wishes import action_name
from buildlog.terms import Moment

Do = Callable[..., str]
WISHES = {
    action_name(wish): wish
    for module in (prints, printers, spools, bought, orders)
    for wish in vars(module).values()
    if isinstance(wish, type) and wish.__module__ == module.__name__
}


@pytest.fixture
def do(ledger: Ledger) -> Do:
    """``do("start_print", "2026-11-24T08:00:00Z", file="F1")``: a wish as typed; returns what was said."""

    def record(name: str, at: str | None = None, **texts: str) -> str:
        wish = WISHES[name]
        values, problems = values_from_texts(fields_of(wish), texts)
        assert not problems, problems
        return ledger.record(wish(**values), Moment(at) if at else None).sentences[0]

    return record


@pytest.fixture
def shop(ledger: Ledger, add: Any) -> Ledger:
    began = Moment("2026-11-01T08:00:00Z")
    add("build", began, code="LB", name="Lantern Beetle")
    add("supplier", began, code="SUP", name="Filament by post", lead_days="4", delivery="4.90")
    for code, polymer in (("ABS-BLACK", "ABS"), ("ABS-RED", "ABS"), ("TPU-RED", "TPU")):
        add("material", began, code=code, name=code, polymer=polymer, supplier="SUP", dry_time="4 h", density="1.05")
    bed = {"bed_x": "300", "bed_y": "300", "bed_z": "300"}
    add("printer", began, code="P1", name="Big one", printer_class="BIG", runs_unattended="yes", **bed)
    add("printer", began, code="P2", name="Twin", printer_class="TWIN", heads="2", **bed)
    for code, material in (("B1", "ABS-BLACK"), ("B2", "ABS-BLACK"), ("R1", "ABS-RED"), ("T1", "TPU-RED")):
        add("spool", began, code=code, material=material)
    add("bought item", began, code="SCREW", name="Screw M4", pack_quantity="50", supplier="SUP")
    add("bought item", began, code="GLUE", name="Glue", account="rough")
    figures = {"print_time": "2:00", "material": "ABS-BLACK", "grams": "100", "figures_from": "slicing"}
    add("part", began, code="FL07", name="Shin", build="LB", handed="yes", **figures)
    add("part", began, code="HINGE", name="Hinge", build="LB", **figures)
    add("part", began, code="NEW", name="Not known yet", build="LB")
    add(
        "print file",
        began,
        code="F1",
        name="Shins",
        printer_class="BIG",
        lines="FL07 L, FL07 R, HINGE x4",
        print_time="10:00",
        material="ABS-BLACK",
        grams="400",
        support="60",
        purge="40",
        nozzle="0.4",
    )
    return ledger


@pytest.fixture
def damage(ledger: Ledger) -> Callable[[int, str], None]:
    """A damage on a lot, told by no action yet."""
    from buildlog.record.tables.pieces import Damage

    def tell(lot_id: int, at: str) -> None:
        with ledger.writer().work("damage", "damage", Moment(at), ledger.now()) as opened:
            opened.work.add(Damage(lot_id=lot_id, at=at, place="tip", out_of_use=False))

    return tell
