"""Orders, loads and scrap as a maker says them; what says more than that, or asks, stays a note."""

from collections.abc import Callable

import pytest

from buildlog.errors import Refused
from buildlog.intake.quick.reading import Read
from buildlog.ledger import Ledger
from buildlog.proposals.lines import Line
from buildlog.proposals.lots import ScrapPieces
from buildlog.proposals.notes import AddNote
from buildlog.proposals.orders import PlaceOrder
from buildlog.proposals.places import PiecesNamed
from buildlog.proposals.printers import LoadSpool
from buildlog.terms import Side

Reader = Callable[[str], Read]

ABS = Line("ABS-BLACK", quantity=2)
SCREWS = Line("SCREW-M4", quantity=60)
SHIN, BUSH, MARKED = PiecesNamed(code="FL07", side=Side.LEFT), PiecesNamed(code="BUSH"), PiecesNamed(code="FL07R-C")
WARPED = ScrapPieces(what=MARKED, why="warped")
ON_BIG = LoadSpool(printer="BIG", spool="BLACK-3")

MEANT = {
    "ordered 2 ABS-BLACK": PlaceOrder(lines=(ABS,)),
    "Ordered 2 × ABS-BLACK.": PlaceOrder(lines=(ABS,)),
    "ordered 2x ABS-BLACK": PlaceOrder(lines=(ABS,)),
    "ordered ABS-BLACK x2": PlaceOrder(lines=(ABS,)),
    "ordered ABS-BLACK × 2": PlaceOrder(lines=(ABS,)),
    "ordered two more spools of black ABS": PlaceOrder(lines=(ABS,)),
    "reordered 2 ABS-BLACK": PlaceOrder(lines=(ABS,)),
    "order 2 ABS-BLACK": PlaceOrder(lines=(ABS,)),
    "placed an order for 2 ABS-BLACK": PlaceOrder(lines=(ABS,)),
    "2 ABS-BLACK ordered": PlaceOrder(lines=(ABS,)),
    "2 spools ABS-BLACK were ordered from FIL": PlaceOrder(lines=(ABS,), supplier="FIL"),
    "ordered a spool of ABS-BLACK": PlaceOrder(lines=(Line("ABS-BLACK"),)),
    "ordered the glue": PlaceOrder(lines=(Line("GLUE"),)),
    "ordered 2 ABS-BLACK, 60 SCREW-M4 from FIL": PlaceOrder(lines=(ABS, SCREWS), supplier="FIL"),
    "ordered 2 ABS-BLACK and 60 M4 screws from the filament house": PlaceOrder(lines=(ABS, SCREWS), supplier="FIL"),
    "ordered from FIL: 2 ABS-BLACK 60 pieces of SCREW-M4": PlaceOrder(lines=(ABS, SCREWS), supplier="FIL"),
    "ordered 60 cap screw M4 × 16": PlaceOrder(lines=(SCREWS,)),
    "ordered 2 ABS-BLACK from FIL, due Fri 9:00": PlaceOrder(
        lines=(ABS,), supplier="FIL", expected="2026-11-27T08:00:00Z"
    ),
    "BIG loaded with BLACK-3": ON_BIG,
    "the big bed is now loaded with the spool BLACK-3": ON_BIG,
    "BIG was loaded with BLACK-3": ON_BIG,
    "BIG has BLACK-3 loaded": ON_BIG,
    "loaded BIG BLACK-3": ON_BIG,
    "BLACK-3 loaded on BIG": ON_BIG,
    "BLACK-3 is on BIG": ON_BIG,
    "BLACK-3 went on BIG": ON_BIG,
    "put BLACK-3 on BIG": ON_BIG,
    "mounted the BLACK-3 onto BIG": ON_BIG,
    "FL07R-C is scrap": ScrapPieces(what=MARKED),
    "FL07R-C is scrap, warped": WARPED,
    "FL07R-C is scrap: warped": WARPED,
    "fl07r-c is scrap (warped)": WARPED,
    "FL07R-C is scrap - warped": WARPED,
    "FL07R-C is scrap – warped": WARPED,
    "FL07R-C is scrap, because warped": WARPED,
    "FL07R-C is scrap, because": ScrapPieces(what=MARKED),
    "FL07R-C is scrap, warped (left half)": ScrapPieces(what=MARKED, why="warped (left half)"),
    "FL07R-C is scrap: (left half) warped.": ScrapPieces(what=MARKED, why="(left half) warped."),
    "FL07R-C is scrap, [bold]warped[/bold]": ScrapPieces(what=MARKED, why="[bold]warped[/bold]"),
    "FL07R-C is scrap, warped (left": ScrapPieces(what=MARKED, why="warped (left"),
    "FL07R-C was scrapped because warped": WARPED,
    "FL07R-C scrapped, warped": WARPED,
    "the FL07R-C was binned since it warped, badly": ScrapPieces(what=MARKED, why="it warped, badly"),
    "#1 is scrap": ScrapPieces(what=PiecesNamed(lot_id=1)),
    "two FL07 L are scrap, warped": ScrapPieces(what=SHIN, pieces=2, why="warped"),
    "2 × FL07 L are scrap": ScrapPieces(what=SHIN, pieces=2),
    "one of the left foreleg shins is scrap": ScrapPieces(what=SHIN, pieces=1),
    "all FL07 L are scrap": ScrapPieces(what=SHIN),
    "a BUSH is scrap": ScrapPieces(what=BUSH, pieces=1),
}


