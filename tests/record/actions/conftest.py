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


BEGAN = "2026-11-01T08:00:00Z"


@pytest.fixture
def shop(ledger: Ledger) -> Ledger:
    from buildlog.record.tables.builds import Build
    from buildlog.record.tables.printing import FileLine, FileTool, Printer, PrintFile, SetUp
    from buildlog.record.tables.stock import BoughtItem, Material, Spool, Supplier
    from buildlog.record.tables.tree import Demand, Part, Revision

    with ledger.writer().work("shop", "shop", BEGAN, BEGAN) as opened:
        add = opened.work.add
        build = add(Build(code="LB", name="Lantern Beetle", state="open", created_at=BEGAN))
        supplier = add(Supplier(code="SUP", name="Filament by post", lead_days=4, delivery_minor=490))
        materials = {}
        for code, polymer in (("ABS-BLACK", "ABS"), ("ABS-RED", "ABS"), ("TPU-RED", "TPU")):
            materials[code] = add(
                Material(code=code, name=code, polymer=polymer, diameter_um=1750, density_mg_cm3=1050, pack_mg=1000000,
                         price_minor=2000, supplier_id=supplier.id, dry_minutes=240)
            )
        bed = {"bed_x_um": 300000, "bed_y_um": 300000, "bed_z_um": 300000}
        p1 = add(Printer(code="P1", name="Big", printer_class="BIG", runs_unattended=True, stops_at_filament_end=False, **bed))
        p2 = add(Printer(code="P2", name="Twin", printer_class="TWIN", heads=2, runs_unattended=False, stops_at_filament_end=False, **bed))
        for p in (p1, p2):
            add(SetUp(printer_id=p.id, at=BEGAN, kind="nozzle", nozzle_um=400))
        for code, material in (("B1", "ABS-BLACK"), ("B2", "ABS-BLACK"), ("R1", "ABS-RED"), ("T1", "TPU-RED")):
            add(Spool(code=code, material_id=materials[material].id, received_at=BEGAN, content_mg=1000000, content_pm_mg=30000,
                tare_mg=215000, tare_pm_mg=65000, tare_assumed=True))
        add(BoughtItem(code="SCREW", name="Screw", unit="each", account="counted", pack_quantity=50, supplier_id=supplier.id))
        add(BoughtItem(code="GLUE", name="Glue", unit="each", account="rough"))
        parts = {}
        for code, handed, known in (("FL07", True, True), ("HINGE", False, True), ("NEW", False, False)):
            part = add(Part(build_id=build.id, code=code, name=code, origin="printed", handed=handed, stage="drawn"))
            rev = add(Revision(part_id=part.id, letter="A", since_at=BEGAN, print_minutes=120 if known else None, figures_from="slicing" if known else ""))
            if known:
                add(Demand(revision_id=rev.id, material_id=materials["ABS-BLACK"].id, part_mg=100000))
            parts[code] = (part, rev)
        f = add(PrintFile(code="F1", name="Shins", printer_class="BIG", print_minutes=600, nozzle_um=400, prepared_at=BEGAN))
        for code, side, n in (("FL07", "L", 1), ("FL07", "R", 1), ("HINGE", "-", 4)):
            add(FileLine(print_file_id=f.id, part_id=parts[code][0].id, revision_id=parts[code][1].id, side=side, quantity=n))
        add(FileTool(print_file_id=f.id, material_id=materials["ABS-BLACK"].id, part_mg=400000, support_mg=60000, purge_mg=40000))
    return ledger


@pytest.fixture
def damage(ledger: Ledger) -> Callable[[int, str], None]:
    """A damage on a lot, as long as nobody can tell one."""
    from buildlog.record.tables.pieces import Damage

    def tell(lot_id: int, at: str) -> None:
        with ledger.writer().work("damage", "damage", Moment(at), ledger.now()) as opened:
            opened.work.add(Damage(lot_id=lot_id, at=at, place="tip", out_of_use=False))

    return tell
