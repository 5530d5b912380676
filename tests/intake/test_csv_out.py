"""Things written as files and read again."""

import csv
import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildlog.files import export_list, export_sheet, read_into
from buildlog.intake.csv_out import csv_list
from buildlog.intake.form_rows import FormRow, read_form
from buildlog.intake.neutral import STARTS, neutral_cell, plain_cell
from buildlog.intake.rows_of_files import rows_of_list
from buildlog.intake.sheet import read_sheet
from buildlog.intake.sheet_out import build_sheet
from buildlog.ledger import Ledger
from buildlog.proposals.field import printable
from buildlog.proposals.file_problems import Problems
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.nouns import FORMS
from buildlog.status.forms import forms_of
from buildlog.terms import Moment

NOW = Moment("2026-11-25T12:00:00Z")
# whatever a person can type, as a field keeps it
TEXTS = st.text(max_size=60).map(lambda text: printable(text, 200)).filter(bool)
ODD = st.sampled_from(["=1+1", "-4", "-", "'tis", "''", "@a", "+49 30", '"', ";=2", "a,b;c d", "[/]", "[bold]", "#1"])


def forms_in(rows: Any) -> list[Any]:
    problems = Problems()
    read = [read_form(row, moment_reader(NOW, "Europe/Berlin"), "EUR", problems) for row in rows]
    problems.raise_if_any()
    return [one.form for one in read if isinstance(one, FormRow)]


@pytest.fixture
def other(tmp_path: Path, clock: Any) -> Any:
    opened = Ledger.open(tmp_path / "other.db", tmp_path / "backups", clock)
    yield opened
    opened.close()


@pytest.fixture
def much(built: None, add: Callable[..., Any]) -> None:
    """Beside the small build one of each other noun."""
    add("supplier", code="SUP", name="=by post", cutoff_day="Thursday", cutoff_time="15:00", delivery="4.90")
    add("box", code="B1", name="grey; crate", place="-")
    add("resource", code="JIG1", name="ring jig", kind="jig")
    add("spool", code="S2", material="ABS-BLACK", content="500", tare="180", weighed="655.5", opened="-2d",
        received="-3d")  # fmt: skip
    add("bought item", code="HINGE", name="hinge", stock="12", box="B1", supplier="SUP")
    add("bought item", code="GLUE", name="glue", unit="ml", account="rough", stock="low")
    add("part", code="KNEE-H", name="hinge", build="LB", origin="bought", bought_item="HINGE", assembly="LEG")
    add("part", code="FL03", name="small femur", build="LB", variant_of="FL01", scale="72.5")
    add("usage", assembly="BEETLE", part="FL02", quantity="3", spares="2")
    add("wait", assembly="BEETLE", on_assembly="LEG", on_step="GLUE1")
    add("question", code="Q1", build="LB", text="how many toes, really?", holds="LEG L, FL01")
    add("print file", code="PF1", printer_class="large", lines="FL01 L, FL01 R x2", print_time="13:00",
        material="ABS-BLACK", grams="260.5", purge="4")  # fmt: skip
    add("episode", build="LB", number="14", title="legs", films_at="Sat 15:00")
    add("goal", build="LB", number="14", kind="free", text="order cord / cut it")
    add("goal", build="LB", number="14", kind="ready", code="LEG", side="L")
    add("shot", code="SH1", build="LB", what="the leg, before glue", episode="14", step="GLUE1", filmed="-2h")
    add(
        "viewer question",
        code="VQ1",
        build="LB",
        text="how heavy; really?",
        asked_in="14",
        asked="-3h",
        answered="-1h",
        answer="9",
    )
    add("promise", code="PR1", build="LB", who="rope maker", promised="a mention", made="-5h", due="+10d", kept="-3h")


def all_forms(ledger: Ledger) -> dict[str, dict[str, Any]]:
    snapshot = ledger.snapshot()
    return {noun: forms_of(snapshot, noun) for noun in FORMS}


def test_a_ledger_exported_as_lists_reads_back_as_the_same_forms(
    ledger: Ledger, much: None, other: Ledger, written: Any
) -> None:
    snapshot = ledger.snapshot()
    assert all(forms_of(snapshot, noun) for noun in FORMS)
    files = [written(f"{number}.csv", export_list(snapshot, noun)) for number, noun in enumerate(FORMS)]
    read_into(other, files)
    assert all_forms(other) == all_forms(ledger)
    assert read_into(other, files).group_id is None


def test_a_ledger_exported_as_a_sheet_reads_back_as_the_same_forms(
    ledger: Ledger, much: None, other: Ledger, written: Any
) -> None:
    text = export_sheet(ledger.snapshot())
    assert text == export_sheet(ledger.snapshot())
    read_into(other, [written("all.toml", text)])
    assert all_forms(other) == all_forms(ledger)


@given(name=TEXTS | ODD, place=TEXTS | ODD)
@settings(max_examples=200)
def test_any_text_survives_a_list_and_a_sheet(name: str, place: str) -> None:
    form = FORMS["box"](code="B1", name=name, place=place)
    assert forms_in(rows_of_list("x.csv", csv_list("box", [form]), None, "EUR", Problems())) == [form]
    assert forms_in(read_sheet("x.toml", build_sheet([form]), Problems())) == [form]


@given(name=TEXTS | ODD)
@settings(max_examples=200)
def test_no_written_cell_starts_as_a_formula(name: str) -> None:
    text = csv_list("box", [FORMS["box"](code="B1", name=name)])
    for row in csv.reader(io.StringIO(text.split("\n", 1)[1])):
        for cell in row:
            assert not cell.startswith(STARTS) or cell.lstrip("-").replace(".", "").replace(",", "").isdigit()


@given(text=st.text(max_size=20).map(str.strip) | ODD)
def test_taking_the_protection_off_gives_the_text_again(text: str) -> None:
    assert plain_cell(neutral_cell(text)) == text


def test_negative_numbers_stay_numbers() -> None:
    assert (neutral_cell("-4"), neutral_cell("-0.4"), neutral_cell("-4+1")) == ("-4", "-0.4", "'-4+1")


@pytest.mark.parametrize("noun", FORMS)
def test_the_headings_of_a_form_mean_its_fields_and_no_others(noun: str) -> None:
    from buildlog.intake.headings import heading_of
    from buildlog.intake.lists import headings_for
    from buildlog.proposals.nouns import noun_fields

    known = headings_for(noun, "EUR")
    for field in noun_fields(noun):
        for heading in (field.name, field.label, heading_of(field), field.label.upper()):
            assert known.find(heading).field.name == field.name
