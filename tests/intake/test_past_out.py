"""What was printed and what lies on the shelf, written as lists and read again."""

import csv
import io
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from buildlog.errors import BadWish, FileProblems
from buildlog.files import export, read_into
from buildlog.intake.headings import heading_of
from buildlog.intake.lists import fields_of_list, headings_for
from buildlog.intake.neutral import STARTS
from buildlog.ledger import Ledger
from buildlog.proposals.lines import Line
from buildlog.proposals.lots import CountPart, ScrapPieces
from buildlog.proposals.nouns import Retire
from buildlog.proposals.places import read_pieces
from buildlog.proposals.printers import UnloadSpool
from buildlog.proposals.prints import CorrectPrint, FinishPrint, PrintRan
from buildlog.proposals.revisions import Revise
from buildlog.status.boxes import lay_boxes
from buildlog.status.status import take_stock
from buildlog.terms import FigureOrigin, JobState

ODD = '=1+1, "so"; [bold]x[/] שלום ‹ж›'  # a formula, quotes, markup, a text that runs to the left
PRINTS = """# list: print history
started,ended,printer,file,lays down,what,for,spools,took,grams,second grams,figures,came out,cause,restarts
-9d 8:00,-9d 18:30,P1,F1,,,,S1,10:20,405.5,,from scale,"FL02 x1 second, FL01 R scrap",a nick,2
-7d 10:00,-7d 11:00,P2,,FL02 x2,first tries,trial,S2,,,,,FL02 scrap,warped,
-6d 8:00,-6d 12:00,P2,,FEET x2,,,"S2, T1",3:50,80,21,from file,,,
-1h,,P1,F1,,,,S1,,,,,,,
"""
OTHERS = """# list: print history
started,ended,outcome,printer,lays down,spools,cause,went wrong,stopped,filament ran on,material,came out
-8d 8:00,-8d 19:00,failed,P1,"FL01 L, FL02 x4",S1,layers shifted,-8d 12:00,-8d 12:30,yes,ABS-BLACK,FL02 x2 salvage
-7d 8:00,-7d 9:00,failed,P1,FL02 x2,S1,,,,,,
-4d 8:00,-4d 8:00,failed,P1,FL02,S1,nothing came,,,,,
"""
IN_WORDS = """# list: print history
started,ended,printer,what,for,spools,unattended,print time,material,estimated grams
-5d 8:00,-5d 9:00,P1,ODD,other,S1,yes,0:40,any ABS,7.25
""".replace("ODD", '"' + ODD.replace('"', '""') + '"')
SINCE = """# list: history
at,wish,with
-4d 10:00,fit piece,slot=LEG L / FL02
-8d 10:00,swap spool,printer=P1; spool=S3; grams=20
-3d 10:00,count part,part=FEET; pieces=3; box=B1
-3d 10:01,count part,part=CORD; pieces=4; box=B1
-3d 10:01,count part,part=CORD; pieces=2; grade=second
-3d 10:02,make pieces,part=CORD; pieces=5; box=B2
-3d 11:00,lend pieces,"what=CORD; pieces=1; to=rope maker"
-3d 11:10,mark missing,what=CORD; pieces=1
-3d 11:20,damage pieces,what=FEET; pieces=1; where=toe; out of use=yes
-3d 11:30,move pieces,what=FL02; pieces=1; box=B2
"""


@pytest.fixture
def lived(built: None, add: Callable[..., Any], read: Any, written: Any, ledger: Ledger, clock: Any) -> Ledger:
    """The small build with most that can come of a print, and most that can become of pieces."""
    add("material", code="TPU-RED", name="red", polymer="TPU")
    add("printer", code="P2", name="twin", heads="2", bed_x="200", bed_y="200", bed_z="200")
    add("box", code="B1", name="grey")
    add("box", code="B2", name="blue")
    for code, material in (("S1", "ABS-BLACK"), ("S2", "ABS-BLACK"), ("S3", "ABS-BLACK"), ("T1", "TPU-RED")):
        add("spool", code=code, material=material, received="-30d")
    add("part", code="FEET", name="feet", build="LB", assembly="BEETLE", print_time="1:55", material="ABS-BLACK",
        grams="40", material_2="TPU-RED", grams_2="10", purge_2="0.5")  # fmt: skip
    add("part", code="CORD", name="cord", build="LB", assembly="BEETLE", origin="made by hand")
    add("print file", code="F1", name="both, and two", printer_class="large", lines="FL01 L, FL01 R, FL02 x2",
        print_time="10:00", material="ABS-BLACK", grams="390", support="8", purge="2")  # fmt: skip
    read_into(ledger, [written("prints.csv", PRINTS), written("others.csv", OTHERS), written("words.csv", IN_WORDS)])
    read("since.csv", SINCE)
    # with the spool that was swapped out of a print that still ran
    meanwhile = PrintRan(printer="P2", lines=(Line("FL02"),), spools=("S1",), ended=clock.ago(days=8, hours=-1))
    ledger.record(meanwhile, clock.ago(days=8))
    return ledger


