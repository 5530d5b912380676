"""Lines in plain words become wishes; whatever is typed, nothing crashes."""

from collections.abc import Callable
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildlog.errors import BadWish, NotFound, Refused
from buildlog.intake.quick.known import Known
from buildlog.intake.quick.phrases import PHRASES, Phrase
from buildlog.intake.quick.reading import Read, read_line
from buildlog.ledger import Ledger
from buildlog.proposals.bought import CountBought, DrawBought, ReceiveBought, SetLevel
from buildlog.proposals.fits import RecordFit
from buildlog.proposals.lines import Target
from buildlog.proposals.lots import CountPart, DamagePieces, ScrapPieces
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.notes import AddNote
from buildlog.proposals.outcomes import CameOut
from buildlog.proposals.places import PiecesNamed, Place, SlotPlace
from buildlog.proposals.printers import LoadSpool, PrinterDown, PrinterUp
from buildlog.proposals.prints import FailPrint, FinishPrint, StartPrint
from buildlog.proposals.questions import AnswerQuestion, AskQuestion
from buildlog.proposals.shots import FilmShot, FootageSafe, PlanShot
from buildlog.proposals.slots import FitPiece
from buildlog.proposals.spools import DrySpool, EmptySpool, OpenSpool, ReceiveSpool, WeighSpool
from buildlog.proposals.steps import TickStep
from buildlog.proposals.wishes import action_name
from buildlog.terms import Grade, Side

Reader = Callable[[str], Read]
L, R = Side.LEFT, Side.RIGHT

