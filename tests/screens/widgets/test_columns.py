from buildlog.screens.widgets.columns import GAP, lay_out
from buildlog.screens.widgets.rows import Column

COLUMNS = (
    Column("code", width=6),
    Column("name", least=12, share=2),
    Column("where", least=10, priority=1),
    Column("note", least=20, priority=3),
    Column("who", least=20, priority=3),
)


def ids(width: int) -> list[str]:
    return [spot.column.id for spot in lay_out(COLUMNS, width)]


def test_a_wide_line_shows_every_column() -> None:
    assert ids(120) == ["code", "name", "where", "note", "who"]


def test_the_least_important_column_goes_first_and_of_equals_the_last() -> None:
    assert ids(70) == ["code", "name", "where", "note"]
    assert ids(40) == ["code", "name", "where"]
    assert ids(30) == ["code", "name"]


def test_shares_fill_the_line_to_its_last_cell() -> None:
    for width in range(20, 160):
        placed = lay_out(COLUMNS, width)
        assert sum(spot.width for spot in placed) + GAP * (len(placed) - 1) == width


def test_a_column_of_two_shares_takes_twice_of_the_rest() -> None:
    code, name, where = lay_out(COLUMNS[:3], 6 + 12 + 10 + 2 * GAP + 30)
    assert (code.width, name.width, where.width) == (6, 32, 20)


def test_what_may_not_be_dropped_is_squeezed() -> None:
    assert sum(spot.width for spot in lay_out(COLUMNS, 9)) + GAP == 9