@pytest.fixture
def other(tmp_path: Path, clock: Any) -> Iterator[Ledger]:
    opened = Ledger.open(tmp_path / "other.db", tmp_path / "backups", clock)
    yield opened
    opened.close()


@pytest.fixture
def out(written: Callable[..., Path]) -> Callable[..., list[Path]]:
    """``out(ledger, "sheet", "counts")``: files of what is exported, as a person would name them."""

    def export_to(of: Ledger, *what: str) -> list[Path]:
        names = (f"of {each}.{'toml' if each == 'sheet' else 'csv'}" for each in what)
        return [written(name, export(of.snapshot(), each, of.now())) for name, each in zip(names, what, strict=True)]

    return export_to


ALL = ("sheet", "print history", "counts")


def prints_of(ledger: Ledger) -> dict[tuple[str, str | None], Any]:
    """Ended prints by printer and start: how they went, what each line became, what each head was to lay and drew."""
    snapshot = ledger.snapshot()
    files = {file.id: file.code for file in snapshot.print_files}
    lots = Counter((lot.job_line_id, lot.grade, lot.quantity) for lot in snapshot.lots if lot.parent_id is None)
    found = {}
    for job in snapshot.jobs:
        if job.state not in (JobState.FINISHED, JobState.FAILED):
            continue
        lines = [
            (line.part_id and snapshot.part[line.part_id].code, line.side, line.quantity, line.scrapped, line.cause,
             line.what, line.purpose, sorted((of[1], of[2]) for of in lots if of[0] == line.id))
            for line in snapshot.lines_of_job[job.id]
        ]  # fmt: skip
        heads: dict[int, list[Any]] = {}
        for feed in snapshot.feeds_of_job[job.id]:
            asked = feed.material_id and snapshot.material[feed.material_id].code, feed.polymer
            drawn = heads.setdefault(feed.head, [asked, 0, 0, 0, 0])
            for place, mg in enumerate((feed.part_mg, feed.support_mg, feed.purge_mg, feed.real_mg or 0), 1):
                drawn[place] += mg
        found[snapshot.printer[job.printer_id or 0].code, job.started_at] = (
            job.ended_at, job.state, files.get(job.print_file_id or 0), job.estimate_minutes, job.real_minutes,
            job.real_from, job.unattended, job.restarts, job.went_wrong_at, job.stopped_at, job.filament_ran_on,
            job.cause, lines, heads,
        )  # fmt: skip
    return found


def shelf_of(ledger: Ledger, *, boxes: bool = False) -> Counter[tuple[str, ...]]:
    """How many pieces lie there by part, side and grade, and by box where it is asked for."""
    status = take_stock(ledger.snapshot(), ledger.now())
    codes = {box.id: box.code for box in status.snapshot.boxes}
    found: Counter[tuple[str, ...]] = Counter()
    for box_id, contents in lay_boxes(status).of.items():
        for one in contents.lots:
            what = status.snapshot.part[one.lot.part_id].code, one.lot.side.value, one.lot.grade.value
            found[(*what, codes.get(box_id or 0, "")) if boxes else what] += one.pieces
    return found


def test_the_demo_is_told_to_an_empty_ledger_with_its_prints_and_its_shelf(
    demo: Ledger, ledger: Ledger, out: Any
) -> None:
    files = out(demo, *ALL)
    report = read_into(ledger, files)
    assert prints_of(ledger) == prints_of(demo)
    assert len(prints_of(ledger)) > 150
    assert shelf_of(ledger) == shelf_of(demo)
    assert report.plan.remarks == ()
    assert read_into(ledger, files).group_id is None


