"""What every action promises: it commits as one group, joins an outer unit of work, rolls back on error, is seen by
others, and is undone and redone to the very same rows. The table below has an example of every wish there is.
"""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.field import fields_of
from buildlog.proposals.from_file import FromFile
from buildlog.proposals.moments import stored_moment
from buildlog.proposals.nouns import Add, BringBack, Change, Retire, form_from_texts, values_from_texts
from buildlog.proposals.wishes import wishes
from buildlog.record.tables import JOURNAL_TABLES, TABLES

Told = tuple[str, dict[str, str]]

LOAD: Told = ("load_spool", {"printer": "P1", "spool": "B1"})
QUEUE: Told = ("queue_print", {"file": "F1", "printer": "P1"})
START: Told = ("start_print", {"file": "F1", "printer": "P1"})
FINISH: Told = ("finish_print", {"printer": "P1", "real_time": "10:30", "grams": "520"})
COUNT: Told = ("count_part", {"part": "SHIN", "side": "L", "pieces": "5", "box": "SHELF"})
FIT: Told = ("fit_piece", {"slot": "LEG L / SHIN"})
FIT_2: Told = ("fit_piece", {"slot": "LEG L / SHIN"})
SAND: Told = ("tick_step", {"step": "LEG-SAND", "place": "LEG L"})
ORDER: Told = ("place_order", {"code": "O1", "lines": "ABS-BLACK x2, SCREW x50"})
ASK: Told = ("ask_question", {"code": "Q1", "text": "Which hinge?", "holds": "LEG"})
PLAN: Told = ("plan_episode", {"build": "LB", "films_at": "2026-11-28T13:00:00Z", "goals": "ready LEG L"})
SHOT: Told = ("plan_shot", {"what": "the sanded edge", "step": "LEG-SAND"})
FILMED: Told = ("film_shot", {"shot": "S1"})
VIEWER: Told = ("viewer_asks", {"text": "How heavy is it?", "build": "LB"})
PROMISE: Told = ("make_promise", {"who": "the neighbour", "promised": "a mention", "build": "LB"})
NOTE: Told = ("add_note", {"text": "smells of vinegar"})

