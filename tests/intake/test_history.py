"""Lists about the past: histories, print histories, counts, weigh-ins."""

from typing import Any

import pytest

from buildlog.intake.daily import OF_NOUNS, daily, fields_for, make_wish
from buildlog.intake.fact_rows import FactReader
from buildlog.intake.rows import Cell, Row
from buildlog.ledger import Ledger
from buildlog.proposals.field import Field, Kind
from buildlog.proposals.file_problems import Problems
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.nouns import values_from_texts
from buildlog.proposals.spools import WeighSpool
from buildlog.proposals.wishes import wishes
from buildlog.status.forms import form_of
from buildlog.terms import Moment

NOW = Moment("2026-11-25T12:00:00Z")
READ_MOMENT = moment_reader(NOW, "Europe/Berlin")
BY_KIND = {
    Kind.TEXT: "in words; and more",
    Kind.LONG_TEXT: 'said "so"',
    Kind.CODE: "C1",
    Kind.REFERENCE: "R1",
    Kind.WHOLE: "2",
    Kind.DECIMAL: "72.5",
    Kind.GRAMS: "12.5",
    Kind.DURATION: "2:30",
    Kind.MONEY: "4.90",
    Kind.MM: "0.4",
    Kind.DENSITY: "1.1",
    Kind.PERCENT: "40",
    Kind.YES_NO: "yes",
    Kind.MOMENT: "2026-11-20 10:00",
}
BY_NAME = {"place": "LEG L", "slot": "LEG L / FL01", "what": "#12", "piece": "FL01 L", "outcomes": "FL01 L scrap",
           "counted": "#12 x3, item CORD x40", "stands_in": "LEG L",
           "noun": "box", "key": "B1"}  # fmt: skip


def text_for(field: Field) -> str:
    """Something that the field can read."""
    if field.kind is Kind.CHOICE:
        return field.choices[-1]
    if field.name in BY_NAME and (field.read or field.name in ("noun", "key")):
        return BY_NAME[field.name]
    return BY_KIND.get(field.kind, "FL01")


def fact(cells: dict[str, str]) -> Any:
    problems = Problems()
    row = Row("h.csv", 2, 1, "history", tuple(Cell(heading, text, 2) for heading, text in cells.items()))
    read = FactReader(READ_MOMENT, "EUR", problems).read(row)
    problems.raise_if_any()
    assert read is not None
    return read


def test_every_wish_but_those_of_many_can_be_asked_for_in_a_file() -> None:
    assert set(wishes()) - set(daily()) == {"tick_steps", "read_files"}


@pytest.mark.parametrize("name", daily())
def test_every_daily_action_is_read_from_columns_and_from_one_cell(name: str) -> None:
    fields = fields_for(name, "box" if name in OF_NOUNS else "")
    texts = {field.name: text_for(field) for field in fields}
    values, problems = values_from_texts(fields, texts, READ_MOMENT)
    assert problems == ()
    expected = ((make_wish(name, values), "2026-11-20T09:00:00Z", 0),)
    common = {"at": "2026-11-20 10:00", "wish": name.replace("_", " ")}
    columns = fact(common | {field.label: texts[field.name] for field in fields})
    quoted = "; ".join(f'{key}="{text.replace(chr(34), chr(34) * 2)}"' for key, text in texts.items())
    in_one_cell = fact(common | {"with": quoted})
    assert columns.dated == expected
    assert in_one_cell.dated == expected
    assert columns.key == in_one_cell.key


@pytest.fixture
def spool(built: None, add: Any, clock: Any) -> None:
    add("spool", code="S1", material="ABS-BLACK", tare="200", content="1000", received="-60d", at=clock.ago(days=60))


HISTORY = """# list: history
at;wish;spool;grams;with
-20d 10:00;weigh_spool;S1;1.150,5;
-30d 10:00;open spool;S1;;
-10d 10:00;draw-filament;;;spool=S1; grams=20
"""


def test_a_history_is_taken_in_the_order_in_which_it_happened(ledger: Ledger, read: Any, spool: None) -> None:
    report = read("h.csv", HISTORY.replace("spool=S1; grams=20", '"spool=S1; grams=20; why=""a; b"""'))
    assert report.plan.recorded == 3
    kinds = [(str(entry.kind), entry.at[:10]) for entry in ledger.snapshot().spool_entries]
    assert kinds == [("opened", "2026-10-26"), ("weighed", "2026-11-05"), ("drawn", "2026-11-15")]