def test_every_way_in_which_a_print_can_end_is_told_to_an_empty_ledger(
    lived: Ledger, other: Ledger, out: Any
) -> None:
    read_into(other, out(lived, *ALL))
    told = prints_of(lived)
    assert prints_of(other) == told
    assert [state for _, state, *_ in told.values()].count(JobState.FAILED) == 3
    assert {how[5] for how in told.values()} == set(FigureOrigin)
    assert shelf_of(other) == shelf_of(lived)
    assert shelf_of(lived)["FL02", "-", "salvage"] == 2


def test_the_same_lists_read_again_change_nothing(lived: Ledger, other: Ledger, out: Any) -> None:
    files = out(lived, *ALL)
    read_into(other, files)
    before = other.journal(1)
    assert read_into(other, files).group_id is None
    assert read_into(other, files[1:]).group_id is None
    assert other.journal(1) == before


def test_a_history_read_where_it_came_from_is_known_and_what_was_added_to_it_is_taken(
    lived: Ledger, out: Any, written: Any
) -> None:
    (path,) = out(lived, "prints")
    assert read_into(lived, [path]).group_id is None
    prints = len(prints_of(lived))
    more = "2026-11-23T08:00:00Z,2026-11-23T09:00:00Z,finished,,,,FL02,,,1:00,,,,,,,,,P2,S3" + "," * 12
    report = read_into(lived, [written("more.csv", f"{path.read_text('utf-8')}{more}\n")])
    assert (report.plan.recorded, report.plan.known) == (1, prints)
    assert len(prints_of(lived)) == prints + 1


def test_a_history_changed_by_hand_says_that_the_print_is_recorded_otherwise(
    lived: Ledger, out: Any, written: Any
) -> None:
    (path,) = out(lived, "prints")
    changed = path.read_text("utf-8").replace("405.5", "300")
    report = read_into(lived, [written("changed.csv", changed)])
    assert report.group_id is None
    assert len(report.plan.remarks) == 1
    assert "this print of P1 is recorded otherwise. Correct it in the ledger" in report.plan.remarks[0]


def test_counts_read_where_they_came_from_leave_the_shelf_as_it_is(lived: Ledger, out: Any) -> None:
    before = shelf_of(lived, boxes=True)
    read_into(lived, out(lived, "counts"))
    assert shelf_of(lived, boxes=True) == before
    assert not take_stock(lived.snapshot(), lived.now()).accounts.lots[1].missing


def test_counts_alone_put_into_their_boxes_what_no_print_made(lived: Ledger, other: Ledger, out: Any) -> None:
    read_into(other, out(lived, "sheet", "counts"))
    assert shelf_of(other) == shelf_of(lived)
    assert shelf_of(other, boxes=True)["CORD", "-", "good", "B1"] == 2
    assert shelf_of(other, boxes=True)["CORD", "-", "good", "B2"] == 5
    (path,) = out(lived, "counts")
    # what a print made lies in no box for a reading: where it is stands there for a person
    assert "2026-11-25T12:00:00Z,FL02,,1,,,second,B2" in path.read_text("utf-8").splitlines()


def test_what_was_printed_and_lies_there_no_more_is_counted_with_nothing(
    lived: Ledger, other: Ledger, out: Any
) -> None:
    (path,) = out(lived, "counts")
    assert "2026-11-25T12:00:00Z,FL01,L,1,,,good," in path.read_text("utf-8").splitlines()
    assert ",FL01,R," not in path.read_text("utf-8")  # none ever came out
    lived.record(ScrapPieces(what=read_pieces("FL01 L")))
    (path,) = out(lived, "counts")
    assert "2026-11-25T12:00:00Z,FL01,L,0,,,good," in path.read_text("utf-8").splitlines()
    read_into(other, out(lived, *ALL))
    assert +shelf_of(other) == shelf_of(lived)
    assert "FL01" not in {part for part, *_ in shelf_of(other)}


