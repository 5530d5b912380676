"""Materials, spools, bought items, printers and print files."""

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.lines import Line
from buildlog.status.forms import form_of
from buildlog.terms import Side

AT = "2026-11-25T12:00:00Z"


def test_a_material_starts_from_the_usual_figures_of_its_polymer(ledger: Ledger, add) -> None:
    add("material", code="ABS-BLACK", name="black", polymer="ABS")
    (material,) = ledger.snapshot().materials
    # shared/materials.toml: density from tables of moulding trainers, drying and open time common practice
    assert (material.density_mg_cm3, material.dry_celsius, material.dry_minutes) == (1050, 70, 240)
    assert (material.open_minutes, material.smelly) == (20160, True)


def test_what_is_typed_of_a_material_wins_over_the_usual(ledger: Ledger, add) -> None:
    add("material", code="ABS-MILD", name="mild", polymer="ABS", density="1.07", dry_time="3h", smelly="no")
    (material,) = ledger.snapshot().materials
    assert (material.density_mg_cm3, material.dry_minutes, material.smelly) == (1070, 180, False)


def test_a_polymer_that_nobody_knows_needs_its_density(add, refused) -> None:
    text = refused(add, "material", code="BIO", name="bio", polymer="PHB")
    assert text.startswith("density: no usual density of PHB is known (only of PLA")
    add("material", code="BIO", name="bio", polymer="PHB", density="1.25")


@pytest.fixture
def black(add) -> None:
    add("material", code="ABS-BLACK", name="black", polymer="ABS", pack="750")


def test_a_spool_holds_a_pack_and_its_tare_is_assumed(ledger: Ledger, black: None, add) -> None:
    add("spool", code="S1", material="ABS-BLACK")
    (spool,) = ledger.snapshot().spools
    # usual numbers: plastic reel 150-280 g, mean 215 ± 65; fill −0/+3 %, ± 1.5 % of 750 g
    assert (spool.content_mg, spool.content_pm_mg) == (750_000, 11_250)
    assert (spool.tare_mg, spool.tare_pm_mg, spool.tare_assumed) == (215_000, 65_000, True)
    assert spool.received_at == AT


def test_a_weighed_tare_and_typed_content_stand_without_doubt(ledger: Ledger, black: None, add) -> None:
    add("spool", code="S1", material="ABS-BLACK", content="480", tare="212.4")
    (spool,) = ledger.snapshot().spools
    assert (spool.content_mg, spool.content_pm_mg) == (480_000, 0)
    assert (spool.tare_mg, spool.tare_pm_mg, spool.tare_assumed) == (212_400, 0, False)


def test_a_spool_taken_up_half_way_is_opened_and_weighed(ledger: Ledger, black: None, add, clock) -> None:
    add("spool", code="S1", material="ABS-BLACK", opened="yesterday 20:00", weighed="611", at=clock.ago(hours=1))
    assert [(e.kind.value, e.at, e.gross_mg) for e in ledger.snapshot().spool_entries] == [
        ("opened", "2026-11-24T19:00:00Z", None),
        ("weighed", "2026-11-25T11:00:00Z", 611_000),
    ]
    assert ledger.snapshot().spools[0].received_at == "2026-11-24T19:00:00Z"


def test_another_weight_in_the_form_is_another_reading(ledger: Ledger, black: None, add, change, clock) -> None:
    add("spool", code="S1", material="ABS-BLACK", weighed="611")
    clock.move_on(days=1)
    change("spool", "S1", weighed=580_000)
    assert [e.gross_mg for e in ledger.snapshot().spool_entries] == [611_000, 580_000]
    assert form_of(ledger.snapshot(), "spool", "S1").weighed == 580_000


def test_a_material_with_spools_that_are_not_empty_is_kept(black: None, add, retire, refused, write_row) -> None:
    add("spool", code="S1", material="ABS-BLACK")
    add("spool", code="S2", material="ABS-BLACK")
    assert "still needed by spool S1, S2" in refused(retire, "material", "ABS-BLACK")
    write_row("spool_entry", spool_id=1, at=AT, kind="emptied")
    retire("spool", "S2")
    retire("material", "ABS-BLACK")


