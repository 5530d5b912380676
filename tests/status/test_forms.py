"""Each noun's form, recorded and read back."""

import dataclasses
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.nouns import FORMS, Add, Retire, form_from_texts, key_of, noun_fields
from buildlog.status.forms import form_of, forms_of, keys_of

BUILD: tuple[tuple[str, dict[str, str]], ...] = (
    ("settings", {"home_zone": "Europe/Vienna", "currency": "CHF", "kwh_price": "0.28", "day_starts": "7:00"}),
    ("build", {"code": "LB", "name": "Lantern Beetle", "rank": "1", "filming_rule": "FREQ=WEEKLY;BYDAY=SA"}),
    ("supplier", {"code": "SUP", "name": "by post", "cutoff_day": "Thursday", "cutoff_time": "15:00"}),
    ("box", {"code": "B1", "name": "grey crate", "place": "shelf"}),
    ("resource", {"code": "JIG1", "name": "ring jig", "kind": "jig"}),
    ("material", {"code": "ABS-BLACK", "name": "black", "polymer": "ABS", "price": "19.90", "supplier": "SUP"}),
    ("material", {"code": "TPU-RED", "name": "red", "polymer": "TPU", "density": "1.19", "smelly": "no"}),
    ("printer", {"code": "P1", "name": "large one", "bed_x": "300", "bed_y": "300", "bed_z": "400", "heads": "2"}),
    ("spool", {"code": "S1", "material": "ABS-BLACK"}),
    ("spool", {"code": "S2", "material": "TPU-RED", "content": "500", "tare": "180", "weighed": "655.5",
               "opened": "-2d"}),
    ("bought item", {"code": "HINGE", "name": "hinge", "stock": "12", "box": "B1"}),
    ("bought item", {"code": "GLUE", "name": "glue", "unit": "ml", "account": "rough", "stock": "low"}),
    ("assembly", {"code": "BEETLE", "name": "beetle", "build": "LB"}),
    ("assembly", {"code": "LEG", "name": "foreleg", "build": "LB", "parent": "BEETLE", "paired": "yes",
                  "count": "2"}),
    ("part", {"code": "FL01", "name": "femur", "build": "LB", "handed": "yes", "assembly": "LEG", "quantity": "2",
              "print_time": "4:30", "material": "ABS-BLACK", "grams": "84.5", "support": "6", "revision": "C",
              "material_2": "any TPU", "grams_2": "3", "purge_2": "12", "length": "180.5", "nozzle": "0.4"}),
    ("part", {"code": "BRACE", "name": "brace", "build": "LB", "origin": "made by hand", "hand_time": "45 min"}),
    ("part", {"code": "HINGES", "name": "knee hinge", "build": "LB", "origin": "bought", "bought_item": "HINGE",
              "assembly": "LEG", "spares": "2"}),
    ("part", {"code": "FL02", "name": "small femur", "build": "LB", "variant_of": "FL01", "scale": "72.5"}),
    ("usage", {"assembly": "LEG", "part": "BRACE", "quantity": "3", "side_rule": "L only"}),
    ("fit test", {"code": "KNEE", "name": "knee moves", "assembly": "LEG", "kind": "motion"}),
    ("fit test", {"code": "WEAR", "name": "worn", "assembly": "LEG", "kind": "on-person", "parts": "BRACE",
                  "low": "0.2", "high": "1"}),
    ("step", {"code": "GLUE1", "name": "bond", "assembly": "LEG", "kind": "bond", "bench_time": "25 min",
              "handle_after": "24h", "load_after": "0", "jig": "JIG1", "uses": "GLUE x5, HINGE"}),
    ("step", {"code": "SAND1", "name": "sand", "part": "FL01", "kind": "sand", "bench_time": "10 min",
              "handle_after": "0", "load_after": "0"}),
    ("wait", {"assembly": "BEETLE", "on_assembly": "LEG", "on_step": "GLUE1"}),
    ("question", {"code": "Q1", "build": "LB", "text": "how many toes?", "holds": "LEG L, FL01"}),
    ("print file", {"code": "PF1", "name": "femurs", "printer_class": "large", "lines": "FL01 L, FL01 R x2",
                    "print_time": "13:00", "material": "ABS-BLACK", "grams": "260", "purge": "4"}),
    ("milestone", {"code": "PARADE", "name": "parade", "build": "LB", "kind": "event", "due": "+30d",
                   "targets": "BEETLE shown, LEG L"}),
    ("episode", {"build": "LB", "number": "14", "title": "legs", "films_at": "Sat 15:00"}),
    ("goal", {"build": "LB", "number": "14", "kind": "ready", "code": "LEG", "side": "L"}),
    ("goal", {"build": "LB", "number": "14", "kind": "free", "text": "order cord / cut it"}),
    ("goal", {"build": "LB", "number": "14", "kind": "step", "code": "GLUE1"}),
    ("shot", {"code": "SH1", "build": "LB", "what": "the leg before glue", "episode": "14", "step": "GLUE1",
              "side": "L", "filmed": "-2h"}),
    ("viewer question", {"code": "VQ1", "build": "LB", "text": "how heavy?", "asked_in": "14", "asked": "-3h",
                         "answer": "9 kg", "answered": "-1h"}),
    ("promise", {"code": "PR1", "build": "LB", "who": "rope maker", "supplied": "cord", "promised": "a mention",
                 "due": "+10d"}),
)  # fmt: skip

