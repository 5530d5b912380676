"""CSV lists as people keep them."""

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.status.forms import form_of, forms_of

BOXES = "code,name,stands\nB1,grey crate,shelf\n"
BOX = ("B1", "grey crate", "shelf")


def box(ledger: Ledger) -> tuple[str, str, str]:
    form = form_of(ledger.snapshot(), "box", "B1")
    return form.code, form.name, form.place


@pytest.mark.parametrize(
    "content",
    [
        BOXES,
        BOXES.replace(",", ";"),
        BOXES.replace(",", "\t"),
        BOXES.replace("\n", "\r\n"),
        BOXES.replace("\n", "\r"),
        "\ufeff" + BOXES,
        BOXES.encode("utf-16"),
        "sep=;\n" + BOXES.replace(",", ";"),
        "# what stands where\n\n" + BOXES + '# the end, of "it\n,,\n',
        'CODE , Name,"STANDS"\nb1,"grey crate",  shelf\n',
    ],
)
def test_a_list_is_read_however_it_was_saved(ledger: Ledger, read: Any, content: Any) -> None:
    assert len(read("boxes.csv", content).plan.added) == 1
    assert box(ledger) == BOX


@pytest.mark.parametrize(
    ("name", "content", "how"),
    [
        ("boxes-2026.csv", BOXES, {}),
        ("lb_boxes (2).csv", BOXES, {}),
        ("old.csv", "# list: boxes\n" + BOXES, {}),
        ("old.csv", "boxes,,\n" + BOXES, {}),
        ("old.csv", BOXES, {"as_list": "box"}),
        ("old.csv", BOXES, {}),  # «stands» is a heading of boxes only
    ],
)
def test_a_list_is_known_by_its_mark_its_name_or_its_headings(
    ledger: Ledger, read: Any, name: str, content: str, how: dict[str, str]
) -> None:
    read(name, content, **how)
    assert box(ledger) == BOX


def test_headings_that_fit_several_lists_are_refused_with_the_candidates(problems: Any) -> None:
    ((_, _, message),) = problems("old.csv", "code,name\nA,a\n")
    assert "build" in message
    assert "supplier" in message
    assert "box" in message
    assert "--as" in message
    ((_, _, message),) = problems("old.csv", "colour,taste\nred,sweet\n")
    assert "which list it is" in message
    ((_, _, message),) = problems("old.csv", BOXES, as_list="crates")
    assert "«crates» is no list" in message


PARTS = "code;name;build;print time (h);weight (kg);length [cm];price\n"


def test_units_in_the_headings_are_turned_into_those_of_the_record(ledger: Ledger, read: Any, built: None) -> None:
    read("parts.csv", "code;name;build;print time (h);weight (kg);material;length [cm]\n"
                      "FL09;foot;LB;2,5;0,12;any ABS;18,05\n")  # fmt: skip
    part = form_of(ledger.snapshot(), "part", "FL09")
    assert (part.print_time, part.grams, part.length) == (150, 120_000, 180_500)


@pytest.mark.parametrize(
    ("heading", "cell", "minutes"),
    [
        ("print time", "150", 150),
        ("print time", "2:30", 150),
        ("print time", "2h30", 150),
        ("print time (min)", "150", 150),
        ("print time (min)", "149.6", 150),
        ("Print_Time [h]", "2.5", 150),
        ("print time h", "2.5", 150),
        ("print time (h)", "2:30:10", 150),
        ("print time (d)", "0.5", 720),
    ],
)
def test_durations_are_read_as_they_are_written(
    ledger: Ledger, read: Any, built: None, heading: str, cell: str, minutes: int
) -> None:
    read("parts.csv", f"code,name,build,{heading}\nFL09,foot,LB,{cell}\n")
    assert form_of(ledger.snapshot(), "part", "FL09").print_time == minutes


