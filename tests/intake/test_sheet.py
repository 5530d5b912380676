"""Build sheets."""

from typing import Any

from buildlog.ledger import Ledger
from buildlog.status.forms import form_of, forms_of


def test_a_sheet_lays_down_a_build_whatever_the_order_of_its_tables(ledger: Ledger, read: Any, sheet: str) -> None:
    report = read("lb.toml", sheet)
    snapshot = ledger.snapshot()
    assert len(report.plan.added) == 10
    leg = form_of(snapshot, "assembly", "LEG")
    assert (leg.build, leg.parent, leg.lead_side, leg.lead_test) == ("LB", "BEETLE", "L", "KNEE")
    femur = form_of(snapshot, "part", "FL01")
    assert (femur.print_time, femur.grams, femur.handed) == (270, 84500, True)
    assert form_of(snapshot, "milestone", "PARADE").due == "2026-12-20T16:00:00Z"
    assert form_of(snapshot, "step", "GLUE1").handle_after == 1440
    assert len(snapshot.positions) == 3


def test_a_sheet_is_one_wish_that_undo_takes_back_whole(ledger: Ledger, read: Any, sheet: str) -> None:
    report = read("lb.toml", sheet)
    assert ledger.journal(1)[0].id == report.group_id
    assert ledger.journal(1)[0].summary == "Read lb.toml: 10 added."
    ledger.undo()
    assert forms_of(ledger.snapshot(), "part") == {}
    assert ledger.reader.file_rows() == ()
    assert len(read("lb.toml", sheet).plan.added) == 10


def test_the_same_sheet_again_changes_nothing_and_says_so(ledger: Ledger, read: Any, sheet: str) -> None:
    read("lb.toml", sheet)
    again = read("lb.toml", sheet)
    assert again.group_id is None
    assert again.plan.unchanged == 10
    assert (again.plan.added, again.plan.changed, again.plan.left, again.plan.missing) == ((), (), (), ())


def test_a_dry_run_tells_and_writes_nothing(ledger: Ledger, read: Any, sheet: str) -> None:
    report = read("lb.toml", sheet, dry_run=True)
    assert (len(report.plan.added), report.group_id) == (10, None)
    assert forms_of(ledger.snapshot(), "build") == {}


def test_all_errors_are_told_at_once_with_line_and_key(problems: Any) -> None:
    text = """[[build]]
code = "LB"
name = "Beetle"

[[part]]
code = "FL 01"
name = "femur"
print_time = "soon"
colour = "red"

[[part]]
code = "FL02"
assembly = "LEG"
"grams" = [[1]]
"""
    found = problems("lb.toml", text)
    assert [(line, key) for line, key, _ in found] == [
        (6, "code"), (8, "print_time"), (9, "colour"), (11, "name"), (13, "assembly"), (14, "grams"),
    ]  # fmt: skip
    assert "2h30" in found[1][2]


def test_a_build_named_once_at_the_top_holds_for_all_rows(ledger: Ledger, read: Any, add: Any) -> None:
    add("build", code="DC", name="Drum Cart")
    add("build", code="LB", name="Lantern Beetle")
    text = 'build = "DC"\n[[assembly]]\ncode = "CART"\nname = "cart"\n[[part]]\ncode = "W1"\nname = "wheel"\n'
    read("cart.toml", text)
    assert form_of(ledger.snapshot(), "part", "W1").build == "DC"
    assert form_of(ledger.snapshot(), "assembly", "CART").build == "DC"


def test_a_moment_at_the_top_says_since_when_all_of_it_is_so(ledger: Ledger, read: Any) -> None:
    read("b.toml", 'at = "-100d 9:00"\n[[build]]\ncode = "LB"\nname = "B"\n[[assembly]]\ncode = "A"\nname = "a"\n'
                   '[[part]]\ncode = "P"\nname = "p"\nassembly = "A"\n')  # fmt: skip
    assert ledger.snapshot().usages[0].since_at.startswith("2026-08-17T")


def test_nesting_loops_are_told_by_name(problems: Any) -> None:
    text = '[[build]]\ncode="LB"\nname="B"\n[[assembly]]\ncode="A"\nname="a"\nparent="B"\n'
    text += '[[assembly]]\ncode="B"\nname="b"\nparent="A"\n'
    ((line, key, message),) = problems("x.toml", text)
    assert (line, key) == (7, "parent")
    assert "A → B → A" in message


def test_what_the_record_refuses_is_told_with_its_line_too(problems: Any) -> None:
    text = """[[build]]
code = "LB"
name = "B"
[[assembly]]
code = "ROOT"
name = "one"
[[assembly]]
code = "OTHER"
name = "two roots"
[[assembly]]
code = "LEG"
name = "leg"
parent = "OTHER"
[[assembly]]
code = "TOE"
name = "toe"
parent = "ROOT"
count = 1001
"""
    assert [line for line, _, _ in problems("x.toml", text)] == [18]
    ((line, _, message),) = problems("x.toml", text.replace("1001", "2"))
    assert line == 7
    assert "ROOT" in message
