"""A small workshop with a beetle to print, recorded through actions, and how it stands at a moment."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pytest

from buildlog.facts.snapshot import Snapshot
from buildlog.ledger import Ledger
from buildlog.proposals import (
    bought,
    episodes,
    fits,
    lots,
    orders,
    printers,
    prints,
    revisions,
    shots,
    slots,
    spools,
    steps,
)
from buildlog.proposals.field import fields_of
from buildlog.proposals.moments import stored_moment
from buildlog.proposals.nouns import Add, values_from_texts
from buildlog.proposals.wishes import action_name
from buildlog.status.accounts import Accounts, settle
from buildlog.status.fits import judge_fits
from buildlog.status.hours import Hours, PieceHours, count_hours
from buildlog.status.learning import Learning, learn
from buildlog.status.needs import Needs, allot
from buildlog.status.stock import MaterialOutlook, Stock, lay_material
from buildlog.status.work import tick_off
from buildlog.terms import Moment, Side

MODULES = (bought, episodes, fits, lots, orders, printers, prints, revisions, shots, slots, spools, steps)
WISHES = {
    action_name(wish): wish
    for module in MODULES
    for wish in vars(module).values()
    if isinstance(wish, type) and wish.__module__ == module.__name__
}
BEGAN = Moment("2026-11-01T05:00:00Z")


@pytest.fixture
def do(ledger: Ledger) -> Callable[..., str]:
    """``do("start_print", "2026-11-24T08:00:00Z", file="F1")``: a wish as typed; returns what was said."""

    def record(name: str, at: str | None = None, **texts: str) -> str:
        wish = WISHES[name]
        values, problems = values_from_texts(fields_of(wish), texts, stored_moment)
        assert not problems, problems
        return ledger.record(wish(**values), Moment(at) if at else None).sentences[0]

    return record


@pytest.fixture
def workshop(ledger: Ledger, typed: Callable[..., Any], once: Callable[..., Ledger]) -> Ledger:
    """Since 1 November: the printers P1 (BIG, 300 mm) and P2 (TWIN, two heads), ABS in black and red and TPU, one
    spool of 1000 g each (B1, R1, T1), and nothing to print yet.
    """
    things: list[tuple[Any, Moment | None]] = []

    def add(noun: str, at: Moment, **texts: str) -> None:
        things.append((Add(typed(noun, **texts)), at))

    add("build", BEGAN, code="LB", name="Lantern Beetle")
    add("supplier", BEGAN, code="SUP", name="Filament by post", lead_days="4", delivery="4.90")
    for code, polymer in (("ABS-BLACK", "ABS"), ("ABS-RED", "ABS"), ("TPU-RED", "TPU")):
        add("material", BEGAN, code=code, name=code, polymer=polymer, supplier="SUP", price="20", density="1.05")
    bed = {"bed_x": "300", "bed_y": "300", "bed_z": "300"}
    add("printer", BEGAN, code="P1", name="Big one", printer_class="BIG", watts="100", **bed)
    add("printer", BEGAN, code="P2", name="Twin", printer_class="TWIN", heads="2", **bed)
    for code, material in (("B1", "ABS-BLACK"), ("R1", "ABS-RED"), ("T1", "TPU-RED")):
        add("spool", BEGAN, code=code, material=material, tare="200")
    return once("workshop", lambda: ledger.record_all(things, "the workshop"))


@pytest.fixture
def beetle(workshop: Ledger, add: Any) -> Ledger:
    """In the workshop: the root BEETLE, paired legs with the handed SHIN twice in each (5 h, 100 g of black ABS)."""
    add("assembly", BEGAN, code="BEETLE", name="Beetle", build="LB")
    add("assembly", BEGAN, code="LEG", name="Leg", build="LB", parent="BEETLE", paired="yes")
    figures = {"print_time": "5:00", "material": "ABS-BLACK", "grams": "100", "figures_from": "slicing"}
    add(
        "part",
        BEGAN,
        code="SHIN",
        name="Shin",
        build="LB",
        handed="yes",
        assembly="LEG",
        quantity="2",
        stage="drawn",
        **figures,
    )
    return workshop


@pytest.fixture
def with_file(beetle: Ledger, add: Any) -> Ledger:
    """A ready file of one SHIN on each side: 8 h, 220 g."""
    add(
        "print file",
        BEGAN,
        code="F1",
        name="Shins",
        printer_class="BIG",
        lines="SHIN L, SHIN R",
        print_time="8:00",
        material="ABS-BLACK",
        grams="200",
        purge="20",
    )
    return beetle


@dataclass(frozen=True)
class Standing:
    """What the snapshot means up to the outlook of materials."""

    snapshot: Snapshot
    now: Moment
    accounts: Accounts
    learning: Learning
    needs: Needs
    hours: Hours
    stock: Stock

    def material(self, code: str) -> MaterialOutlook:
        (found,) = [m.id for m in self.snapshot.materials if m.code == code]
        return self.stock.materials[found]

    def piece(self, code: str, side: str = "-") -> PieceHours:
        (found,) = [part.id for part in self.snapshot.parts if part.code == code]
        return self.hours.pieces[found, Side(side)]


@pytest.fixture
def stand(ledger: Ledger) -> Callable[..., Standing]:
    """``stand("2026-11-24T08:00:00Z")``: how things stand at a moment, now when left out."""

    def at_moment(at: str | None = None) -> Standing:
        snapshot, now = ledger.snapshot(), Moment(at or ledger.now())
        accounts, learning, work = settle(snapshot, now), learn(snapshot, now), tick_off(snapshot, now)
        needs = allot(snapshot, now, accounts, work, judge_fits(snapshot, now, work))
        hours = count_hours(snapshot, now, needs, learning)
        stock = lay_material(snapshot, now, accounts, needs, hours)
        return Standing(snapshot, now, accounts, learning, needs, hours, stock)

    return at_moment
