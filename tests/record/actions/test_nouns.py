"""Adding, changing, retiring and bringing back things of any noun."""

import pytest

from buildlog.errors import AlreadyThere, BadWish, InTheFuture, NotFound, Refused
from buildlog.ledger import Ledger
from buildlog.proposals import forms_build, forms_shop
from buildlog.proposals.nouns import Add, Change
from buildlog.status.forms import form_of


def test_a_build_is_added_through_its_form(ledger: Ledger, add) -> None:
    assert add("build", code="lb", name="Lantern Beetle").sentences == ("Added build LB.",)
    (build,) = ledger.snapshot().builds
    assert (build.code, build.created_at) == ("LB", "2026-11-25T12:00:00Z")


def test_a_code_is_taken_only_once(add, refused) -> None:
    add("box", code="B1", name="grey crate")
    assert refused(add, "box", code="B1", name="other") == str(AlreadyThere("box", "B1"))


def test_the_code_of_a_retired_thing_is_not_taken_again_but_brought_back(
    ledger: Ledger, add, retire, bring_back, refused
) -> None:
    add("box", code="B1", name="grey crate", place="shelf")
    retire("box", "B1")
    assert "was retired Wed 25 Nov 13:00: bring it back" in refused(add, "box", code="B1", name="other")
    bring_back("box", "B1")
    assert form_of(ledger.snapshot(), "box", "B1") == forms_shop.Box(code="B1", name="grey crate", place="shelf")
    assert "in use" in refused(bring_back, "box", "B1")


def test_a_change_touches_the_named_fields_only(ledger: Ledger, add, change) -> None:
    add("box", code="B1", name="grey crate", place="shelf")
    assert change("box", "B1", name="black crate").sentences == ("Changed box B1: name.",)
    assert form_of(ledger.snapshot(), "box", "B1") == forms_shop.Box(code="B1", name="black crate", place="shelf")


def test_a_yes_that_became_a_no_is_told_as_a_no(add, change) -> None:
    add("build", code="LB", name="Lantern Beetle")
    add("part", code="FL07", name="shin", build="LB", handed="yes", one_lot="yes")
    assert change("part", "FL07", handed=False).sentences == ("Changed part FL07: not handed any more.",)
    assert change("part", "FL07", one_lot=None).sentences == ("Changed part FL07: one lot: no.",)
    assert change("part", "FL07", handed=True).sentences == ("Changed part FL07: handed.",)


def test_a_field_that_is_cleared_gets_what_stands_when_nothing_is_typed(ledger: Ledger, add, change) -> None:
    add("box", code="B1", name="grey crate", place="shelf")
    change("box", "B1", place=None)
    assert form_of(ledger.snapshot(), "box", "B1").place == ""


def test_a_required_field_cannot_be_cleared(add, change, refused) -> None:
    add("box", code="B1", name="grey crate")
    assert refused(change, "box", "B1", name=None) == "name: name is missing"


def test_a_change_to_what_is_so_already_writes_nothing(add, change) -> None:
    add("box", code="B1", name="grey crate")
    outcome = change("box", "B1", name="grey crate")
    assert outcome.group_id is None
    assert outcome.sentences == ("Nothing to change at box B1: it is so already.",)


def test_a_code_can_be_changed_while_references_hold(ledger: Ledger, add, change) -> None:
    add("box", code="B1", name="grey crate")
    add("bought item", code="CORD", name="cord", box="B1")
    change("box", "B1", code="B9")
    assert form_of(ledger.snapshot(), "bought item", "CORD").box == "B9"


def test_a_code_cannot_be_changed_to_one_that_is_taken(add, change, refused) -> None:
    add("box", code="B1", name="grey crate")
    add("box", code="B2", name="black crate")
    assert refused(change, "box", "B1", code="B2") == str(AlreadyThere("box", "B2"))


def test_a_field_that_the_noun_lacks_is_named(add, change, refused) -> None:
    add("box", code="B1", name="grey crate")
    assert refused(change, "box", "B1", weight=3) == "weight: box has no field of that name"