MEANT = {
    "weighed BLACK-3 812 g": WeighSpool(spool="BLACK-3", gross=812_000),
    "Weighed black-3: 0.812 kg.": WeighSpool(spool="BLACK-3", gross=812_000),
    "BLACK-3 weighs 812g": WeighSpool(spool="BLACK-3", gross=812_000),
    "started PLATES-7 on BIG with BLACK-3": StartPrint(file="PLATES-7", printer="BIG", spools=("BLACK-3",)),
    "started plates-7 with black-3 on the big bed": StartPrint(file="PLATES-7", printer="BIG", spools=("BLACK-3",)),
    "weighed 812 g BLACK-3": WeighSpool(spool="BLACK-3", gross=812_000),
    "finished BIG": FinishPrint(printer="BIG"),
    "BIG finished": FinishPrint(printer="BIG"),
    "PLATES-7 is done, took 6:10": FinishPrint(printer="BIG", real_time=370),
    "BIG failed": FailPrint(printer="BIG"),
    "BIG failed, stringing": FailPrint(printer="BIG", cause="stringing"),
    "loaded BLACK-3 BIG": LoadSpool(printer="BIG", spool="BLACK-3"),
    "load BIG with BLACK-3": LoadSpool(printer="BIG", spool="BLACK-3"),
    "dried BLACK-4 6h": DrySpool(spool="BLACK-4", time=360),
    "BLACK-3 empty": EmptySpool(spool="BLACK-3"),
    "BIG down because fan": PrinterDown(printer="BIG", why="fan"),
    "BIG broke down": PrinterDown(printer="BIG"),
    "BIG is fixed": PrinterUp(printer="BIG"),
    "finished PLATES-7": FinishPrint(printer="BIG"),
    "finished BIG took 6:10 with 158 g": FinishPrint(printer="BIG", real_time=370, grams=158_000),
    "failed BIG stringing on the left shin": FailPrint(printer="BIG", cause="stringing on the left shin"),
    "loaded BLACK-3 on BIG": LoadSpool(printer="BIG", spool="BLACK-3"),
    "fit JAW passed": RecordFit(test="JAW", place=Place("HEAD"), outcome="passed"),
    "jaw closes failed then rework because too tight": RecordFit(
        test="JAW", place=Place("HEAD"), outcome="failed", what_then="rework", text="too tight"
    ),
    "glued LEG L": TickStep(step="LEG-BOND", place=Place("LEG", L)),
    "glued the left leg": TickStep(step="LEG-BOND", place=Place("LEG", L)),
    "ticked step LEG-BOND on LEG R": TickStep(step="LEG-BOND", place=Place("LEG", R)),
    "tick LEG-BOND R": TickStep(step="LEG-BOND", place=Place("LEG", R)),
    "tick LEG-BOND right": TickStep(step="LEG-BOND", place=Place("LEG", R)),
    "tick LEG-BOND on the left": TickStep(step="LEG-BOND", place=Place("LEG", L)),
    "received 2 ABS-BLACK": ReceiveSpool(material="ABS-BLACK", packs=2),
    "glued LEG L anyway": TickStep(step="LEG-BOND", place=Place("LEG", L), overruled=True),
    "started PLATES-7 on BIG anyway": StartPrint(file="PLATES-7", printer="BIG", anyway=True),
    "BIG failed anyway": FailPrint(printer="BIG", cause="anyway"),
    "ticked HEAD-SAND": TickStep(step="HEAD-SAND", place=Place("HEAD")),
    "ticked FL07-SAND on 2 FL07 L": TickStep(step="FL07-SAND", what=PiecesNamed(code="FL07", side=L), pieces=2),
    "FL07R-C cracked at the tip": DamagePieces(what=PiecesNamed(code="FL07R-C"), where="the tip"),
    "fl07r-c cracked at the tip because dropped": DamagePieces(
        what=PiecesNamed(code="FL07R-C"), where="the tip", why="dropped"
    ),
    "scrapped FL07R-C": ScrapPieces(what=PiecesNamed(code="FL07R-C")),
    "scrapped two left foreleg shins": ScrapPieces(what=PiecesNamed(code="FL07", side=L), pieces=2),
    "opened BLACK-4": OpenSpool(spool="BLACK-4"),
    "3 M4 screws came": ReceiveBought(item="SCREW-M4", amount=3),
    "counted 40 M5 screws": CountBought(item="SCREW-M5", amount=40),
    "counted 5 FL07 L in SHELF": CountPart(part="FL07", side=L, pieces=5, box="SHELF"),
    "used 2 M4 screws for the stand": DrawBought(item="SCREW-M4", amount=2, why="the stand"),
    "the glue is low": SetLevel(item="GLUE", level="low"),
    "failed BIG stringing kept FL07 L good": FailPrint(
        printer="BIG", cause="stringing", outcomes=(CameOut("FL07", L, None, Grade.GOOD),)
    ),
    "failed BIG nozzle ran dry": FailPrint(printer="BIG", cause="nozzle ran dry"),
    "finished BIG but FL07 R x1 scrap": FinishPrint(printer="BIG", outcomes=(CameOut("FL07", R, 1, None),)),
    "question: printed eyes, or blown ones? HEAD": AskQuestion(
        text="printed eyes, or blown ones?", holds=(Target("HEAD"),)
    ),
    "ask which glue holds HEAD, FL07 L": AskQuestion(
        text="which glue", holds=(Target("HEAD"), Target("FL07", L))
    ),
    "question: does HEAD need ribs?": AskQuestion(text="does HEAD need ribs?", build="LB"),
    "question: which lacquer tomorrow": AskQuestion(text="which lacquer tomorrow", build="LB"),
    "question: which lacquer for the head": AskQuestion(text="which lacquer for the head", build="LB"),
    "answered Q1 hinge, 2 mm": AnswerQuestion(question="Q1", answer="hinge, 2 mm"),
    "answered Q1 which hinge or none": AnswerQuestion(question="Q1", answer="which hinge or none"),
    "answer which hinge: the brass one": AnswerQuestion(question="Q1", answer="the brass one"),
    "BUSH in LEG L cracked at the rim": DamagePieces(
        what=PiecesNamed(code="BUSH"), where="the rim", stands_in=Place("LEG", L)
    ),
    "BUSH L cracked at the rim": DamagePieces(
        what=PiecesNamed(code="BUSH"), where="the rim", stands_in=Place("LEG", L)
    ),
    "BUSH cracked at the rim": DamagePieces(what=PiecesNamed(code="BUSH"), where="the rim"),
    "FL07 R in LEG R cracked at the tip": DamagePieces(
        what=PiecesNamed(code="FL07", side=R), where="the tip", stands_in=Place("LEG", R)
    ),
    "FL07R-C of the right leg broke at the tip because dropped": DamagePieces(
        what=PiecesNamed(code="FL07R-C"), where="the tip", why="dropped", stands_in=Place("LEG", R)
    ),
    "filmed SHOT-1": FilmShot(shot="SHOT-1"),
    "filmed SHOT-1, copied and looked at": FilmShot(shot="SHOT-1", safe=True),
    "SHOT-1 filmed and copied": FilmShot(shot="SHOT-1", safe=True),
    "filmed the jaw bites": FilmShot(shot="SHOT-1"),
    "SHOT-1 is safe": FootageSafe(shot="SHOT-1"),
    "SHOT-1 copied and looked at": FootageSafe(shot="SHOT-1"),
    "SHOT-1 footage copied": FootageSafe(shot="SHOT-1"),
    "copied the footage of SHOT-1": FootageSafe(shot="SHOT-1"),
    "the footage of SHOT-1 is safe": FootageSafe(shot="SHOT-1"),
    "plan shot the left eye opens before HEAD-PAINT": PlanShot(what="the left eye opens", step="HEAD-PAINT"),
    "fitted FL07R-C in LEG R": FitPiece(
        slot=SlotPlace(Place("LEG", R), "FL07"), piece=PiecesNamed(code="FL07R-C")
    ),
}  # fmt: skip