def test_a_history_read_again_is_known_and_only_new_rows_are_taken(
    ledger: Ledger, read: Any, spool: None, clock: Any
) -> None:
    text = "at,spool,grams\n2026-11-01 10:00,S1,1100\n2026-11-01 10:00,S1,1100\n"
    assert read("weigh-ins.csv", text).plan.recorded == 2
    clock.move_on(days=1)
    again = read("weigh-ins.csv", text)
    assert (again.plan.recorded, again.plan.known, again.group_id) == (0, 2, None)
    more = read("weigh-ins.csv", text.replace("2026-11-01 10:00", "2026-11-01T10:00") + "-1d 9:00,S1,1000\n")
    assert (more.plan.recorded, more.plan.known) == (1, 2)
    assert [entry.gross_mg for entry in ledger.snapshot().spool_entries] == [1_100_000, 1_100_000, 1_000_000]


def test_a_line_that_left_its_history_is_listed_in_its_words(ledger: Ledger, read: Any, spool: None) -> None:
    text = "at,spool,grams\n2026-11-01 10:00,S1,1100\n2026-11-02 10:00,S1,1000\n"
    read("weigh-ins.csv", text)
    report = read("weigh-ins.csv", text.replace("1100", "1090"))
    assert [str(named) for named in report.plan.missing] == ["history 2026-11-01T09:00:00Z, 1100, S1, weigh_spool"]
    assert len(ledger.snapshot().spool_entries) == 3


def test_lists_that_overlap_are_taken_once(ledger: Ledger, written: Any, spool: None) -> None:
    from buildlog.files import read_into

    line = "2026-11-01 10:00,S1,1100\n"
    first = written("weigh-ins-1.csv", "at,spool,grams\n" + line)
    second = written("weigh-ins-2.csv", "at,spool,grams\n" + line + "2026-11-02 10:00,S1,1000\n")
    assert read_into(ledger, [first, second]).plan.recorded == 2
    assert read_into(ledger, [second]).group_id is None


def test_undoing_a_history_lets_it_be_read_again(ledger: Ledger, read: Any, spool: None) -> None:
    text = "at,spool,grams\n-2d 10:00,S1,1100\n"
    read("weigh-ins.csv", text)
    ledger.undo()
    assert read("weigh-ins.csv", text).plan.recorded == 1


def test_errors_of_a_history_are_told_with_line_and_heading(problems: Any, spool: None) -> None:
    found = problems(
        "h.csv",
        "# list: history\nat,wish,spool,grams,pieces,with\n"
        "-2d,weigh,S1,12,,\n"
        "+2d,weigh_spool,S1,12,,\n"
        ",weigh_spool,S1,12,,\n"
        "-1d,weigh_spool,S1,many,,\n"
        "-1d,weigh_spool,S1,12,3,\n"
        "-1d,weigh_spool,,,,spool S1\n"
        "-1d,tick_steps,,,,\n",
    )
    assert [(line, column) for line, column, _ in found] == [
        (3, "wish"), (4, "at"), (5, "at"), (6, "grams"), (7, "pieces"), (8, "wish"), (9, "wish"),
    ]  # fmt: skip
    assert "weigh_spool" in found[0][2]
    assert "in the future" in found[1][2]


def test_what_the_record_refuses_of_a_history_is_told_for_each_line(problems: Any, spool: None) -> None:
    found = problems("h.csv", "# list: history\nat,wish,printer,spool\n-2d,load_spool,P1,S7\n-1d,load_spool,P1,S8\n")
    assert [line for line, _, _ in found] == [3, 4]
    assert "S8" in found[1][2]


def test_counts_of_what_lies_on_the_shelf_take_a_build_up_half_way(
    ledger: Ledger, read: Any, built: None, add: Any
) -> None:
    add("box", code="B1", name="crate")
    read("counts.csv", "part,side,revision,pieces,box\nFL01,L,A,3,B1\nFL01,R,,2,\nFL02,,,4,B1\n")
    lots = {(lot.part_id, str(lot.side)): lot.quantity for lot in ledger.snapshot().lots}
    assert sorted(lots.values()) == [2, 3, 4]