EXAMPLES: dict[str, tuple[tuple[Told, ...], dict[str, str]]] = {
    "add_assembly_with_parts": (
        (),
        {"code": "HAND", "name": "hand", "parent": "BEETLE", "parts": "PALM palm handed x1, SHIN x2"},
    ),
    "add_goals": ((PLAN,), {"build": "LB", "goals": "shown LEG R"}),
    "add_note": ((), {"text": "smells of vinegar", "about": "part SHIN"}),
    "answer_question": ((ASK,), {"question": "Q1", "answer": "the brass one"}),
    "answer_viewer": ((PLAN, VIEWER), {"question": "V1", "answer": "Twenty kilograms."}),
    "ask_question": ((), {"text": "Which hinge?", "holds": "LEG L, SHIN"}),
    "cancel_print": ((QUEUE,), {"job": "1"}),
    "clear_slot": ((COUNT, FIT), {"slot": "LEG L / SHIN"}),
    "close_episode": ((PLAN,), {"build": "LB"}),
    "close_order": ((ORDER,), {"order": "O1"}),
    "correct_print": ((LOAD, START, FINISH), {"job": "1", "grams": "500", "outcomes": "HINGE x1 scrap"}),
    "count_bought": ((), {"item": "SCREW", "amount": "12"}),
    "count_box": ((COUNT,), {"box": "SHELF", "counted": "#1 x4, item SCREW x12"}),
    "count_lot": ((COUNT,), {"what": "#1", "pieces": "4"}),
    "count_part": ((), {"part": "SHIN", "side": "L", "pieces": "5"}),
    "damage_pieces": ((COUNT,), {"what": "SHIN L", "where": "edge", "pieces": "1"}),
    "draw_bought": ((), {"item": "SCREW", "amount": "2"}),
    "draw_filament": ((), {"spool": "B1", "grams": "20"}),
    "dry_spool": ((), {"spool": "B1"}),
    "empty_spool": ((), {"spool": "B1", "reel": "210"}),
    "expect_order": ((ORDER,), {"order": "O1", "expected": "2026-12-05T12:00:00Z"}),
    "fail_print": ((LOAD, START), {"printer": "P1", "cause": "came off"}),
    "film_shot": ((SHOT,), {"shot": "S1"}),
    "finish_print": ((LOAD, START), {"printer": "P1", "real_time": "10:30", "grams": "520"}),
    "fit_piece": ((COUNT,), {"slot": "LEG L / SHIN"}),
    "footage_lost": ((SHOT, FILMED), {"shot": "S1"}),
    "footage_safe": ((SHOT, FILMED), {"shot": "S1"}),
    "found_pieces": ((COUNT, ("mark_missing", {"what": "SHIN L", "pieces": "1"})), {"what": "SHIN L"}),
    "keep_promise": ((PROMISE,), {"promise": "PR1"}),
    "lend_pieces": ((COUNT,), {"what": "SHIN L", "pieces": "2", "to": "a friend"}),
    "load_spool": ((), {"printer": "P1", "spool": "B1"}),
    "make_promise": ((), {"who": "the neighbour", "promised": "a mention", "supplied": "the hall", "build": "LB"}),
    "make_pieces": ((), {"part": "CORD"}),
    "mark_missing": ((COUNT,), {"what": "SHIN L", "pieces": "1"}),
    "move_contents": ((COUNT,), {"box": "SHELF", "to": "DRAWER"}),
    "move_pieces": ((COUNT,), {"what": "SHIN L", "box": "DRAWER", "pieces": "2"}),
    "move_print": ((QUEUE,), {"job": "1", "rank": "3"}),
    "open_spool": ((), {"spool": "B2"}),
    "overrule_shot": ((SHOT,), {"shot": "S1", "why": "too dark"}),
    "pieces_back": ((COUNT, ("lend_pieces", {"what": "SHIN L", "pieces": "2"})), {"what": "SHIN L"}),
    "place_order": ((), {"lines": "ABS-BLACK x2, SCREW x50"}),
    "plan_shot": ((PLAN,), {"what": "the sanded edge", "step": "LEG-SAND", "side": "L"}),
    "plan_episode": ((), {"build": "LB", "films_at": "2026-11-28T13:00:00Z", "goals": "ready LEG L"}),
    "print_ran": (
        (LOAD,),
        {"file": "F1", "printer": "P1", "ended": "2026-11-25T23:00:00Z", "outcomes": "HINGE x1 scrap"},
    ),
    "printer_down": ((), {"printer": "P1", "why": "bearing"}),
    "printer_up": ((("printer_down", {"printer": "P1"}),), {"printer": "P1"}),
    "put_stand_in": ((), {"slot": "LEG L / SHIN", "words": "cardboard"}),
    "queue_print": ((), {"file": "F1", "times": "2"}),
    "receive_bought": ((), {"item": "SCREW", "amount": "50"}),
    "receive_order": ((ORDER,), {"order": "O1"}),
    "receive_spool": ((), {"material": "ABS-BLACK", "packs": "2"}),
    "record_fit": ((COUNT, FIT, FIT_2), {"test": "F-SHIN", "place": "LEG L", "measured": "0.4"}),
    "remake_position": ((COUNT, FIT, SAND), {"place": "LEG L"}),
    "remove_note": ((NOTE,), {"note": "1"}),
    "reopen_question": ((ASK, ("answer_question", {"question": "Q1", "answer": "brass"})), {"question": "Q1"}),
    "reopen_step": ((SAND,), {"step": "LEG-SAND", "place": "LEG L"}),
    "repair_pieces": ((COUNT, ("damage_pieces", {"what": "SHIN L", "where": "edge"})), {"what": "SHIN L"}),
    "restarted": ((LOAD, START), {"printer": "P1"}),
    "return_bought": ((), {"item": "SCREW", "amount": "2"}),
    "revise": ((COUNT, FIT), {"part": "SHIN", "old": "stand-ins", "bonded": "leave"}),
    "scrap_pieces": ((COUNT,), {"what": "SHIN L", "pieces": "1"}),
    "seal_spool": ((("open_spool", {"spool": "B2"}),), {"spool": "B2"}),
    "set_bed": ((), {"printer": "P1", "surface": "smooth sheet"}),
    "set_goals": ((PLAN,), {"build": "LB", "goals": "shown LEG R"}),
    "set_level": ((), {"item": "GLUE", "level": "low"}),
    "set_nozzle": ((), {"printer": "P1", "nozzle": "0.6"}),
    "set_stage": ((), {"part": "SHIN", "stage": "trial"}),
    "start_print": ((LOAD,), {"file": "F1", "printer": "P1", "unattended": "yes"}),
    "supersede": ((), {"part": "SHIN", "by": "FL07"}),
    "swap_spool": ((LOAD, START), {"printer": "P1", "spool": "B2"}),
    "take_out": ((COUNT, FIT), {"slot": "LEG L / SHIN"}),
    "tick_goal": ((PLAN,), {"build": "LB", "goal": "ready LEG L"}),
    "tick_step": ((), {"step": "LEG-SAND", "place": "LEG L"}),
    "unload_spool": ((LOAD,), {"printer": "P1"}),
    "viewer_asks": ((), {"text": "How heavy is it?", "who": "a child", "build": "LB"}),
    "weigh_spool": ((), {"spool": "B1", "gross": "900"}),
}