FILLED: dict[str, dict[str, Any]] = {
    "ABS-BLACK": {"density": 1050, "dry_celsius": 70, "dry_time": 240, "open_time": 20160, "smelly": True},
    "TPU-RED": {"dry_celsius": 50, "dry_time": 480, "open_time": 1440},
    "S1": {"content": 1_000_000, "received": "2026-11-25T12:00:00Z"},
    "S2": {"received": "2026-11-23T12:00:00Z"},
    "HINGES": {"bought_quantity": 1},
    "BRACE": {"assembly": "LEG", "quantity": 3, "side_rule": "L only"},  # its first usage came after it
    "KNEE": {"rule": "new revision", "parts": ("FL01", "HINGES", "BRACE")},
    "WEAR": {"rule": "any new piece"},
    "GLUE1": {"place": 1},
    "SAND1": {"place": 1},
    "Q1": {"asked": "2026-11-25T12:00:00Z"},
    "PF1": {"prepared": "2026-11-25T12:00:00Z"},
    "PR1": {"made": "2026-11-25T12:00:00Z"},
}
"""What stands in for what was not typed. Polymers: shared/materials.toml."""


@pytest.fixture
def recorded(ledger: Ledger, typed: Any) -> dict[tuple[str, str], Any]:
    """Everything of BUILD recorded; the forms as typed, with what stands in, by noun and key."""
    forms = [typed(noun, **texts) for noun, texts in BUILD]
    ledger.record_all([(Add(form), None) for form in forms], "a build")
    return {(form.NOUN, key_of(form)): dataclasses.replace(form, **FILLED.get(key_of(form), {})) for form in forms}


def test_every_noun_has_an_example_here() -> None:
    assert {noun for noun, _ in BUILD} == set(FORMS)


def test_what_was_added_reads_back_as_the_form_that_was_typed(ledger: Ledger, recorded: Any) -> None:
    snapshot = ledger.snapshot()
    for (noun, key), form in recorded.items():
        assert form_of(snapshot, noun, key) == form
        assert forms_of(snapshot, noun)[key] == form


def test_a_form_read_back_writes_texts_that_read_as_the_same_form(ledger: Ledger, recorded: Any) -> None:
    snapshot = ledger.snapshot()
    for noun, key in recorded:
        form = form_of(snapshot, noun, key)
        texts = {field.name: field.show(getattr(form, field.name)) for field in noun_fields(noun)}
        assert form_from_texts(noun, texts) == form


def test_a_thing_is_called_by_its_row_as_its_form_is(ledger: Ledger, recorded: Any) -> None:
    snapshot = ledger.snapshot()
    for noun in FORMS:
        assert keys_of(snapshot, noun) == tuple(key_of(form) for form in forms_of(snapshot, noun).values())


def test_keys_name_what_is_in_use(ledger: Ledger, recorded: Any) -> None:
    assert keys_of(ledger.snapshot(), "usage") == ("LEG/FL01", "LEG/HINGES", "LEG/BRACE")
    assert keys_of(ledger.snapshot(), "wait") == ("BEETLE//LEG/GLUE1",)
    assert "LB/14/free///order cord / cut it" in keys_of(ledger.snapshot(), "goal")
    ledger.record(Retire("spool", "S1"))
    assert keys_of(ledger.snapshot(), "spool") == ("S2",)
    assert form_of(ledger.snapshot(), "spool", "S1") is None


@pytest.mark.parametrize(
    ("noun", "key"), [("part", "NONE"), ("usage", "LEG"), ("usage", "LEG/NONE"), ("episode", "LB/x"), ("goal", "a")]
)
def test_a_key_that_names_nothing_has_no_form(ledger: Ledger, recorded: Any, noun: str, key: str) -> None:
    assert form_of(ledger.snapshot(), noun, key) is None
