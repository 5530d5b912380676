"""Two things to record about: the front legs of a beetle with their bench work; a shop with printers and stock."""

from collections.abc import Callable, Iterable
from dataclasses import fields
from typing import Any

import pytest

from buildlog.facts.snapshot import INDEXED, Snapshot
from buildlog.ledger import Ledger
from buildlog.proposals import (
    bought,
    episodes,
    fits,
    lots,
    notes,
    orders,
    printers,
    prints,
    promises,
    questions,
    revisions,
    shots,
    slots,
    spools,
    steps,
    viewers,
)
from buildlog.proposals.field import fields_of
from buildlog.proposals.moments import stored_moment
from buildlog.proposals.nouns import Add, form_from_texts, values_from_texts
from buildlog.proposals.wishes import action_name
from buildlog.record.reader import SNAPSHOT_FIELDS, Reader
from buildlog.reference import reference
from buildlog.status.first_look import look_first
from buildlog.status.kept import ALWAYS, Kept
from buildlog.status.on_printers import OnPrinter
from buildlog.status.status import Status, take_stock
from buildlog.terms import Moment

Tell = Callable[..., str]
WISHES = {
    action_name(wish): wish
    for module in (
        bought,
        episodes,
        fits,
        lots,
        notes,
        orders,
        printers,
        prints,
        promises,
        questions,
        revisions,
        shots,
        slots,
        spools,
        steps,
        viewers,
    )
    for wish in vars(module).values()
    if isinstance(wish, type) and wish.__module__ == module.__name__
}
BEGAN = Moment("2026-11-01T08:00:00Z")

THINGS: tuple[tuple[str, dict[str, str]], ...] = (
    ("build", {"code": "LB", "name": "Lantern Beetle"}),
    ("box", {"code": "SHELF", "name": "Shelf"}),
    ("box", {"code": "DRAWER", "name": "Drawer"}),
    ("bought item", {"code": "PIN", "name": "Hinge pin", "unit": "each", "account": "counted"}),
    ("bought item", {"code": "GLUE", "name": "Glue", "unit": "each", "account": "rough"}),
    ("assembly", {"code": "BEETLE", "name": "Beetle", "build": "LB"}),
    ("assembly", {"code": "LEG", "name": "Leg", "build": "LB", "parent": "BEETLE", "paired": "yes",
                  "joined": "bonded"}),
    ("assembly", {"code": "TOE", "name": "Toe", "build": "LB", "parent": "LEG", "count": "3"}),
    ("part", {"code": "SHIN", "name": "Shin", "handed": "yes", "quantity": "2", "assembly": "LEG", "stage": "proven",
              "print_time": "2h"}),
    ("part", {"code": "TIP", "name": "Toe tip", "assembly": "TOE"}),
    ("part", {"code": "HINGE", "name": "Hinge", "assembly": "LEG", "origin": "bought", "bought_item": "PIN",
              "bought_quantity": "2"}),
    ("part", {"code": "HOOK", "name": "Hook", "handed": "yes", "assembly": "BEETLE", "side_rule": "one of each"}),
    ("part", {"code": "CORD", "name": "Cord", "assembly": "BEETLE", "origin": "made by hand"}),
    ("step", {"code": "LEG-SAND", "name": "Sand", "assembly": "LEG", "kind": "sand", "bench_time": "10"}),
    ("step", {"code": "LEG-BOND", "name": "Bond", "assembly": "LEG", "kind": "bond", "bench_time": "30",
              "handle_after": "2h", "load_after": "24h", "uses": "PIN x3, GLUE"}),
    ("step", {"code": "LEG-PAINT", "name": "Paint", "assembly": "LEG", "kind": "paint", "bench_time": "40"}),
    ("step", {"code": "TIP-PRIME", "name": "Prime", "part": "TIP", "kind": "paint", "bench_time": "5",
              "handle_after": "1h"}),
    ("step", {"code": "TIP-PAINT", "name": "Paint", "part": "TIP", "kind": "paint", "bench_time": "5"}),
    ("fit test", {"code": "F-SHIN", "name": "Gap of the shins", "assembly": "LEG", "parts": "SHIN",
                  "kind": "clearance", "low": "0.3", "high": "0.5"}),
    ("fit test", {"code": "F-LOAD", "name": "Stand on it", "assembly": "LEG", "parts": "SHIN", "kind": "load"}),
)  # fmt: skip


