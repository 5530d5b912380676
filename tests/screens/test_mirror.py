"""Mirror: keys pressed, the record looked at."""

import re
from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.lots import CountPart, MarkMissing
from buildlog.proposals.places import PiecesNamed, read_slot
from buildlog.proposals.prints import CancelPrint, FinishPrint
from buildlog.proposals.slots import FitPiece
from buildlog.terms import JobState


def tree(on: Any) -> Any:
    return on.app.screen.query_one("#tree")


async def go_to(on: Any, ledger: Ledger, code: str) -> None:
    """The cursor of the tree on an assembly."""
    found = next(a.id for a in ledger.snapshot().assemblies if a.code == code)
    assert tree(on).move_to(f"assembly:{found}")
    await on.settle()


async def go_to_blocker(on: Any, text: str, side: str = "#left-side") -> None:
    """The cursor of a list below on the first blocker that says this."""
    grid = on.app.screen.query_one(f"{side} Grid")
    key = next(row.key for row in grid.view.rows if text in row.words() and ":" in row.key)
    grid.move_to(key)
    grid.focus()
    await on.settle()


async def test_the_tree_has_both_sides_and_the_blockers_of_the_row_below(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "LEG")
        leg = next(line for line in on.lines if "Leg" in line and "0/3" in line)
        assert leg.count("0/3") == 2
        below = next(line for line in on.lines if "LEG L" in line)
        assert "LEG R" in below
        assert any("SHIN L printing" in line and "SHIN R printing" in line for line in on.lines)


async def test_an_assembly_without_sides_has_one_list_over_the_whole_width(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "HEAD")
        assert not on.app.screen.query_one("#right-side").display
        assert any("How are the lanterns hung?" in line and line.rstrip().endswith("answer") for line in on.lines)


SMALL_PICTURE = """\
 1 Today [2 Mirror] 3 Prints 4 Stock 5 Fits 7 Episode 8 Journal 9 Things 0
  Lantern Beetle 0 of 9 slots   held by 8   to print 00:00 h
  ◂ left                 ⣤ printed  ⠒ worked  ⠉ passed                  right ▸
                     ····⢠   ▾ Beetle                  ⡄····                0/9
  0/3          ···········       Leg                   ···········          0/3
▌                    ····⢠       Head                  ⡄····                0/3








  HEAD 4 hold it   print 00:00 h
▏ 1 × VISOR to print                                          0:00 h      queue
  1 × CROWN queued                                            0:00 h  see queue
  sand the head                                               40 min       tick
  How are the lanterns hung?                                  15 min     answer
"""


async def test_mirror_at_80_by_24_as_a_picture(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(80, 24)) as on:
        await on.press("2 down down")
        shown = "\n".join(on.lines[: SMALL_PICTURE.count("\n")])
    hours_blotted = re.sub(r"\d+:\d\d h", lambda found: re.sub(r"\d", "0", found[0]), shown)
    assert hours_blotted == SMALL_PICTURE.rstrip("\n")


async def test_what_holds_the_whole_build_stands_under_the_way_to_it(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(80, 40)) as on:
        await on.press("2")
        lines = [line.strip(" ▏▌▁▂▃▄▅▆▇") for line in on.lines]
        assert lines.index("HEAD") > next(i for i, line in enumerate(lines) if "hold it" in line)


async def test_enter_on_the_tree_goes_down_and_enter_there_answers_the_question(
    workshop: Ledger, screens: Any
) -> None:
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "HEAD")
        await on.press("enter")
        await go_to_blocker(on, "lanterns hung")
        await on.press("enter h o o k s enter")
    assert workshop.snapshot().questions[0].answer == "hooks"


async def test_enter_takes_a_print_off_that_is_over(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "LEG")
        await go_to_blocker(on, "toe printing", "#right-side")
        await on.press("enter 1")
        assert workshop.snapshot().jobs[2].state is JobState.FINISHED


async def test_enter_goes_to_the_printer_of_a_print_that_runs(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "LEG")
        await go_to_blocker(on, "shin l printing")
        await on.press("enter")
        assert on.app.current_mode == "prints"
        big = next(p.id for p in workshop.snapshot().printers if p.code == "BIG")
        assert on.app.screen.cursor_key == f"printer:{big}"


async def test_enter_starts_the_ready_file_where_a_printer_is_free(workshop: Ledger, screens: Any) -> None:
    workshop.record(FinishPrint(printer="BIG"))
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "HEAD")
        await go_to_blocker(on, "visor to print")
        await on.press("enter 1")
        await on.press("1")
    job = workshop.snapshot().jobs[-1]
    visor = next(file.id for file in workshop.snapshot().print_files if file.code == "F-VISOR")
    assert (job.state, job.print_file_id) == (JobState.RUNNING, visor)


async def test_s_starts_a_ready_file_and_a_answers_the_open_question(workshop: Ledger, screens: Any) -> None:
    workshop.record(FinishPrint(printer="BIG"))
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "HEAD")
        await on.press("s 1 1")
        await go_to_blocker(on, "lanterns hung")
        await on.press("a h o o k s enter")
    snapshot = workshop.snapshot()
    assert snapshot.jobs[-1].state is JobState.RUNNING
    assert snapshot.questions[0].answer == "hooks"


