"""Parts with the figures of their current revision and their first usage."""

from buildlog.ledger import Ledger
from buildlog.proposals.lines import Ask
from buildlog.status.forms import form_of

AT = "2026-11-25T12:00:00Z"


def _femur(add, **more: str) -> None:
    add("material", code="ABS-BLACK", name="black", polymer="ABS")
    texts = {"code": "FEMUR", "name": "femur", "build": "LB", "handed": "yes", "assembly": "LEG"}
    add("part", **texts, material="ABS-BLACK", grams="80", print_time="4:00", **more)


def test_a_part_comes_with_its_first_revision_demands_and_usage(ledger: Ledger, beetle: None, add) -> None:
    _femur(add, revision="C", support="6", material_2="any TPU", grams_2="3", purge_2="12")
    snapshot = ledger.snapshot()
    (revision,) = snapshot.revisions
    assert (revision.letter, revision.since_at, revision.print_minutes) == ("C", AT, 240)
    assert [(d.head, d.material_id, d.polymer, d.part_mg, d.support_mg, d.purge_mg) for d in snapshot.demands] == [
        (1, 1, None, 80_000, 6_000, 0),
        (2, None, "TPU", 3_000, 0, 12_000),
    ]
    (usage,) = snapshot.usages
    assert (usage.assembly_id, usage.part_id, usage.since_at) == (2, 1, AT)


def test_figures_change_on_the_current_revision(ledger: Ledger, beetle: None, add, change) -> None:
    _femur(add, material_2="any TPU", grams_2="3")
    change("part", "FEMUR", print_time=250, grams=81_500, material=Ask(None, "ABS"), material_2=None, grams_2=None)
    snapshot = ledger.snapshot()
    assert [(r.letter, r.print_minutes) for r in snapshot.revisions] == [("A", 250)]
    assert [(d.head, d.material_id, d.polymer, d.part_mg) for d in snapshot.demands] == [(1, None, "ABS", 81_500)]


def test_a_new_revision_is_not_made_by_changing_a_letter(beetle: None, add, change, refused) -> None:
    _femur(add)
    assert "revise FEMUR instead" in refused(change, "part", "FEMUR", revision="B")


def test_the_first_usage_changes_through_the_part(ledger: Ledger, beetle: None, add, change) -> None:
    _femur(add)
    change("part", "FEMUR", quantity=3, spares=1)
    assert form_of(ledger.snapshot(), "usage", "LEG/FEMUR").quantity == 3
    change("part", "FEMUR", assembly="TOE")
    assert form_of(ledger.snapshot(), "usage", "LEG/FEMUR") is None
    assert form_of(ledger.snapshot(), "usage", "TOE/FEMUR").quantity == 3
    change("part", "FEMUR", assembly=None, quantity=None, spares=None)
    assert form_of(ledger.snapshot(), "part", "FEMUR").assembly is None


def test_a_part_in_use_or_made_cannot_be_retired(ledger: Ledger, beetle: None, add, retire, refused) -> None:
    _femur(add)
    add("step", code="SAND", name="sand", part="FEMUR", kind="sand", bench_time="10")
    text = refused(retire, "part", "FEMUR")
    assert "assembly LEG" in text
    assert "step SAND" in text
    retire("usage", "LEG/FEMUR")
    retire("step", "SAND")
    retire("part", "FEMUR")
    assert form_of(ledger.snapshot(), "part", "FEMUR") is None


def test_a_fitted_piece_holds_its_part(beetle: None, add, retire, refused, write_row) -> None:
    _femur(add)
    retire("usage", "LEG/FEMUR")
    add("part", code="OTHER", name="other femur", build="LB", handed="yes", assembly="LEG")
    lot = {"part_id": 1, "revision_id": 1, "side": "L", "quantity": 1, "origin": "count", "grade": "good"}
    lot_id = write_row("lot", made_at=AT, **lot)
    write_row("fitting", position_id=2, usage_id=2, number=1, lot_id=lot_id, from_at=AT)
    assert "still needed by piece fitted in LEG" in refused(retire, "part", "FEMUR")


def test_a_made_part_stays_handed_and_of_its_origin(beetle: None, add, change, refused, write_row) -> None:
    _femur(add)
    lot = {"part_id": 1, "revision_id": 1, "side": "L", "quantity": 1, "origin": "count", "grade": "good"}
    write_row("lot", made_at=AT, **lot)
    assert "There are pieces or prints of FEMUR" in refused(change, "part", "FEMUR", handed=False)


def test_a_bought_part_takes_one_of_its_item_by_itself(ledger: Ledger, beetle: None, add, refused) -> None:
    add("bought item", code="HINGE", name="hinge")
    add("part", code="KNEE", name="knee hinge", build="LB", origin="bought", bought_item="HINGE", assembly="LEG")
    assert form_of(ledger.snapshot(), "part", "KNEE").bought_quantity == 1
    assert "bought_item: " in refused(add, "part", code="HIP", name="hip", build="LB", origin="bought")


def test_variants_never_go_round_in_a_circle(beetle: None, add, change, refused) -> None:
    add("part", code="BIG", name="big", build="LB")
    add("part", code="MID", name="mid", build="LB", variant_of="BIG", scale="80")
    add("part", code="TINY", name="tiny", build="LB", variant_of="MID", scale="60")
    text = refused(change, "part", "BIG", variant_of="TINY", scale=150.0)
    assert "BIG is a variant of TINY is a variant of MID is a variant of BIG" in text


def test_a_part_stays_in_its_build(beetle: None, add, change, refused) -> None:
    add("build", code="DC", name="Drum Cart")
    add("part", code="HORN", name="horn", build="LB")
    assert "HORN belongs to another build" in refused(change, "part", "HORN", build="DC")