@pytest.fixture
def legs(ledger: Ledger, once: Callable[..., Ledger]) -> Ledger:
    """Two bonded legs (shin x2, a bought hinge) with three toes each, a hook of each side, a cord made by hand."""
    wishes_of_things = [
        (Add(form_from_texts(noun, ({"build": "LB"} if noun == "part" else {}) | texts)), BEGAN)
        for noun, texts in THINGS
    ]
    return once("legs", lambda: ledger.record_all(wishes_of_things, "the beetle"))


@pytest.fixture
def tell(legs: Ledger, clock: Any) -> Tell:
    """``tell("fit_piece", slot="LEG L / SHIN", at=…)``: a wish as typed, a minute after the one before.

    ``given`` holds values that no person types: what was computed, or ids.
    """

    def told(name: str, at: str | None = None, given: dict[str, object] | None = None, **texts: str) -> str:
        clock.move_on(minutes=1)
        wish = WISHES[name]
        values, problems = values_from_texts(fields_of(wish), texts, stored_moment)
        assert not problems, problems
        return legs.record(wish(**values, **(given or {})), Moment(at) if at else None).sentences[0]

    return told


@pytest.fixture
def do(ledger: Ledger) -> Tell:
    """``do("start_print", "2026-11-24T08:00:00Z", file="F1")``: a wish as typed; returns what was said."""

    def record(name: str, at: str | None = None, **texts: str) -> str:
        wish = WISHES[name]
        values, problems = values_from_texts(fields_of(wish), texts, stored_moment)
        assert not problems, problems
        return ledger.record(wish(**values), Moment(at) if at else None).sentences[0]

    return record