def test_pieces_that_count_like_the_newest_are_told_with_it_and_others_left_out(
    lived: Ledger, other: Ledger, out: Any, clock: Any
) -> None:
    lived.record(Revise(part="CORD", old="still good"))
    (path,) = out(lived, "counts")
    assert "2026-11-25T12:00:00Z,CORD,,5,,B2,good," in path.read_text("utf-8").splitlines()
    lived.record(Revise(part="CORD", old="no good"), clock.move_on(minutes=1))
    lived.record(CountPart(part="CORD", pieces=6, revision="C"), clock.move_on(minutes=1))
    (path,) = out(lived, "counts")
    assert [line for line in path.read_text("utf-8").splitlines() if "CORD" in line] == [
        "2026-11-25T12:02:00Z,CORD,,6,C,,good,"
    ]
    before = shelf_of(lived)
    read_into(lived, [path])
    assert shelf_of(lived) == before
    read_into(other, out(lived, "sheet", "counts"))
    assert [(what, pieces) for what, pieces in shelf_of(other).items() if "CORD" in what] == [
        (("CORD", "-", "good"), 6)
    ]


def test_a_print_of_a_file_that_is_out_of_use_is_told_by_its_lines(lived: Ledger, other: Ledger, out: Any) -> None:
    lived.record(FinishPrint(printer="P1"))
    lived.record(Retire("print file", "F1"))
    read_into(other, out(lived, *ALL))
    assert {when: (*told[:2], *told[3:]) for when, told in prints_of(other).items()} == {
        when: (*told[:2], *told[3:]) for when, told in prints_of(lived).items()
    }
    assert {told[2] for told in prints_of(other).values()} == {None}


def test_what_is_out_of_use_is_counted_no_more_and_a_history_says_what_to_add_of_it(
    lived: Ledger, other: Ledger, out: Any
) -> None:
    lived.record(Retire("usage", "BEETLE/CORD"))
    lived.record(Retire("part", "CORD"))
    for head in (1, 2):
        lived.record(UnloadSpool(printer="P2", head=head))
    lived.record(Retire("printer", "P2"))
    sheet, history, shelf = out(lived, *ALL)
    assert "CORD" not in shelf.read_text("utf-8")
    with pytest.raises(FileProblems, match="there is no printer «P2» in the ledger nor in these files: add it"):
        read_into(other, [sheet, history, shelf])
    read_into(other, [sheet, shelf])
    assert +shelf_of(other) == +Counter({what: n for what, n in shelf_of(lived).items() if what[0] != "CORD"})


@pytest.mark.parametrize(
    "text", [ODD, "=SUM(A1)", "+1", "-1+2", "@x", "'tis", "a;b,c", "[bold red]x[/]", "מברג, ‘x’"]
)
def test_what_was_written_of_a_print_comes_back_as_it_was_and_runs_nowhere(
    text: str, lived: Ledger, other: Ledger, out: Any
) -> None:
    lived.record(CorrectPrint(job=2, cause=text))
    sheet, path = out(lived, "sheet", "prints")
    for row in csv.reader(io.StringIO(path.read_text("utf-8").split("\n", 1)[1])):
        assert not [cell for cell in row if cell.startswith(STARTS)]
    read_into(other, [sheet, path])
    assert prints_of(other) == prints_of(lived)
    assert text in {job.cause for job in other.snapshot().jobs}
    assert ODD in {line.what for line in other.snapshot().job_lines}


@pytest.mark.parametrize(("what", "headings"), [("counts", 8), ("print history", 32)])
def test_an_empty_ledger_gives_headings_alone_and_they_read_as_nothing(
    what: str, headings: int, ledger: Ledger, out: Any
) -> None:
    (path,) = out(ledger, what)
    named, heads = path.read_text("utf-8").splitlines()
    assert named == f"# list: {what}"
    assert len(heads.split(",")) == headings
    assert read_into(ledger, [path]).group_id is None


@pytest.mark.parametrize("kind", ["counts", "print history"])
def test_the_headings_that_are_written_mean_their_fields_and_no_others(kind: str) -> None:
    known = headings_for(kind, "EUR")
    for field in fields_of_list(kind):
        assert known.find(heading_of(field)).field.name == field.name


def test_what_cannot_be_exported_is_told_with_all_that_can(ledger: Ledger) -> None:
    with pytest.raises(BadWish, match=r"«weigh-ins» is none of: sheet, settings, .*, counts, print history"):
        export(ledger.snapshot(), "weigh-ins", ledger.now())