def test_a_key_that_names_nothing_is_answered_with_near_ones(add, change, retire) -> None:
    add("box", code="CRATE1", name="grey crate")
    with pytest.raises(NotFound, match=r"Did you mean CRATE1\?"):
        change("box", "CRATE2", name="x")
    with pytest.raises(NotFound, match=r"Did you mean CRATE1\?"):
        retire("box", "CRATE11")
    with pytest.raises(NotFound, match=r"no box «CRATE9».*Did you mean CRATE1\?"):
        add("bought item", code="CORD", name="cord", box="CRATE9")


def test_a_retired_thing_cannot_be_referred_to_changed_or_retired_again(add, change, retire, refused) -> None:
    add("box", code="B1", name="grey crate")
    retire("box", "B1")
    assert "box «B1» is retired" in refused(add, "bought item", code="CORD", name="cord", box="B1")
    assert "box «B1» is retired" in refused(change, "box", "B1", name="x")
    assert "box «B1» is retired" in refused(retire, "box", "B1")


def test_what_something_in_use_stands_on_cannot_be_retired(add, retire, refused) -> None:
    add("box", code="B1", name="grey crate")
    add("bought item", code="CORD", name="cord", box="B1")
    add("bought item", code="PINS", name="pins", box="B1")
    assert "still needed by bought item CORD, PINS" in refused(retire, "box", "B1")
    retire("bought item", "CORD")
    retire("bought item", "PINS")
    retire("box", "B1")


def test_what_is_brought_back_needs_what_it_refers_to_in_use(add, retire, bring_back, refused) -> None:
    add("box", code="B1", name="grey crate")
    add("bought item", code="CORD", name="cord", box="B1")
    retire("bought item", "CORD")
    retire("box", "B1")
    assert "box «B1» is retired" in refused(bring_back, "bought item", "CORD")


def test_a_form_with_problems_is_refused_with_all_of_them(ledger: Ledger, add) -> None:
    add("build", code="LB", name="Lantern Beetle")
    wrong = forms_build.Part(code="fl 1", name="", build="LB", stage="perfect")
    with pytest.raises(BadWish) as caught:
        ledger.record(Add(wrong))
    assert [field for field, _ in caught.value.problems] == ["code", "name", "stage"]


def test_a_fact_in_a_form_is_never_in_the_future(ledger: Ledger, add, clock) -> None:
    add("material", code="ABS-BLACK", name="black", polymer="ABS")
    later = clock.move_on(days=1)
    clock.move_on(days=-1)
    with pytest.raises(InTheFuture):
        ledger.record(Add(forms_shop.Spool(code="S1", material="ABS-BLACK", received=later)))
    add("build", code="LB", name="Lantern Beetle")
    ledger.record(Add(forms_build.Milestone(code="PARADE", name="parade", kind="event", due=later)))


def test_the_settings_are_one_row_that_is_set_and_changed_but_not_retired(
    ledger: Ledger, add, change, retire
) -> None:
    add("settings", currency="CHF")
    change("settings", "", home_zone="Europe/Vienna")
    settings = ledger.snapshot().settings
    assert (settings.id, settings.currency, settings.home_zone) == (1, "CHF", "Europe/Vienna")
    with pytest.raises(Refused):
        retire("settings", "")


def test_adding_changing_and_retiring_are_undone_and_redone(ledger: Ledger, add, change, retire) -> None:
    add("box", code="B1", name="grey crate")
    change("box", "B1", name="black crate")
    retire("box", "B1")
    rows = ledger.snapshot().boxes
    for _ in range(3):
        ledger.undo()
    assert ledger.snapshot().boxes == ()
    for _ in range(3):
        ledger.redo()
    assert ledger.snapshot().boxes == rows


def test_a_dry_run_says_what_would_happen_and_records_nothing(ledger: Ledger, add) -> None:
    add("box", code="B1", name="grey crate")
    outcome = ledger.record(Change("box", "B1", {"name": "black crate"}), dry_run=True)
    assert outcome.sentences == ("Changed box B1: name.",)
    assert ledger.snapshot().boxes[0].name == "grey crate"