@pytest.mark.parametrize("line", MEANT)
def test_a_fact_in_plain_words_is_one_wish(read: Reader, line: str) -> None:
    assert (read(line).wish, read(line).lacks) == (MEANT[line], "")


@pytest.mark.parametrize(
    ("line", "word"),
    [
        ("undo", "buildlog undo"),
        ("undo the last one", "buildlog undo"),
        ("redo", "buildlog redo"),
        ("printed 2 FL07 L on BIG", "«started PLATES-7 on BIG at 9:10», then «finished BIG at 14:20»"),
    ],
)
def test_what_is_told_otherwise_is_no_note_and_says_how(read: Reader, line: str, word: str) -> None:
    found = read(line)
    assert found.wish is None
    assert word in found.lacks


@pytest.mark.parametrize("phrase", PHRASES, ids=lambda phrase: phrase.example)
def test_every_example_yields_the_wish_that_it_says(read: Reader, bench: Ledger, phrase: Phrase) -> None:
    found = read(phrase.example)
    assert found.lacks == ""
    assert action_name(type(found.wish)) == phrase.wish
    assert phrase.wish == "cancel_print" or not names_what_is_not_there(bench, found)


def names_what_is_not_there(bench: Ledger, found: Read) -> bool:
    """Whether a field is wrong; other refusals are how things stand on this bench."""
    try:
        bench.record(found.wish, found.at, dry_run=True)
    except Refused as error:
        return isinstance(error, BadWish | NotFound)
    return False


@pytest.mark.parametrize(
    ("line", "at"),
    [
        ("started PLATES-7 on BIG at 11:40", "2026-11-25T10:40:00Z"),
        ("yesterday 23:10 weighed BLACK-3 812 g", "2026-11-24T22:10:00Z"),
        ("weighed BLACK-3 812 g yesterday 23:10", "2026-11-24T22:10:00Z"),
        ("weighed BLACK-3 812 g -6h", "2026-11-25T06:00:00Z"),
        ("Tue 22:10 opened BLACK-4", "2026-11-24T21:10:00Z"),
        ("opened BLACK-4 at Tue 22:10", "2026-11-24T21:10:00Z"),
        ("failed BIG at 12:20 stringing", "2026-11-25T11:20:00Z"),
        ("finished BIG took 6:10", None),
        ("BIG is down because fan until Fri 9:00", None),
        ("Tue 22:10 BIG is down until Fri 9:00", "2026-11-24T21:10:00Z"),
        ("3 M4 screws came", None),
        ("yesterday the glue smelled", "2026-11-24T11:00:00Z"),
    ],
)
def test_words_tell_when(read: Reader, line: str, at: str | None) -> None:
    found = read(line)
    assert (found.at, found.lacks) == (at, "")


def test_a_moment_of_the_fact_is_told_by_the_clock_on_the_wall(read: Reader) -> None:
    assert "until Fri 27 Nov 09:00" in read("BIG is down until Fri 9:00").plainly


def test_words_that_tell_when_are_not_part_of_the_fact(read: Reader) -> None:
    assert read("failed BIG at 12:20 stringing").wish == FailPrint(printer="BIG", cause="stringing")
    assert read("finished BIG took 6:10").wish == FinishPrint(printer="BIG", real_time=370)


