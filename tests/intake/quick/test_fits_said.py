"""What a fit test found, said in one line in any order."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from buildlog.intake.quick.reading import Read
from buildlog.proposals.fits import RecordFit
from buildlog.proposals.places import Place
from buildlog.terms import Side

Reader = Callable[[str], Read]
R = Side.RIGHT

FOUND = {
    ("passed", None, None, ""): (
        "fit SWING on LEG R passed",
        "fit SWING R passed",
        "fit SWING passed on LEG R",
        "fit test SWING passed on the right",
        "tested SWING on LEG R: passed",
        "test SWING passed R",
        "SWING R passed",
        "SWING passed on LEG R",
        "SWING passed, right leg",
        "leg swings passed on R",
        "SWING fits on R",
        "passed SWING on LEG R",
        "passed SWING R",
    ),
    ("passed", 400, None, ""): (
        "fit SWING on LEG R passed 0.4 mm",
        "fit SWING passed on LEG R with 0.4 mm",
        "fit SWING passed measured 0.4 mm on R",
        "SWING R passed, 0.4 mm",
        "SWING passed 0.4 on LEG R",
        "passed SWING R 0.4 mm",
    ),
    (None, 400, None, ""): (
        "fit SWING on LEG R measured 0.4 mm",
        "fit SWING measured 0.4 mm on LEG R",
        "fit SWING on LEG R 0.4 mm",
        "fit SWING R is 0.4 mm",
        "SWING R measured 0.4 mm",
        "SWING measured 0.4 on the right",
    ),
    ("failed", None, "rework", ""): (
        "fit SWING on LEG R failed then rework",
        "fit SWING failed on LEG R, rework",
        "fit SWING failed then rework on R",
        "SWING R failed rework",
        "SWING failed on LEG R then rework",
        "failed SWING on LEG R then rework",
        "SWING does not fit on R, rework",
    ),
    ("failed", 800, "use as is", "too loose"): (
        "fit SWING on LEG R failed 0.8 mm then use as is because too loose",
        "fit SWING failed because too loose then use as is with 0.8 mm on LEG R",
        "SWING R failed, too loose, use as is, 0.8 mm",
        "SWING failed on LEG R with 0.8 mm too loose then use as is",
        "failed SWING 0.8 mm on R: too loose, use as is",
    ),
}  # fmt: skip


@pytest.mark.parametrize(("said", "line"), [(said, line) for said, lines in FOUND.items() for line in lines])
def test_what_a_fit_test_found_is_said_in_any_order(
    read: Reader, said: tuple[str | None, int | None, str | None, str], line: str
) -> None:
    outcome, measured, then, text = said
    assert read(line).wish == RecordFit(
        test="SWING", place=Place("LEG", R), outcome=outcome, measured=measured, what_then=then, text=text
    )


RUBS = RecordFit(
    test="SWING", place=Place("LEG", R), outcome="failed", measured=300, what_then="rework", text="it rubs"
)  # fmt: skip


@pytest.mark.parametrize(
    "line",
    [
        "fit SWING on LEG R measured 0,3 mm then rework because it rubs",
        "fit SWING on LEG R then rework measured 0.3 mm because it rubs",
        "fit SWING on LEG R because it rubs then rework measured 0.3 mm",
        "SWING R measured 0.3 mm because it rubs then rework",
        "SWING on LEG R then rework because it rubs measured 0.3 mm",
        "measured SWING 0.3 mm on LEG R then rework because it rubs",
    ],
)
def test_a_fit_of_which_is_said_what_then_has_failed_whatever_it_measured(read: Reader, line: str) -> None:
    assert read(line).wish == RUBS


@pytest.mark.parametrize(("said", "named"), [("FL07R-B", "FL07R-B"), ("the foreleg shin", "FL07")])
def test_what_is_to_be_reprinted_after_a_fit_is_named_in_the_line(read: Reader, said: str, named: str) -> None:
    found = read(f"fit SWING on LEG R failed then reprint of {said} because it rubs").wish
    assert found == replace(RUBS, measured=None, what_then="reprint", scrap=(named,))