def test_things_can_be_added_changed_and_retired_in_the_course_of_a_history(
    ledger: Ledger, read: Any, built: None
) -> None:
    read("h.csv", "# list: history\nat,wish,with\n"
                  "-9d,add,noun=box; code=B1; name=crate\n"
                  "-8d,change,noun=box; key=B1; name=big crate\n"
                  "-8d,add,noun=box; code=B2; name=bag\n"
                  "-7d,retire,noun=box; key=B2\n")  # fmt: skip
    assert form_of(ledger.snapshot(), "box", "B1").name == "big crate"
    assert form_of(ledger.snapshot(), "box", "B2") is None


PRINTS = """# list: print history
printer,lines,material,estimated grams,print time,started,ended,outcome,real time,grams,spool,scrapped,cause
P1,"FL01 L, FL01 R",ABS-BLACK,169,9:00,-9d 8:00,-9d 17:10,,9:10,171.5,S1,FL01 R,warped
P1,FL02,ABS-BLACK,40,2:30,-9d 17:10,-9d 19:00,failed,,,S1,,knocked off
P1,FL02 x2,ABS-BLACK,80,5:00,-1h,,,,,S1,,
"""


def test_a_print_history_makes_pieces_and_draws_filament(ledger: Ledger, read: Any, spool: None) -> None:
    report = read("prints.csv", PRINTS)
    assert report.plan.recorded == 3
    snapshot = ledger.snapshot()
    assert sorted(str(job.state) for job in snapshot.jobs) == ["failed", "finished", "running"]
    assert [(str(lot.side), lot.quantity) for lot in snapshot.lots] == [("L", 1)]
    first = snapshot.jobs[0]
    assert (first.real_minutes, str(first.real_from)) == (550, "typed")


def test_a_print_that_was_running_is_ended_by_the_next_reading(
    ledger: Ledger, read: Any, spool: None, clock: Any
) -> None:
    text = PRINTS.replace("-1h,,", "2026-11-25 12:00,,")
    read("prints.csv", text)
    clock.move_on(hours=6)
    report = read("prints.csv", text.replace("2026-11-25 12:00,,", "2026-11-25 12:00,2026-11-25 17:00,"))
    assert (report.plan.recorded, report.plan.known) == (1, 2)
    assert str(ledger.snapshot().jobs[2].state) == "finished"
    other = read("prints.csv", text.replace("2026-11-25 12:00,,", "2026-11-25 12:00,2026-11-25 17:30,"))
    assert other.group_id is None
    assert "Correct it in the ledger" in other.plan.remarks[0]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("-9d 17:10,,9:10", "-9d 7:00,,9:10"), "ended before"),
        (("-9d 17:10,,9:10", ",finished,9:10"), "say when it ended"),
        (("-9d 17:10,,9:10", "-9d 17:10,running,9:10"), "leave «ended» empty"),
        (("-9d 17:10,-9d 19:00", "-9d 8:00,-9d 19:00"), "in line 3 already"),
        (("FL02 x2", "FL77 x2"), "no part «FL77»"),
        (("P1,FL02,", ",FL02,"), "printer is missing"),
    ],
)
def test_prints_that_cannot_have_been_are_told(problems: Any, spool: None, change: Any, words: str) -> None:
    found = problems("prints.csv", PRINTS.replace(*change))
    assert any(words in message for _, _, message in found)


def test_a_wish_names_its_own_list(ledger: Ledger, read: Any, spool: None) -> None:
    read("x.csv", "spool,grams\nS1,1100\n", as_list="weigh_spool")
    assert ledger.snapshot().spool_entries[-1].gross_mg == 1_100_000


def test_a_sheet_can_hold_a_past_too(ledger: Ledger, read: Any, spool: None) -> None:
    read("p.toml", '[[weigh-ins]]\nat = 2026-11-20T10:00:00\nspool = "S1"\ngrams = 1100\n')
    assert ledger.snapshot().spool_entries[-1].at == "2026-11-20T09:00:00Z"


def test_the_wish_of_a_line_is_the_one_that_a_person_makes() -> None:
    read = fact({"at": "now", "wish": "weigh spool", "spool": "s1", "weight (kg)": "1.1"})
    assert read.dated == ((WeighSpool(spool="S1", gross=1_100_000), NOW, 0),)