async def test_enter_queues_the_ready_file_where_none_is_free(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "HEAD")
        await go_to_blocker(on, "visor to print")
        await on.press("enter")
        assert "F-VISOR" in on.text
        await on.press("enter")
    job = workshop.snapshot().jobs[-1]
    assert job.state is JobState.QUEUED


def finish_shins(ledger: Ledger) -> None:
    ledger.record(FinishPrint(printer="BIG"))
    ledger.record(FinishPrint(printer="TWIN"))


async def test_a_step_is_ticked_on_the_side_picked_and_fits_its_pieces(workshop: Ledger, screens: Any) -> None:
    finish_shins(workshop)
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "LEG")
        await on.press("t")
        assert "LEG L" in on.text
        await on.press("2")
        assert "ventil" in on.text.casefold()
        await on.press("1")
    tick = workshop.snapshot().steps_done[0]
    right = next(p for p in workshop.snapshot().positions if p.side.value == "R")
    assert tick.position_id == right.id
    assert len([f for f in workshop.snapshot().fittings if f.position_id == right.id]) == 3


async def test_enter_ticks_the_step_that_holds_a_side(workshop: Ledger, screens: Any) -> None:
    finish_shins(workshop)
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "LEG")
        await go_to_blocker(on, "bond shin and toes")
        await on.press("enter 1")
        assert "curing" in on.text
    left = next(p for p in workshop.snapshot().positions if p.side.value == "L")
    assert [tick.position_id for tick in workshop.snapshot().steps_done] == [left.id]


async def test_a_fit_is_recorded_where_the_cursor_stands(workshop: Ledger, screens: Any) -> None:
    workshop.record(FitPiece(slot=read_slot("HEAD / BRIDGE")))
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "HEAD")
        await on.press("r 1")
    assert [result.outcome.value for result in workshop.snapshot().fit_results] == ["passed"]


async def test_a_piece_is_put_in_taken_out_and_that_is_undone(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "HEAD")
        await on.press("i")
        assert len(workshop.snapshot().fittings) == 1
        await on.press("o 1")
        assert workshop.snapshot().fittings[0].until_at is not None
        await on.press("u y")
        assert workshop.snapshot().fittings[0].until_at is None


async def test_a_stand_in_told_in_words_is_shown_and_fills_nothing(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "HEAD")
        await on.press("d 1 c a r d enter")
        head = next(line for line in on.lines if "Head" in line)
        assert "~1" in head
        assert "card stands in for VISOR" in on.text
    assert workshop.snapshot().fittings[0].what == "card"


async def test_a_row_folds_what_is_beneath_it(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("2 left")
        assert len(tree(on).shown_keys) == 1
        await on.press("right")
        assert len(tree(on).shown_keys) == 3


async def test_the_tree_is_filtered_by_typing(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("2 / h e a d enter")
        assert len(tree(on).shown_keys) == 2
        assert "HEAD" in on.text


async def test_a_part_found_by_name_leads_to_the_assembly_that_takes_it(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("ctrl+p V I S O R enter")
        assert on.app.current_mode == "mirror"
        head = next(a.id for a in workshop.snapshot().assemblies if a.code == "HEAD")
        assert tree(on).cursor_key == f"assembly:{head}"


async def test_a_note_is_about_the_row(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "LEG")
        await on.press("n o k enter")
    assert [note.text for note in workshop.snapshot().notes] == ["ok"]


async def test_an_empty_ledger_leads_in(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger) as on:
        await on.press("2")
        assert "buildlog read FILE" in on.text


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_both_lists_are_usable_at_both_sizes(workshop: Ledger, screens: Any, size: tuple[int, int]) -> None:
    async with screens(workshop, size=size) as on:
        await on.press("2")
        await go_to(on, workshop, "LEG")
        assert tree(on).size.height >= 10
        assert on.app.screen.query_one("#left-side Grid").size.height >= 6
        assert all(len(line) <= size[0] for line in on.lines)


async def test_a_missing_piece_is_found_again_with_enter(workshop: Ledger, screens: Any) -> None:
    workshop.record(CancelPrint(job=4))
    workshop.record(CountPart(part="CROWN", pieces=1))
    workshop.record(MarkMissing(what=PiecesNamed(code="CROWN")))
    async with screens(workshop) as on:
        await on.press("2")
        await go_to(on, workshop, "HEAD")
        await go_to_blocker(on, "missing")
        await on.press("enter enter")
    assert [entry.kind.value for entry in workshop.snapshot().lot_entries][-2:] == ["missing", "found"]


LOOKS = """
  ◂ left                 ⣤ printed  ⠒ worked  ⠉ passed                  right ▸
                     ····⢠   ▾ Beetle                  ⡄····                0/9
▌ 0/3          ···········       Leg                   ···········          0/3
                     ····⢠       Head                  ⡄····                0/3
"""
BELOW = """
  LEG L 2 hold it   print 4:02 h          LEG R 2 hold it   print 4:02 h
▏ 1 × SHIN L printing            20:48  ▏ 1 × SHIN R printing             20:48
  2 × TOE printing            take off    2 × TOE printing             take off
"""


async def test_mirror_looks_composed_in_a_small_terminal(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("2 down")
        assert on.lines[2:6] == LOOKS.strip("\n").splitlines()
        assert on.lines[14:17] == BELOW.strip("\n").splitlines()
