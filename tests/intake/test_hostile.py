"""Odd and hostile files: a clear error, or taken whole; never anything else."""

import os
import time
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buildlog.errors import FileError, FileProblems
from buildlog.files import read_into
from buildlog.intake import file_text
from buildlog.ledger import Ledger
from buildlog.status.forms import form_of

HEADS = "code,name\n"


def told(problems: Any, name: str, content: str | bytes) -> tuple[int, str]:
    """Line and message of the one problem of a file."""
    ((line, _, message),) = problems(name, content)
    return line, message


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "is empty"),
        (b"  \r\n\r\n", "is empty"),
        (b"\xff\xfe", "is empty"),
        (b"# only a comment\n", "no line of headings"),
        (b"PK\x03\x04rest of a workbook", "CSV UTF-8"),
        (b"\x89PNG\r\n\x1a\n", "a picture"),
        (b"SQLite format 3\x00", "a database"),
        (b"code,name\nB1,a\x00b\n", "NUL byte"),
        (b"code,name\nB1,\xfcber\n", "byte 14 of the file (0xfc)"),
        (b"\xef\xbb\xbfcode,name\nB1,\xfcber\n", "byte 17 of the file (0xfc)"),
        (b"\xff\xfec\x00o", "UTF-16"),
        (b'code,name\nB1,"open\nB2,b\n', "never closed"),
        (b'code,name\nB1,"a"b"\n', "quotes are not right"),
        (b"code,name\nB1," + b"x" * 200_000 + b"\n", "longer than anything"),
        (b"code,name\nB1," + b"x" * 2_000 + b"\n", "longer than 200"),
        (b"code,name\nB1,a,b\n", "column 3"),
        (b"code,,name\nB1,x,a\n", "column 2"),
        (b"code,name,Name\nB1,a,b\n", "the same field as «name»"),
        (b"code,name,stands,place\nB1,a,b,c\n", "the same field as «stands»"),
        (b",".join(b"c%d" % i for i in range(10_000)) + b"\n", "10000 columns"),
        (b"code,name\n#REF!,a\n", "no code"),
        (b"code,name\n=1+1,a\n", "no code"),
    ],
)
def test_what_cannot_be_read_is_told_clearly(problems: Any, content: bytes, words: str) -> None:
    assert words in told(problems, "boxes.csv", content)[1]


def test_an_open_quote_is_told_where_it_opens(problems: Any) -> None:
    assert told(problems, "boxes.csv", 'code,name\nB0,x\n# remark\nB1,"open\nB2,b\n')[0] == 4


def test_latin_1_is_told_with_its_line(problems: Any) -> None:
    line, message = told(problems, "boxes.csv", "code,name\nB1,a\nB2,grün\n".encode("latin-1"))
    assert line == 3
    assert "UTF-8" in message


def test_a_file_of_fifty_megabytes_is_refused_before_it_is_read(problems: Any, written: Any, ledger: Ledger) -> None:
    path = written("boxes.csv", HEADS)
    os.truncate(path, 50 * 1024 * 1024)
    started = time.perf_counter()
    with pytest.raises(FileProblems, match="50 MB, at most 16 MB"):
        read_into(ledger, [path])
    assert time.perf_counter() - started < 1


