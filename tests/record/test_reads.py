"""What a unit of work has read already is the same as what the file would say."""

from collections.abc import Iterator

import pytest
from sqlalchemy import event
from sqlmodel import col

from buildlog.ledger import Ledger
from buildlog.record.reads import OFTEN, SMALL
from buildlog.record.tables.builds import Build
from buildlog.record.tables.pieces import Box
from buildlog.record.writer import Work
from buildlog.terms import BuildState


@pytest.fixture
def work(ledger: Ledger) -> Iterator[Work]:
    with ledger.writer().work("test", "", ledger.now(), ledger.now()) as opened:
        yield opened.work


@pytest.fixture
def asked(work: Work) -> list[str]:
    """The SELECTs that went to the file so far."""
    said: list[str] = []

    def note(_connection: object, _cursor: object, statement: str, *_: object) -> None:
        if statement.startswith("SELECT"):
            said.append(statement)

    event.listen(work.session.connection(), "before_cursor_execute", note)
    return said


def build(work: Work, code: str, name: str = "n", rank: int | None = None) -> Build:
    return work.add(Build(code=code, name=name, rank=rank, state=BuildState.OPEN, created_at=work.at))


def codes(rows: list[Build]) -> list[str]:
    return [row.code for row in rows]


def test_the_same_question_goes_to_the_file_once(work: Work, asked: list[str]) -> None:
    build(work, "A")
    first = work.all(Build, Build.name == "n")
    assert asked
    asked.clear()
    assert work.all(Build, Build.name == "n") == work.all(Build, name="n") == first
    assert asked == []


def test_a_large_table_is_asked_for_what_is_looked_for_until_it_is_asked_often(work: Work, asked: list[str]) -> None:
    for number in range(SMALL + 1):
        build(work, f"B{number}", name=f"n{number}")
    for number in range(OFTEN + 3):
        assert codes(work.all(Build, name=f"n{number}")) == [f"B{number}"]
    whole = [statement for statement in asked if "FROM build" in statement and "WHERE build.name" not in statement]
    assert len([statement for statement in asked if "WHERE build.name" in statement]) == OFTEN - 1
    assert [statement for statement in whole if "build.code" in statement] == asked[-1:]


def test_a_new_row_has_the_next_id_though_the_last_one_was_deleted(work: Work) -> None:
    last = build(work, "A")
    work.delete(last)
    assert build(work, "B").id == (last.id or 0) + 1


def test_rows_go_to_the_file_in_few_statements(work: Work) -> None:
    said: list[str] = []
    event.listen(
        work.session.connection(), "before_cursor_execute", lambda _c, _cursor, statement, *_: said.append(statement)
    )
    for number in range(50):
        work.change(build(work, f"B{number}"), rank=number)
    work.session.flush()
    assert len([statement for statement in said if statement.startswith("INSERT")]) == 1


def test_a_change_to_what_stands_there_already_writes_nothing(work: Work) -> None:
    row = build(work, "A", rank=3)
    work.session.flush()
    work.change(row, rank=3)
    assert not work.session.dirty


def test_a_question_in_sql_sees_what_was_written_before(work: Work) -> None:
    row = build(work, "A")
    assert work.ask("SELECT code FROM build WHERE id = :id", id=row.id).scalars().all() == ["A"]
    work.change(row, code="B")
    assert work.ask("SELECT code FROM build WHERE id = :id", id=row.id).scalars().all() == ["B"]


def test_a_row_written_later_is_among_the_answers(work: Work) -> None:
    build(work, "A")
    assert codes(work.all(Build, Build.name == "n")) == ["A"]
    build(work, "B")
    build(work, "C", name="other")
    assert codes(work.all(Build, Build.name == "n")) == ["A", "B"]


def test_a_changed_row_moves_to_where_it_now_belongs(work: Work) -> None:
    row = build(work, "A")
    assert codes(work.all(Build, Build.name == "n")) == ["A"]
    assert codes(work.all(Build, Build.name == "other")) == []
    work.change(row, name="other")
    assert codes(work.all(Build, Build.name == "n")) == []
    assert codes(work.all(Build, Build.name == "other")) == ["A"]


def test_a_deleted_row_is_gone(work: Work) -> None:
    row = build(work, "A")
    assert codes(work.all(Build, Build.name == "n")) == ["A"]
    work.delete(row)
    assert work.all(Build, Build.name == "n") == []


@pytest.mark.parametrize(
    ("condition", "found"),
    [
        (col(Build.rank) <= 2, ["A", "B"]),
        (col(Build.rank) > 1, ["B", "C"]),
        (col(Build.rank) != 2, ["A", "C"]),
        (col(Build.rank).is_(None), ["D"]),
        (col(Build.rank).is_not(None), ["A", "B", "C"]),
        (col(Build.rank).in_((1, 3)), ["A", "C"]),
        (col(Build.code).startswith("B"), ["B"]),
    ],
)
def test_other_comparisons_find_what_sql_finds(work: Work, condition: object, found: list[str]) -> None:
    for number, code in enumerate("ABC", 1):
        build(work, code, rank=number)
    build(work, "D")
    assert codes(work.all(Build, Build.name == "n", condition)) == found
    build(work, "E", name="other")
    assert codes(work.all(Build, Build.name == "n", condition)) == found


def test_nothing_comes_before_the_smallest_and_equal_ones_in_order_of_id(work: Work) -> None:
    for code, rank in (("A", 2), ("B", None), ("C", 1), ("D", 2)):
        build(work, code, rank=rank)
    assert codes(work.all(Build, Build.name == "n", order_by=Build.rank)) == ["B", "C", "A", "D"]


def test_an_answer_that_is_altered_by_the_asker_stays_as_it_was(work: Work) -> None:
    work.add(Box(code="B1", name="one"))
    work.all(Box, Box.name == "one").clear()
    assert len(work.all(Box, Box.name == "one")) == 1


def test_what_a_part_of_the_work_wrote_goes_with_that_part(work: Work) -> None:
    build(work, "A")
    assert codes(work.all(Build, Build.name == "n")) == ["A"]
    part = work.session.begin_nested()
    build(work, "B")
    assert codes(work.all(Build, Build.name == "n")) == ["A", "B"]
    part.rollback()
    assert codes(work.all(Build, Build.name == "n")) == ["A"]