@pytest.mark.parametrize("line", MEANT)
def test_it_is_understood_as_what_it_says(read: Reader, line: str) -> None:
    found = read(line)
    assert (found.wish, found.at, found.lacks) == (MEANT[line], None, "")


def test_a_part_that_is_scrap_is_one_piece_of_it(read: Reader, bench: Ledger) -> None:
    said = bench.record(read("FL07 L is scrap, warped").wish, dry_run=True).sentences
    assert len(said) == 1
    assert said[0].startswith("Scrapped 1 of ")
    assert said[0].endswith(": warped.")


@pytest.mark.parametrize(
    ("line", "at"),
    [
        ("yesterday 18:00 ordered 2 ABS-BLACK", "2026-11-24T17:00:00Z"),
        ("2 ABS-BLACK ordered yesterday 18:00", "2026-11-24T17:00:00Z"),
        ("BIG loaded with BLACK-3 at 11:40", "2026-11-25T10:40:00Z"),
        ("yesterday 18:00 FL07 L is scrap, warped", "2026-11-24T17:00:00Z"),
        ("FL07 L is scrap, warped yesterday 18:00", "2026-11-24T17:00:00Z"),
    ],
)
def test_its_moment_may_be_said_with_it(read: Reader, line: str, at: str) -> None:
    found = read(line)
    assert (found.at, found.lacks) == (at, "")
    assert not isinstance(found.wish, AddNote)


@pytest.mark.parametrize(
    ("line", "lacks"),
    [
        ("ordered", "things (packs of a material, an amount of an item"),
        ("ordered 60 screws", "which things: SCREW-M4, SCREW-M5"),
        ("ordered M4 screws", "«M4 screws» is not understood"),
        ("ordered 2 packs of M4 screws", "«2 packs of M4 screws» is not understood"),
        ("ordered 2 sheets of glue", "«2 sheets of glue» is not understood"),
        ("ordered 0 ABS-BLACK", "«0 ABS-BLACK» is not understood"),
        ("ordered 2 ABS-BLAK", "«2 ABS-BLAK» is not understood"),
        ("ordered 2 ABS-BLACK, 60 SCREWZ", "what «60 SCREWZ» means"),
        ("ordered 2 ABS-BLACK from NOPE", "what «from NOPE» means"),
        ("ordered 2 ABS-BLACK tomorrow", "a fact cannot lie ahead"),
        ("order 2 ABS-BLAK", "«2 ABS-BLAK» is not understood"),
        ("BIG loaded", "spool"),
        ("BIG loaded with BLACK", "which spool: BLACK-3, BLACK-4"),
        ("BIG loaded with BLACK-9", "spool; «BLACK-9» is not understood"),
        ("FL07 is scrap", "which piece or part: FL07 L, FL07 R"),
    ],
)
def test_what_it_lacks_is_said(read: Reader, line: str, lacks: str) -> None:
    found = read(line)
    assert found.wish is None
    assert lacks in found.lacks


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("AN99L-B is scrap, warped", "There is no part or piece «AN99L-B»"),
        ("AN99 L is scrap", "There is no part or piece «AN99»"),
        ("FL07R-Z is scrap", "FL07R-C"),
        ("BUSH L is scrap", "leave the side out"),
        ("FL07R-C is scrap, warped", "take it out there"),
        ("9 FL07 L are scrap", "name fewer"),
        ("BIG loaded with BLACK-3", "already"),
        ("ordered 101 ABS-BLACK", "at most 100 packs"),
    ],
)
def test_what_cannot_be_is_refused_as_everywhere(read: Reader, bench: Ledger, line: str, words: str) -> None:
    found = read(line)
    with pytest.raises(Refused, match=words):
        bench.record(found.wish, found.at, dry_run=True)


@pytest.mark.parametrize(
    "line",
    [
        "order more glue",
        "order glue before Friday",
        "order of painting: body first",
        "placed the visor on the shelf",
        "the parts we ordered are late",
        "I ordered pizza for the crew",
        "BIG loaded with too much junk",
        "BIG loaded with BLACK-3?",
        "is BIG loaded with BLACK-3?",
        "BIG has a loud fan on the left",
        "BLACK-3 is on the shelf",
        "FL07R-C is scrap?",
        "FL07R-C is scrap if it does not fit",
        "FL07R-C is scrap, if it does not fit",
        "FL07R-C is scrap (unless it fits)",
        "FL07R-C was scrap - but I fixed it",
        "FL07R-C is not scrap",
        "FL07R-C is nearly scrap",
        "FL07R-C is",
        "BLACK-3 is scrap",
        "the whole idea is scrap",
        "scrapheap of FL07 is full",
        "ordered " + ", ".join(["2 ABS-BLACK"] * 30),
    ],
)
def test_what_says_more_or_asks_is_a_note(read: Reader, line: str) -> None:
    found = read(line)
    assert isinstance(found.wish, AddNote)
    assert found.wish.text == line