@pytest.mark.parametrize(
    ("text", "grams"),
    [("84,5", 84_500), ("1.084,5", 1_084_500), ("84.5", 84_500), ("1 084,5 g", 1_084_500), ("1,25 kg", 1_250_000)],
)
def test_a_comma_is_decimal_where_semicolons_part_the_cells(
    ledger: Ledger, read: Any, built: None, text: str, grams: int
) -> None:
    read("parts.csv", f"code;name;build;material;grams\nFL09;foot;LB;any ABS;{text}\n")
    assert form_of(ledger.snapshot(), "part", "FL09").grams == grams


def test_numbers_that_can_be_read_two_ways_are_refused(problems: Any, built: None) -> None:
    ((line, column, message),) = problems("parts.csv", "code;name;build;material;grams\nX;x;LB;any ABS;1.084\n")
    assert (line, column) == (2, "grams")
    assert "write 1084 or 1,084" in message
    ((_, _, message),) = problems("parts.csv", 'code,name,build,material,grams\nX,x,LB,any ABS,"1,084"\n')
    assert "ambiguous" in message
    ((_, _, message),) = problems("parts.csv", "code,name,build,print time (min)\nX,x,LB,2:30\n")
    assert "ambiguous" in message


def test_prices_are_in_the_ledgers_currency(ledger: Ledger, read: Any, problems: Any, built: None) -> None:
    read("materials.csv", "code;name;polymer;price (€)\nPETG;clear;PETG;24,90\n")
    assert form_of(ledger.snapshot(), "material", "PETG").price == 2490
    ((line, column, message),) = problems("materials.csv", "code;name;polymer;price (USD)\nPLA;x;PLA;24,90\n")
    assert (line, column) == (1, "price (USD)")
    assert "price (eur)" in message


def test_a_heading_by_weight_says_its_unit(problems: Any, built: None) -> None:
    ((line, column, message),) = problems("parts.csv", "code,name,build,material,weight\nX,x,LB,any ABS,12\n")
    assert (line, column) == (1, "weight")
    assert "weight (kg)" in message


def test_an_unknown_heading_names_the_nearest(problems: Any, built: None) -> None:
    ((line, column, message),) = problems("parts.csv", "code,name,build,print tme\nX,x,LB,1\nY,y,LB,2\n")
    assert (line, column) == (1, "print tme")
    assert "did you mean «print time»" in message


@pytest.mark.parametrize("heading", ["Remarks", "Notes", "Owner"])
def test_a_heading_that_is_like_none_is_told_which_there_are(problems: Any, built: None, heading: str) -> None:
    ((_, _, message),) = problems("parts.csv", f"code,name,build,{heading}\nX,x,LB,1\n")
    assert "did you mean" not in message
    assert "it has code, name, build" in message


def test_a_handed_part_without_a_side_is_told_with_what_is_wrong_in_other_rows(problems: Any, built: None) -> None:
    found = problems(
        "parts.csv",
        "code,name,build,handed,grams,assembly\nX1,x,LB,yes,,BEETLE\nX2,y,LB,no,twelve,LEG\nX3,z,LB,yes,,LEG\n",
    )
    assert [(line, column) for line, column, _ in found] == [(2, "assembly"), (3, "grams")], found
    assert "X1 is handed and BEETLE has no side: say L only, R only or one of each" in found[0][2]


def test_a_column_headed_by_the_thing_holds_its_code(ledger: Ledger, read: Any, built: None) -> None:
    read("boxes.csv", "box,name\nB7,green crate\n")
    assert form_of(ledger.snapshot(), "box", "B7").name == "green crate"


def test_all_errors_of_a_list_are_told_at_once(problems: Any, built: None) -> None:
    found = problems(
        "parts.csv",
        "code,name,build,handed,grams,material,assembly\n"
        "X 1,x,LB,perhaps,12,any ABS,\n"
        "\n"
        "X2,,LB,yes,twelve,any ABS,LEGS\n"
        'X3,"two\nlines",NO,,,,\n',
    )
    assert [(line, column) for line, column, _ in found] == [
        (2, "code"), (2, "handed"), (4, "name"), (4, "grams"), (4, "assembly"), (5, "build"),
    ]  # fmt: skip
    assert "did you mean LEG?" in found[4][2]


