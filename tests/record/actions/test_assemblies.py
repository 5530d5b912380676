"""An assembly told with its parts is one change: the tree, the parts, their figures and usages, or nothing."""

import pytest

from buildlog.errors import AlreadyThere, BadWish, NotFound
from buildlog.ledger import Ledger
from buildlog.proposals.assemblies import AddAssemblyWithParts
from buildlog.proposals.lines import Ask
from buildlog.proposals.part_lines import read_new_parts
from buildlog.status.forms import form_of, keys_of


def paw(parts: str, **more: object) -> AddAssemblyWithParts:
    given = {"code": "PAW", "name": "paw", "parent": "BEETLE", "parts": read_new_parts(parts)} | more
    return AddAssemblyWithParts(**given)  # type: ignore[arg-type]


def test_tree_parts_figures_and_usages_come_in_one_group(ledger: Ledger, beetle: None) -> None:
    groups = len(ledger.journal(1000))
    outcome = ledger.record(paw("FL07 shin handed x1 2:30 45g, FL08 toe x2", material=Ask(None, "ABS")))
    snapshot = ledger.snapshot()
    assert len(ledger.journal(1000)) == groups + 1
    assert outcome.sentences == (
        "Added assembly PAW paw, paired, left and right, with FL07 shin handed ×1, 2:30 h, 45 g; FL08 toe ×2.",
    )
    assembly, shin, toe = (
        form_of(snapshot, *key) for key in (("assembly", "PAW"), ("part", "FL07"), ("part", "FL08"))
    )
    assert (assembly.build, assembly.parent, assembly.paired) == ("LB", "BEETLE", True)
    assert (shin.handed, shin.quantity, shin.print_time, shin.grams, shin.material) == (
        True,
        1,
        150,
        45_000,
        Ask(None, "ABS"),
    )
    assert (toe.quantity, toe.material, toe.assembly) == (2, None, "PAW")
    assert {p.side for p in snapshot.positions if p.assembly_id == snapshot.usages[-1].assembly_id} == {"L", "R"}
    ledger.undo()
    assert "PAW" not in keys_of(ledger.snapshot(), "assembly")
    assert "FL07" not in keys_of(ledger.snapshot(), "part")


def test_each_part_may_say_its_material(ledger: Ledger, beetle: None, add) -> None:
    add("material", code="ABS-BLACK", name="ABS black", polymer="ABS")
    outcome = ledger.record(paw("FL07 shin 45g ABS-BLACK, FL08 toe 9g", material=Ask(None, "PETG"), paired=False))
    assert outcome.sentences == (
        "Added assembly PAW paw, not paired, with FL07 shin ×1, 45 g ABS-BLACK; FL08 toe ×1, 9.0 g.",
    )
    shin, toe = (form_of(ledger.snapshot(), "part", code) for code in ("FL07", "FL08"))
    assert (shin.material, toe.material) == (Ask("ABS-BLACK", None), Ask(None, "PETG"))


def test_a_code_alone_brings_in_a_part_that_is_there(ledger: Ledger, beetle: None, add) -> None:
    add("part", code="TOE", name="toe", build="LB")
    ledger.record(paw("TOE x3"))
    assert form_of(ledger.snapshot(), "usage", "PAW/TOE").quantity == 3


@pytest.mark.parametrize(
    ("parts", "more", "error", "word"),
    [
        ("FL07 shin, NONE x2", {}, BadWish, "no part NONE"),
        ("FL07 shin 45g", {}, BadWish, "of which material"),
        ("FL07 shin", {"parent": None}, BadWish, "needs its build"),
        ("FL07 shin, TOE toe", {}, AlreadyThere, "TOE"),
        ("TOE x2 2:30", {}, BadWish, "TOE is there with its own figures: leave all but x2 out"),
        ("FL07 shin 45g PLA-BLUE", {}, NotFound, "PLA-BLUE"),
        (
            "FL07 shin PLA-AMBER 45g",
            {"material": Ask(None, "PLA")},
            BadWish,
            "PLA-AMBER in the name of FL07 is a",
        ),
    ],
)
def test_what_is_wrong_with_one_line_lets_nothing_in(
    ledger: Ledger, beetle: None, add, parts: str, more: dict[str, object], error: type[Exception], word: str
) -> None:
    add("part", code="TOE", name="toe", build="LB")
    add("material", code="PLA-AMBER", name="PLA amber", polymer="PLA")
    before = keys_of(ledger.snapshot(), "part")
    with pytest.raises(error, match=word):
        ledger.record(paw(parts, **more))
    assert keys_of(ledger.snapshot(), "part") == before
    assert "PAW" not in keys_of(ledger.snapshot(), "assembly")
