"""The database's CHECKs are the last net: every breach of one is found in the form first."""

import dataclasses
import sqlite3
from typing import Any

import pytest
from sqlalchemy import CheckConstraint

from buildlog.errors import BadWish
from buildlog.ledger import Ledger
from buildlog.proposals.lines import Ask
from buildlog.proposals.nouns import FORMS, Add, noun_fields
from buildlog.proposals.problems import problems
from buildlog.proposals.recorded import table_of
from buildlog.record.tables import TABLES
from buildlog.status.forms import form_of

ACROSS_FIELDS: dict[tuple[str, str], dict[str, Any]] = {
    ("supplier", "cutoff_weekday"): {"cutoff_day": 7},
    ("assembly", "lead"): {"lead_side": "L"},
    ("assembly", "lead_paired"): {"lead_side": "L", "lead_test": "BENDS"},
    ("part", "bought"): {"origin": "bought"},
    ("part", "lead_handed"): {"lead_side": "L"},
    ("shot", "safe_filmed"): {"safe": "2026-11-25T12:00:00Z"},
    ("step", "one_place"): {"part": "HORN"},
}
"""A breach of each CHECK that no single column's name explains: by noun and constraint."""

NOT_FROM_FORMS = {
    "created_at", "retired_at", "ended_at", "since_at", "closed_at", "ticked_at", "document",
    "content_pm_mg", "tare_pm_mg", "tare_assumed", "tare_mg",
}  # fmt: skip
"""Columns that actions fill by themselves, or (tare) from a field of its own."""

BAD_VALUES: dict[str, Any] = {"_mg": -1, "_minutes": -1, "_minor": -1, "_um": -1, "_days": -1, "_percent": -1}


def checks() -> list[tuple[str, str]]:
    """(noun, constraint) of every CHECK on the nouns' own tables."""
    found = []
    for noun in FORMS:
        for constraint in TABLES[table_of(noun)].__table__.constraints:  # type: ignore[attr-defined]  # SQLModel adds it
            if isinstance(constraint, CheckConstraint):
                found.append((noun, str(constraint.name).removeprefix(f"ck_{table_of(noun)}_")))
    return sorted(found)


def breach(noun: str, constraint: str) -> dict[str, Any] | None:
    """Values of the form that would break the constraint; None where no form can."""
    if (noun, constraint) in ACROSS_FIELDS:
        return ACROSS_FIELDS[noun, constraint]
    field = next((f for f in noun_fields(noun) if f.stored_as == constraint and not f.apart), None)
    if field is None:
        return None
    if constraint == "code":
        return {"code": "no code"}
    if constraint.endswith("_at"):
        return {field.name: "yesterday"}
    if field.choices:
        return {field.name: "nothing of that"}
    if constraint in ("count", "quantity", "heads"):
        return {field.name: 0}
    return {field.name: next((bad for ending, bad in BAD_VALUES.items() if constraint.endswith(ending)), 2)}


@pytest.fixture
def things(ledger: Ledger, beetle: None, typed: Any) -> dict[str, str]:
    """One of each noun with a CHECK, by noun: its key."""
    forms = (
        typed("supplier", code="SUP", name="by post"),
        typed("box", code="B1", name="crate"),
        typed("resource", code="JIG", name="jig", kind="jig"),
        typed("material", code="ABS", name="black", polymer="ABS"),
        typed("printer", code="P1", name="one", bed_x="300", bed_y="300", bed_z="300"),
        typed("spool", code="S1", material="ABS"),
        typed("bought item", code="PINS", name="pins"),
        typed("part", code="HORN", name="horn", build="LB", assembly="HEAD"),
        typed("fit test", code="BENDS", name="bends", assembly="HEAD", kind="motion"),
        typed("step", code="GLUE", name="glue", assembly="HEAD", kind="bond", bench_time="5"),
        typed("wait", assembly="HEAD", on_assembly="LEG"),
        typed("question", code="Q1", build="LB", text="?"),
        typed("print file", code="PF1", printer_class="x", lines="HORN", print_time="60", material="ABS", grams="5"),
        typed("milestone", code="PARADE", name="parade", kind="event", due="+9d"),
        typed("episode", build="LB", number="1", films_at="+3d"),
        typed("goal", build="LB", number="1", kind="free", text="cut cord"),
        typed("shot", code="S1", build="LB", what="the horn"),
        typed("viewer question", code="V1", build="LB", text="Why a beetle?"),
        typed("promise", code="PR1", build="LB", who="the neighbour", promised="a mention"),
    )
    ledger.record_all([(Add(form), None) for form in forms], "one of each")
    codes = {"settings": "", "build": "LB", "supplier": "SUP", "box": "B1", "resource": "JIG", "material": "ABS"}
    codes |= {"printer": "P1", "spool": "S1", "bought item": "PINS", "assembly": "HEAD", "part": "HORN"}
    codes |= {"usage": "HEAD/HORN", "fit test": "BENDS", "step": "GLUE", "wait": "HEAD//LEG/", "question": "Q1"}
    return codes | {
        "print file": "PF1",
        "milestone": "PARADE",
        "episode": "LB/1",
        "goal": "LB/1/free///cut cord",
        "shot": "S1",
        "viewer question": "V1",
        "promise": "PR1",
    }