def test_the_stock_of_a_bought_item_is_a_count_or_a_look(ledger: Ledger, add, change) -> None:
    add("bought item", code="PINS", name="pins", stock="050")
    add("bought item", code="GLUE", name="glue", account="rough", stock="plenty")
    change("bought item", "PINS", stock="44")
    change("bought item", "GLUE", stock="out")
    entries = [(e.bought_item_id, e.kind.value, e.amount, e.level) for e in ledger.snapshot().bought_entries]
    assert entries == [
        (1, "counted", 50, None),
        (2, "level", 0, "plenty"),
        (1, "counted", 44, None),
        (2, "level", 0, "out"),
    ]
    assert form_of(ledger.snapshot(), "bought item", "PINS").stock == "44"


def test_a_bought_item_that_a_part_or_step_takes_is_kept(beetle: None, add, retire, refused) -> None:
    add("bought item", code="PINS", name="pins")
    add("part", code="PIN", name="pin", build="LB", origin="bought", bought_item="PINS")
    add("step", code="PEG", name="peg", assembly="HEAD", kind="assemble", bench_time="5", uses="PINS x4")
    assert "still needed by part PIN; step PEG" in refused(retire, "bought item", "PINS")


def test_a_printer_begins_with_its_nozzle_on_every_head(ledger: Ledger, add, change, clock) -> None:
    bed = {"bed_x": "300", "bed_y": "300", "bed_z": "400"}
    add("printer", code="P1", name="twin", heads="2", nozzle="0.6", **bed)
    assert [(s.kind.value, s.head, s.nozzle_um) for s in ledger.snapshot().set_ups] == [
        ("nozzle", 1, 600),
        ("nozzle", 2, 600),
    ]
    clock.move_on(days=1)
    change("printer", "P1", nozzle=400)
    assert len(ledger.snapshot().set_ups) == 4
    assert form_of(ledger.snapshot(), "printer", "P1").nozzle == 400


@pytest.fixture
def femurs(beetle: None, black: None, add) -> None:
    add("part", code="FEMUR", name="femur", build="LB", handed="yes")
    add("part", code="HORN", name="horn", build="LB")
    file = {"code": "PF1", "printer_class": "large", "print_time": "9:00", "material": "ABS-BLACK", "grams": "300"}
    add("print file", **file, lines="FEMUR L x2, HORN")


def test_a_print_file_holds_lines_of_the_current_revisions(ledger: Ledger, femurs: None, change, write_row) -> None:
    write_row("revision", part_id=1, letter="B", since_at=AT)
    snapshot = ledger.snapshot()
    assert [(line.part_id, line.revision_id, line.side, line.quantity) for line in snapshot.file_lines] == [
        (1, 1, "L", 2),
        (2, 2, "-", 1),
    ]
    change("print file", "PF1", lines=(Line("FEMUR", Side.RIGHT),))
    assert [(line.revision_id, line.side) for line in ledger.snapshot().file_lines] == [(3, "R")]


def test_a_line_of_a_print_file_says_the_side_of_handed_parts_only(femurs: None, add, refused) -> None:
    file = {"code": "PF2", "printer_class": "large", "print_time": "9:00", "material": "ABS-BLACK", "grams": "300"}
    text = refused(add, "print file", **file, lines="FEMUR, HORN R")
    assert text == ("lines: FEMUR is handed: write FEMUR L or FEMUR R\nlines: HORN is not handed: write it without R")


def test_only_printed_parts_are_laid_down(beetle: None, black: None, add, refused) -> None:
    add("part", code="BRACE", name="brace", build="LB", origin="made by hand")
    file = {"code": "PF2", "printer_class": "large", "print_time": "9:00", "material": "ABS-BLACK", "grams": "300"}
    assert "BRACE is made by hand: it is not printed" in refused(add, "print file", **file, lines="BRACE")