@pytest.fixture
def shop(ledger: Ledger, typed: Callable[..., Any], once: Callable[..., Ledger]) -> Ledger:
    """Two printers, three materials, four spools, bought items, parts of every kind and a print file."""
    things: list[tuple[Any, Moment | None]] = []

    def add(noun: str, at: Moment, **texts: str) -> None:
        things.append((Add(typed(noun, **texts)), at))

    add("build", BEGAN, code="LB", name="Lantern Beetle")
    add("supplier", BEGAN, code="SUP", name="Filament by post", lead_days="4", delivery="4.90")
    for code, polymer in (("ABS-BLACK", "ABS"), ("ABS-RED", "ABS"), ("TPU-RED", "TPU")):
        add("material", BEGAN, code=code, name=code, polymer=polymer, supplier="SUP", dry_time="4 h", density="1.05")
    bed = {"bed_x": "300", "bed_y": "300", "bed_z": "300"}
    add("printer", BEGAN, code="P1", name="Big one", printer_class="BIG", runs_unattended="yes", **bed)
    add("printer", BEGAN, code="P2", name="Twin", printer_class="TWIN", heads="2", **bed)
    for code, material in (("B1", "ABS-BLACK"), ("B2", "ABS-BLACK"), ("R1", "ABS-RED"), ("T1", "TPU-RED")):
        add("spool", BEGAN, code=code, material=material)
    add("bought item", BEGAN, code="SCREW", name="Screw M4", pack_quantity="50", supplier="SUP")
    add("bought item", BEGAN, code="GLUE", name="Glue", account="rough")
    figures = {"print_time": "2:00", "material": "ABS-BLACK", "grams": "100", "figures_from": "slicing"}
    add("part", BEGAN, code="FL07", name="Shin", build="LB", handed="yes", **figures)
    add("part", BEGAN, code="HINGE", name="Hinge", build="LB", **figures)
    add(
        "part",
        BEGAN,
        code="BEARING",
        name="Bearing",
        build="LB",
        origin="bought",
        bought_item="SCREW",
        bought_quantity="1",
    )
    add("part", BEGAN, code="NEW", name="Not known yet", build="LB")
    add(
        "print file",
        BEGAN,
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
    return once("shop", lambda: ledger.record_all(things, "the shop"))


@pytest.fixture
def workshop(request: pytest.FixtureRequest, once: Callable[..., Ledger]) -> Ledger:
    """The shop and, in the same build, the legs; a hinge is printed there."""

    def record() -> None:
        shop: Ledger = request.getfixturevalue("shop")
        known = {"LB", "GLUE", "HINGE"}
        things = [
            (Add(form_from_texts(noun, ({"build": "LB"} if noun == "part" else {}) | texts)), BEGAN)
            for noun, texts in THINGS
            if texts["code"] not in known
        ]
        shop.record_all(things, "the legs")

    return once("shop and legs", record)


ANSWERS = {
    "": ("accounts", "work", "fits", "needs", "sides", "blockers", "progress", "machines", "doable", "outlook",
         "cost", "figures", "alerts"),
    "learning": ("tally", "grams", "polymers", "pace"),
    "hours": ("running", "queued", "pieces", "ready_file", "no_figures", "position_minutes", "sets", "total_minutes",
              "on_top", "failing"),
    "stock": ("not_covered", "one_spool", "work", "laid", "timeline", "materials", "baskets", "hours_burn_down"),
}  # fmt: skip


def seen_on(printers: Iterable[OnPrinter]) -> list[tuple[object, ...]]:
    """What is told of each printer before the whole record is read."""
    return [tuple(getattr(printer, field.name) for field in fields(OnPrinter)) for printer in printers]


class Followed:
    """Keeps a Status of a ledger as a screen does: read again and reckoned again after each change."""

    def __init__(self, ledger: Ledger) -> None:
        self.ledger = ledger
        self.status = take_stock(ledger.snapshot(), ledger.now())
        self.answers(self.status)

    def look(self) -> None:
        """Every answer is now the one that somebody would give who reads all of the ledger for the first time."""
        self.status = take_stock(self.ledger.snapshot(), self.ledger.now(), self.status)
        other = Reader(self.ledger.path)
        snapshot = other.snapshot(reference())
        other.close()
        assert self.status.snapshot == snapshot
        assert self.answers(self.status) == self.answers(take_stock(snapshot, self.ledger.now()))
        assert seen_on(look_first(self.ledger.of_printers(self.ledger.now()), self.ledger.now()).printers) == seen_on(
            self.status.machines.printers
        )

    @staticmethod
    def answers(status: Status) -> dict[str, str]:
        """In words, so that the order counts too."""
        of = {noun: getattr(status, noun) if noun else status for noun in ANSWERS}
        return {f"{noun} {name}": repr(getattr(of[noun], name)) for noun, names in ANSWERS.items() for name in names}


@pytest.fixture
def follow(monkeypatch: pytest.MonkeyPatch) -> Callable[[Ledger], Followed]:
    """An answer that reads other nouns than it says would not be told anew when these change."""
    reading: list[set[str]] = []
    ask, get = Kept.ask, Snapshot.__getattribute__

    def watched(snapshot: Snapshot, name: str) -> Any:
        if reading and (name in INDEXED or name in SNAPSHOT_FIELDS):
            reading[-1].add(INDEXED.get(name, name))
        return get(snapshot, name)

    def asked(kept: Kept, name: str, reads: Any, rests_on: Any, answer: Any, moves: bool = False) -> Any:
        def watch() -> Any:
            reading.append(set())
            try:
                return answer()
            finally:
                assert reading.pop() <= {*reads, *ALWAYS}, name

        return ask(kept, name, reads, rests_on, watch, moves)

    monkeypatch.setattr(Snapshot, "__getattribute__", watched)
    monkeypatch.setattr(Kept, "ask", asked)
    return Followed