def made(name: str, texts: dict[str, str]) -> Any:
    wish = wishes()[name]
    values, problems = values_from_texts(fields_of(wish), texts, stored_moment)
    assert not problems, problems
    return wish(**values)


def box(code: str) -> Add:
    return Add(form_from_texts("box", {"code": code, "name": code}))


NOUN_EXAMPLES: dict[str, Callable[[], Any]] = {
    "add": lambda: box("VAN"),
    "change": lambda: Change("box", "SHELF", {"place": "under the window"}),
    "retire": lambda: Retire("box", "DRAWER"),
    "bring_back": lambda: BringBack("box", "OLD"),
    "tick_steps": lambda: wishes()["tick_steps"]((made("tick_step", EXAMPLES["tick_step"][1]),)),
    "read_files": lambda: wishes()["read_files"]((FromFile(box("VAN"), None, "boxes.csv", 2),), (), "read boxes.csv"),
}
"""Wishes that no field table makes."""

NAMES = sorted({*EXAMPLES, *NOUN_EXAMPLES})


@pytest.fixture
def example(workshop: Ledger, clock: Any) -> Callable[[str], Any]:
    """The example of a wish, with all that must have happened before it on the record."""

    def prepared(name: str) -> Any:
        if name in NOUN_EXAMPLES:
            workshop.record(box("OLD"))
            workshop.record(Retire("box", "OLD"))
            return NOUN_EXAMPLES[name]()
        before, texts = EXAMPLES[name]
        for told, given in before:
            workshop.record(made(told, given))
            clock.move_on(hours=11)
        return made(name, texts)

    return prepared


def rows(path: Path) -> dict[str, list[tuple[Any, ...]]]:
    """All rows but the journal's, as another program reads them."""
    with closing(sqlite3.connect(path)) as connection:
        return {
            table: connection.execute(f'SELECT * FROM "{table}" ORDER BY id').fetchall()
            for table in TABLES
            if table not in JOURNAL_TABLES
        }


def test_the_table_has_an_example_of_every_wish() -> None:
    assert {*EXAMPLES, *NOUN_EXAMPLES} == set(wishes())


@pytest.mark.parametrize("name", NAMES)
def test_an_action_tried_dry_writes_nothing_then_commits_one_group_that_is_undone_and_redone_to_the_same_rows(
    name: str, workshop: Ledger, example: Callable[[str], Any]
) -> None:
    wish = example(name)
    before, groups = rows(workshop.path), len(workshop.journal(1000))
    assert workshop.record(wish, dry_run=True).entries
    assert rows(workshop.path) == before
    outcome = workshop.record(wish)
    after = rows(workshop.path)
    assert after != before
    assert outcome.group_id == workshop.journal(1)[0].id
    assert len(workshop.journal(1000)) == groups + 1
    assert workshop.check() == []
    workshop.undo()
    assert rows(workshop.path) == before
    workshop.redo()
    assert rows(workshop.path) == after


@pytest.mark.parametrize("name", NAMES)
def test_an_action_joins_an_outer_unit_of_work_and_is_rolled_back_with_it(
    name: str, workshop: Ledger, example: Callable[[str], Any]
) -> None:
    wish = example(name)
    before = rows(workshop.path)
    breaks = Change("box", "NOT-THERE", {"name": "x"})
    with pytest.raises(Exception, match="NOT-THERE"):
        workshop.record_all([(wish, None), (breaks, None)], "both or none")
    assert rows(workshop.path) == before
    outcome = workshop.record_all([(wish, None), (box("LAST"), None)], "both")
    assert len(outcome.sentences) == 2
    assert workshop.journal(1)[0].summary == "both"
    workshop.undo()
    assert rows(workshop.path) == before


@pytest.mark.parametrize("name", NAMES)
def test_what_is_told_after_an_action_an_undo_and_a_redo_is_what_a_first_reading_tells(
    name: str, workshop: Ledger, example: Callable[[str], Any], follow: Callable[[Ledger], Any], clock: Any
) -> None:
    wish = example(name)
    followed = follow(workshop)
    for change in (lambda: workshop.record(wish), workshop.undo, workshop.redo, lambda: None):
        change()
        clock.move_on(minutes=7)
        followed.look()