def test_a_file_that_grows_while_it_is_read_is_refused_too(written: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    path = written("boxes.csv", HEADS)
    monkeypatch.setattr(Path, "stat", lambda *_, **__: os.stat_result((0o100644, *[0] * 9)))
    with pytest.raises(FileProblems, match="at most 0 MB"):
        file_text.read_text(path, most_bytes=4)


def test_too_many_rows_are_refused_in_bounded_time(problems: Any) -> None:
    assert "split the file" in told(problems, "boxes.csv", HEADS + "B1,x\n" * 100_001)[1]


def test_more_problems_than_anyone_reads_are_counted(problems: Any) -> None:
    found = problems("boxes.csv", HEADS + "B 1,x\n" * 5000)
    assert len(found) == 101
    assert "900 more" in found[-1][2]


@pytest.mark.parametrize("make", ["folder", "nothing", "pipe", "stl"])
def test_what_is_no_text_file_is_refused(ledger: Ledger, tmp_path: Path, make: str) -> None:
    path = tmp_path / {"stl": "part.stl"}.get(make, "boxes.csv")
    if make == "folder":
        path.mkdir()
    elif make == "pipe":
        os.mkfifo(path)
    elif make == "stl":
        path.write_text("solid\n")
    with pytest.raises(FileProblems, match=r"is a folder|no such file|no plain file|ends in \.stl"):
        read_into(ledger, [path])


def test_a_file_that_may_not_be_read_is_refused(
    ledger: Ledger, written: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = written("boxes.csv", HEADS)

    def refuse(*_: Any, **__: Any) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(FileProblems, match="cannot be read"):
        read_into(ledger, [path])


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("=cmd|' /C calc'!A0", "=cmd|' /C calc'!A0"),
        ("[/]", "[/]"),
        ("[bold]name[/bold]", "[bold]name[/bold]"),
        ("<script>|`x`", "<script>|`x`"),
        ("a\x1b[31mred\x07", "a [31mred"),
        ("a\u202eb\u2066c", "a b c"),
        ('"two\nlines"', "two lines"),
        ("'=1", "=1"),
        ("'tis", "'tis"),
    ],
)
def test_odd_names_are_taken_as_text(ledger: Ledger, read: Any, text: str, name: str) -> None:
    read("boxes.csv", f"code,name\nB1,{text}\n")
    assert form_of(ledger.snapshot(), "box", "B1").name == name


def test_short_rows_leave_the_rest_empty(ledger: Ledger, read: Any) -> None:
    read("boxes.csv", "code,name,stands\nB1,a\n")
    assert form_of(ledger.snapshot(), "box", "B1").place == ""


def test_a_number_that_no_ledger_can_hold_is_refused(problems: Any, built: None) -> None:
    text = f"code,name,build,print time,length\nX,x,LB,{'9' * 30},1e400\n"
    assert [column for _, column, _ in problems("parts.csv", text)] == ["print time", "length"]


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("x = " + "[" * 5000, 0, "nested"),
        ("a = 1\n[[box]]\ncode = 'B1'\ncode = 'B2'\n", 4, "no TOML"),
        ("[[box]]\ncode = B1\n", 2, "no TOML"),
        ("[[crate]]\ncode = 'B1'\n", 1, "«crate» is no list"),
        ("colour = 3\n", 1, "«colour» is no list"),
        ("box = 3\n", 1, "must be a table"),
        ("[[box]]\ncode = 'B1'\nname = {a = 1}\n", 3, "not a table"),
        ("[box]\ncode = 'B1'\nname = '''a\n[[part]]\n'''\nstands = 1979-05-27\nrank = 1\n", 7, "no field"),
        ("x = " + "9" * 5000, 0, "no TOML"),
        ("\x07", 1, "no TOML"),
        ("x = 1\n" + "a." * 500_000 + "b = 1\n", 2, "many dots"),
        ("x = {" + "a." * 500_000 + "b = 1}\n", 1, "many dots"),
    ],
)
def test_a_sheet_that_cannot_be_read_is_told_with_its_line(problems: Any, text: str, line: int, words: str) -> None:
    found = problems("sheet.toml", text)
    assert (found[0][0], words in found[0][2]) == (line, True)


WORDS = [*"=,;\t\"\n'1", "code", "name", "at", "wish", "spool", "build", "B1", "LB", "[[box]]", "[[part]]", "0,5",
         "# list: history\n", "# list: print history\n", "# list: counts\n", "weigh_spool", "-3d", "2026-01-01",
         "grams", "printer", "started", "lines", "with", "add", "noun"]  # fmt: skip


@given(
    content=st.binary(max_size=300)
    | st.lists(st.sampled_from(WORDS), max_size=40).map(lambda words: "".join(words).encode()),
    name=st.sampled_from(["boxes.csv", "x.csv", "parts.csv", "history.csv", "counts.csv", "prints.csv", "x.toml"]),
)
@settings(max_examples=400, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_no_file_raises_anything_but_its_problems(ledger: Ledger, written: Any, content: bytes, name: str) -> None:
    with suppress(FileError):
        assert read_into(ledger, [written(name, content)], dry_run=True).group_id is None
