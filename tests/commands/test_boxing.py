"""Boxes, the repair kit and the helper's list from the shell."""

from pathlib import Path
from typing import Any

import pytest

from buildlog.commands.exits import Exit


@pytest.fixture
def kept(shell: Any) -> Any:
    """A shell on a ledger with two boxes, three visors in one of them, and a step that a helper can do."""
    for line in (
        'add build LB "Lantern Beetle"',
        'add box SHELF shelf --place "by the door"',
        "add box CRATE crate",
        "add assembly BEETLE Beetle --build LB",
        "add assembly HEAD Head --build LB --parent BEETLE",
        "add part VISOR Visor --build LB --assembly HEAD --quantity 2 --spares 2",
        "add bought-item GLUE glue --stock 300 --box SHELF",
        "add step HEAD-SAND sand --kind sand --assembly HEAD --bench-time 0:40 --helper-can",
        "lot count VISOR 3 --box SHELF",
    ):
        said = shell(line)
        assert said.code == Exit.OK, said.err
    return shell


def test_where_boxes_stand_and_what_lies_in_them(kept: Any) -> None:
    boxes = {row["box"]: row for row in kept("boxes --json").json["boxes"]}
    assert (boxes["SHELF"]["place"], boxes["SHELF"]["pieces"], boxes["SHELF"]["items"]) == ("by the door", 3, 1)
    assert boxes["CRATE"]["pieces"] == 0


def test_the_label_list_is_one_page(kept: Any, tmp_path: Path) -> None:
    assert kept(f"box label shelf --out {tmp_path / 'label.md'}").code == Exit.OK
    text = (tmp_path / "label.md").read_text("utf-8")
    assert text.startswith("# SHELF\n")
    assert "Stands: by the door" in text
    assert "| 3 | VISOR" in text
    assert "| 300 each | GLUE | glue |" in text


def test_an_unknown_box_is_refused_with_those_that_are_there(kept: Any) -> None:
    said = kept("box label SHELV")
    assert said.code == Exit.REFUSED
    assert "SHELF, CRATE" in said.err


def test_a_box_is_counted_and_emptied(kept: Any) -> None:
    assert "2 of #1" in kept("box count SHELF", "#1 x2, item GLUE x280").err
    assert kept("box empty SHELF CRATE").err == "Moved 2 pieces, 0 spools, 1 bought item from SHELF to CRATE.\n"
    assert {row["box"]: row["pieces"] for row in kept("boxes --json").json["boxes"]} == {"SHELF": 0, "CRATE": 2}


def test_missing_lent_and_damaged_stand_in_the_answer_and_in_the_repair_kit(kept: Any) -> None:
    kept("lot missing VISOR --pieces 1")
    kept('lot lend VISOR --pieces 1 --to "the neighbour"')
    kept("lot damage VISOR edge --pieces 1 --why dropped")
    said = kept("boxes --json").json
    assert [row["pieces"] for row in said["missing"]] == [1]
    assert [row["told"] for row in said["lent"]] == ["the neighbour"]
    assert [(row["place"], row["why"]) for row in said["damaged"]] == [("edge", "dropped")]
    kit = kept("repair-kit").out
    assert "| edge | dropped | out of use |" in kit
    assert "| VISOR | Visor | 2 | 0 | 2 |" in kit


def test_what_repairs_use_is_in_the_kit(kept: Any, clock: Any) -> None:
    assert "GLUE" not in kept("repair-kit").out
    clock.move_on(hours=1)
    kept('bought draw GLUE 20 --why "repair of the horn"')
    assert "| GLUE | glue | 20 | 280 each |" in kept("repair-kit").out


def test_a_helpers_list_is_ticked_by_its_words_all_or_none(kept: Any) -> None:
    page = kept("helper-list").out
    assert "| ☐ |" in page
    assert "HEAD-SAND HEAD" in page
    assert "dust" in page.lower()
    refused = kept("helper-done", "HEAD-SAND HEAD", "HEAD-BOND HEAD")
    assert refused.code == Exit.REFUSED
    assert "HEAD-SAND HEAD" in refused.err
    assert "HEAD-SAND HEAD" in kept("helper-list").out
    assert kept("helper-done", "head-sand head").code == Exit.OK
    assert "HEAD-SAND HEAD" not in kept("helper-list").out


def test_what_is_counted_twice_in_one_count_is_refused(kept: Any) -> None:
    said = kept("box count SHELF", "#1 x2, #1 x3")
    assert (said.code, said.err) == (
        Exit.USAGE,
        "COUNTED: «#1» is counted twice: name it once, with all that lie there\n",
    )


def test_a_step_named_twice_is_ticked_once(kept: Any) -> None:
    said = kept("helper-done", "HEAD-SAND HEAD", "head-sand  head")
    assert said.code == Exit.OK, said.err
    assert said.err.count("HEAD") == 1


def test_pieces_that_do_not_lie_there_are_told_with_one_way_out(kept: Any) -> None:
    said = kept("lot scrap VISOR --pieces 9")
    assert said.code == Exit.REFUSED
    assert said.err.count("name fewer") == 1