@pytest.mark.parametrize(
    ("line", "lacks"),
    [
        ("weighed BLACK-3", "grams"),
        ("weighed BLAK-3 812 g", "spool; «BLAK-3 812 g» is not understood"),
        ("loaded BLACK-3 on", "printer"),
        ("weighed BLACK 812 g", "which spool: BLACK-3, BLACK-4"),
        ("glued LEG", "which position: LEG L, LEG R"),
        ("scrapped FL07", "which piece or part: FL07 L, FL07 R"),
        ("ticked LEG-BOND", "the position: LEG L, LEG R"),
        ("painted LEG L", "no step «paint» is open on LEG L"),
        ("3 screws came", "which bought item: SCREW-M4, SCREW-M5"),
        ("opened BLACK-4 at 2026-11-26 10:00", "a moment that is over"),
        ("2 spools of ABS-BLACK came tomorrow 10:00", "a fact cannot lie ahead: «tomorrow 10:00» is in the future"),
        ("opened BLACK-4 tomorrow", "a fact cannot lie ahead"),
        ("opened BLACK-4 +2d", "a fact cannot lie ahead"),
        ("failed BIG stringing tomorrow 10:00", "a fact cannot lie ahead"),
        ("FL07 L in LEG R cracked at the tip", "where it stands: no FL07 L stands there"),
        ("opened BLACK-9", "spool; «BLACK-9» is not understood"),
        ("", "a fact in words"),
        ("note:", "the words of the note"),
        ("fit SWING passed", "the position: LEG L, LEG R"),
        ("fit SWING R", "outcome: passed, failed"),
        ("SWING R failed", "what then: use as is, rework, reprint, scrap"),
        ("fit SWING R passed twice", "what «twice» means"),
        ("loaded BLACK-3", "printer"),
        ("took FL07R-C", "the word «out»"),
        ("moved FL07 L", "box"),
        ("FL07R-C cracked", "where (the place on the piece)"),
        ("glue is nearly gone", "level: plenty, low, out"),
        ("failed BIG stringing kept FL07 L", "how FL07 L came out: FL07 L good, FL07 L second"),
        ("failed BIG kept FL07 L", "FL07 L good, FL07 L second, FL07 L salvage, FL07 L scrap"),
        ("finished BIG but FL07 L", "FL07 L good, FL07 L second, FL07 L salvage, FL07 L scrap"),
        ("found a better way to hold the horn", "piece or part"),
        ("put the lid away", "piece or part"),
        ("open the window more often", "spool"),
        ("weighd BLACK-3 812 g", "a verb: «weighd» is none"),
        ("weig", "the rest of the first word: weighed, weigh"),
    ],
)
def test_what_is_missing_is_said(read: Reader, line: str, lacks: str) -> None:
    found = read(line)
    assert found.wish is None
    assert lacks in found.lacks


def test_what_may_be_several_things_is_told_with_their_names(read: Reader) -> None:
    assert read("glued LEG").choices == ("LEG L", "LEG R")


@pytest.mark.parametrize(
    ("line", "like"),
    [
        ("loaded BLACK-3", "loaded BLACK-3 on BIG"),
        ("took FL07R-C", "took FL07R-C out"),
        ("found a better way to hold the horn", "found 1 FL07 L"),
        ("weighd BLACK-3 812 g", "weighed BLACK-3 812 g"),
    ],
)
def test_a_line_that_begins_with_a_verb_and_is_no_fact_is_no_note_and_shows_one_that_is(
    read: Reader, line: str, like: str
) -> None:
    found = read(line)
    assert (found.wish, found.like) == (None, like)
    assert f"as in «{like}»" in found.plainly


@pytest.mark.parametrize(
    ("line", "about"),
    [
        ("FL07 wants more brim", "part FL07"),
        ("The hinge of FL07R-C squeaks.", "FL07R-C"),
        ("the weather is damp", "build LB"),
        ("BIG is loud", "printer BIG"),
        ("BLACK-3 is brittle", "spool BLACK-3"),
        ("we found a better way to hold the horn", "build LB"),
        ("note: found a better way to hold the horn", "build LB"),
        ("weighd down by the horn", "build LB"),
        ("note opened BLACK-4", "spool BLACK-4"),
        ("note: weighed BLACK-3 812 g", "spool BLACK-3"),
    ],
)
def test_words_that_are_no_fact_are_a_note_on_what_they_name(read: Reader, line: str, about: str) -> None:
    found = read(line)
    assert isinstance(found.wish, AddNote)
    assert found.wish.about == about
    assert line.endswith(found.wish.text)


LINE_WORDS = st.sampled_from(
    [word for phrase in PHRASES for word in phrase.example.split()]
    + [
        "at",
        "on",
        "-6h",
        "yesterday",
        "23:10",
        "31 Feb",
        "#3",
        "left",
        "L.2",
        "",
        "[/]",
        "٣",
        "9" * 40,
        "\u202e",
        "?",
    ]
)


@settings(max_examples=300)
@given(st.one_of(st.text(max_size=80), st.lists(LINE_WORDS, max_size=12).map(" ".join)))
def test_no_text_crashes_it_and_each_is_a_wish_or_lacks_something(bench: Ledger, known: Known, text: str) -> None:
    found = read_line(text, known, moment_reader(bench.now(), "Europe/Berlin"))
    assert (found.wish is None) == bool(found.lacks)
    if found.wish is not None:
        with suppress(Refused):
            bench.record(found.wish, found.at, dry_run=True)