def test_every_check_is_broken_here_or_lies_on_a_column_that_no_form_fills() -> None:
    unexplained = [
        (noun, constraint)
        for noun, constraint in checks()
        if breach(noun, constraint) is None and constraint not in NOT_FROM_FORMS
    ]
    assert unexplained == []


def test_problems_finds_each_breach_before_the_database_does(ledger: Ledger, things: dict[str, str]) -> None:
    snapshot = ledger.snapshot()
    missed = []
    for noun, constraint in checks():
        values = breach(noun, constraint)
        if values is None:
            continue
        form = dataclasses.replace(form_of(snapshot, noun, things[noun]), **values)
        if not {field for field, _ in problems(form)} & {*values, "assembly", "bought_item", "lead_test"}:
            missed.append((noun, constraint))
        with pytest.raises(BadWish):
            ledger.record(Add(form))
    assert missed == []


def test_the_database_refuses_each_breach_too(ledger: Ledger, things: dict[str, str]) -> None:
    file = sqlite3.connect(ledger.path)
    ids = {"lead_test": "lead_test_id", "part": "part_id"}
    for noun, constraint in checks():
        values = breach(noun, constraint)
        if values is None:
            continue
        columns = {f.name: f.stored_as for f in noun_fields(noun)} | ids
        sets = ", ".join(f"{columns[name]} = ?" for name in values)
        wanted = [1 if columns[name].endswith("_id") else value for name, value in values.items()]
        with pytest.raises(sqlite3.IntegrityError, match=f"CHECK constraint failed: ck_{table_of(noun)}_"):
            file.execute(f"UPDATE {table_of(noun)} SET {sets}", wanted)
        file.rollback()
    file.close()


@pytest.mark.parametrize(
    ("noun", "values", "field"),
    [
        ("part", {"grams": 5}, "material"),
        ("part", {"material": Ask("ABS", None)}, "grams"),
        ("part", {"material_2": Ask(None, "TPU"), "grams_2": 5}, "material"),
        ("part", {"material": Ask("ABS", None), "grams": 5, "grams_2": 5}, "material_2"),
        ("part", {"purge_2": 5}, "material_2"),
        ("part", {"scale": 80.0}, "variant_of"),
        ("part", {"variant_of": "HORN", "scale": 80.0}, "variant_of"),
        ("part", {"assembly": None, "quantity": 2}, "assembly"),
        ("part", {"hand_time": 5}, "hand_time"),
        ("step", {"assembly": None}, "assembly"),
        ("wait", {"on_assembly": "HEAD"}, "on_assembly"),
        ("fit test", {"low": 500, "high": 400}, "high"),
        ("question", {"answered": "2026-11-25T12:00:00Z"}, "answer"),
        ("shot", {"filmed": "2026-11-25T12:00:00Z", "safe": "2026-11-25T11:00:00Z"}, "safe"),
        ("shot", {"overruled_why": "too dark"}, "overruled"),
        ("viewer question", {"answered": "2026-11-25T12:00:00Z"}, "answer"),
        ("viewer question", {"answered_in": 1}, "answer"),
        ("promise", {"kept": "2020-11-25T12:00:00Z"}, "kept"),
        ("milestone", {"kind": "rehearsal"}, "build"),
        ("goal", {"text": ""}, "text"),
        ("goal", {"kind": "ready"}, "code"),
        ("goal", {"side": "L"}, "side"),
        ("spool", {"tare": 200_000, "weighed": 199_000}, "weighed"),
        ("bought item", {"stock": "plenty"}, "stock"),
        ("bought item", {"account": "rough", "stock": "7"}, "stock"),
        ("supplier", {"cutoff_day": 3}, "cutoff_time"),
        ("print file", {"lines": ()}, "lines"),
        ("settings", {"home_zone": "Europe/Nowhere"}, "home_zone"),
        ("settings", {"currency": "euro"}, "currency"),
        ("settings", {"day_ends": 400}, "day_ends"),
        ("assembly", {"parent": "HEAD"}, "parent"),
        ("build", {"state": "finished"}, "state"),
    ],
)
def test_fields_that_do_not_go_together_are_told_at_the_field(
    ledger: Ledger, things: dict[str, str], noun: str, values: dict[str, Any], field: str
) -> None:
    form = form_of(ledger.snapshot(), noun, things[noun])
    assert problems(form) == ()
    assert field in {name for name, _ in problems(dataclasses.replace(form, **values))}