def test_problems_of_several_files_are_told_together(ledger: Ledger, written: Any) -> None:
    from buildlog.errors import FileProblems
    from buildlog.files import read_into

    files = [written("boxes.csv", "code,name\nB 1,x\n"), written("suppliers.csv", "code,name\n,x\n")]
    with pytest.raises(FileProblems) as caught:
        read_into(ledger, [*files, written("spools.csv", "")])
    assert len(caught.value.problems) == 3
    assert all(name in str(caught.value) for name in ("boxes.csv", "suppliers.csv", "spools.csv"))


def test_one_key_twice_is_refused_and_names_both_lines(problems: Any) -> None:
    ((line, column, message),) = problems("boxes.csv", "code,name\nB1,one\nB2,two\nb1,three\n")
    assert (line, column) == (4, "code")
    assert "line 2" in message


def test_rows_may_refer_to_other_files_of_the_same_reading(ledger: Ledger, written: Any) -> None:
    from buildlog.files import read_into

    parts = written("parts.csv", "code,name,build,assembly\nP1,p,DC,CART\n")
    tree = written("tree.toml", '[[build]]\ncode = "DC"\nname = "cart"\n[[assembly]]\ncode = "CART"\nname = "c"\n')
    read_into(ledger, [parts, tree])
    assert form_of(ledger.snapshot(), "part", "P1").assembly == "CART"


def test_a_usage_that_a_parts_row_tells_already_must_say_the_same(ledger: Ledger, written: Any, built: None) -> None:
    from buildlog.errors import FileProblems
    from buildlog.files import read_into

    parts = written("parts.csv", "code,name,build,assembly,quantity\nP1,p,LB,LEG,2\n")
    with pytest.raises(FileProblems, match="says otherwise"):
        read_into(ledger, [parts, written("usages.csv", "assembly,part,quantity\nLEG,P1,3\n")])
    read_into(ledger, [parts, written("usages.csv", "assembly,part,quantity\nLEG,P1,2\nBEETLE,P1,1\n")])
    assert [u.quantity for key, u in forms_of(ledger.snapshot(), "usage").items() if key.endswith("P1")] == [2, 1]


def test_what_spreadsheets_of_the_trade_call_a_field_is_known(ledger: Ledger, read: Any, built: None) -> None:
    read("parts.csv", "Part no;Description;Project;Subassembly;Mirrored;Qty;Filament;Weight (g);Time (h)\n"
                      "FL09;foot;LB;LEG;yes;2;any ABS;12;2,5\n")  # fmt: skip
    part = form_of(ledger.snapshot(), "part", "FL09")
    assert (part.name, part.build, part.handed, part.quantity, part.print_time) == ("foot", "LB", True, 2, 150)


def test_a_column_whose_heading_stands_in_brackets_is_left_unread(ledger: Ledger, read: Any) -> None:
    read("boxes.csv", "code,name,stands,(remarks)\nB1,grey crate,shelf,lid is broken\n")
    assert box(ledger) == BOX


def test_an_unknown_heading_is_told_how_to_leave_it_unread(problems: Any) -> None:
    ((_, _, message),) = problems("boxes.csv", "code,name,remarks\nB1,grey crate,x\n")
    assert "in brackets leaves its column unread" in message


def test_which_fields_there_are_is_told_once_for_several_unknown_headings(problems: Any) -> None:
    found = problems("boxes.csv", "code,name,Owner,Colour of lid\nB1,grey crate,x,y\nB2,blue crate,x,y\n")
    assert [(line, column) for line, column, _ in found] == [(1, "Owner"), (1, "Colour of lid")]
    assert ["it has code, name" in message for _, _, message in found] == [True, False]
