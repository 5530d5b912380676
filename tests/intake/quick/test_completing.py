"""What is offered next while a line is typed."""

from collections.abc import Callable

import pytest

from buildlog.intake.quick.completing import completions
from buildlog.intake.quick.known import Known
from buildlog.intake.quick.shapes import Shape, shapes
from buildlog.ledger import Ledger
from buildlog.proposals.moments import moment_reader

Offer = Callable[[str], list[str]]


@pytest.fixture
def offered(bench: Ledger, known: Known) -> Offer:
    reader = moment_reader(bench.now(), "Europe/Berlin")
    return lambda text: [c.adds or c.what for c in completions(text, known, reader)]


def test_an_empty_line_offers_verbs(offered: Offer) -> None:
    assert {"weighed", "started", "finished", "failed", "loaded"} <= set(offered(""))


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("we", "weighed"),
        ("weighed ", "BLACK-3"),
        ("weighed b", "BLACK-3"),
        ("weighed BLACK-4 ", "grams, as 812 g"),
        ("started PLATES-7 ", "on"),
        ("started PLATES-7 on ", "BIG"),
        ("started PLATES-7 on BIG ", "with"),
        ("yesterday 23:10 loaded BLACK-3 on B", "BIG"),
        ("glued LEG ", "LEG R"),
        ("fit JAW pas", "passed"),
        ("finished ", "BIG"),
        ("3 scr", "SCREW-M4"),
        ("FL07R-C cr", "cracked"),
        ("fit SWING failed on R th", "then"),
        ("fit SWING failed on R then ", "use as is"),
        ("SWING passed on ", "LEG L"),
        ("failed BIG ", "stringing"),
        ("failed BIG a", "a clog"),
        ("failed BIG stringing kept ", "kept, as FL07 L good, FL08 R second"),
        ("question: which glue holds ", "holds, as HEAD, FL07 L"),
        ("filmed ", "SHOT-1"),
        ("ord", "ordered"),
        ("ordered ", "ABS-BLACK"),
        ("ordered 2 ", "ABS-BLACK"),
        ("ordered 2 scr", "SCREW-M4"),
        ("ordered 2 spools of ", "ABS-BLACK"),
        ("ordered 2 ABS-BLACK, 60 scr", "SCREW-M4"),
        ("ordered 2 ABS-BLACK ", "from"),
        ("ordered 2 ABS-BLACK from ", "FIL"),
        ("BIG lo", "loaded"),
        ("BIG loaded with ", "BLACK-3"),
        ("put BLACK-3 on ", "BIG"),
        ("FL07R-C is ", "scrap"),
    ],
)
def test_what_fits_next_is_offered(offered: Offer, typed: str, first: str) -> None:
    assert first in offered(typed)[:3]


def test_names_that_do_not_begin_so_are_not_offered(offered: Offer) -> None:
    assert offered("weighed BLACK-3x") == []


@pytest.mark.parametrize(
    "shape", [shape for shape in shapes() if shape.begins_with_verb], ids=lambda shape: shape.phrase.example
)
def test_every_verb_is_offered_from_its_first_letters(offered: Offer, shape: Shape) -> None:
    assert shape.verbs[0] in offered(shape.verbs[0][:2])


def test_what_is_taken_goes_on_from_what_stands(known: Known, bench: Ledger) -> None:
    reader = moment_reader(bench.now(), "Europe/Berlin")
    assert completions("yesterday 23:10 loaded blac", known, reader)[0].line == "yesterday 23:10 loaded BLACK-3 "
