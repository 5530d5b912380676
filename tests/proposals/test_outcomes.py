"""How pieces of a print came out, as typed."""

import pytest

from buildlog.proposals.outcomes import CameOut, read_outcomes
from buildlog.terms import Grade, Side


def test_pieces_are_told_with_how_they_came_out() -> None:
    assert read_outcomes("FL07 L x2 second, FL08 R scrap") == (
        CameOut("FL07", Side.LEFT, 2, Grade.SECOND),
        CameOut("FL08", Side.RIGHT, None, None),
    )


@pytest.mark.parametrize("typed", ["FL07", "FL07 L", "FL07 L x2"])
def test_pieces_without_how_they_came_out_are_told_what_to_write(typed: str) -> None:
    ways = f"{typed} good, {typed} second, {typed} salvage or {typed} scrap"
    with pytest.raises(ValueError, match=f"how {typed} came out: write {ways}"):
        read_outcomes(typed)
