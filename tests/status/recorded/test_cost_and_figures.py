"""What it cost so far, what it takes to finish, and what to say in front of the camera."""

import pytest

from buildlog.status.cost import reckon_cost
from buildlog.status.figures import figures_in, figures_to_say
from buildlog.terms import Moment


@pytest.fixture
def cost(stand):
    def reckon():
        there = stand()
        return reckon_cost(there.snapshot, there.now, there.accounts, there.hours, there.stock)

    return reckon


@pytest.fixture
def printed(with_file, do):
    """One run of F1 that came through in 9 h with 230 g, one that failed after 3 h with 80 g."""
    do("start_print", "2026-11-10T08:00:00Z", file="F1", printer="P1", spools="B1")
    do("finish_print", "2026-11-10T17:00:00Z", real_time="9:00", grams="230")
    do("start_print", "2026-11-20T08:00:00Z", file="F1", printer="P1", spools="B1")
    do("fail_print", "2026-11-20T11:00:00Z", cause="came off", real_time="3:00", grams="80")
    return with_file


def test_filament_is_paid_by_what_was_drawn_of_its_spool(printed, cost):
    assert cost().spent.filament_minor == round(2_000 * 0.31)


def test_a_free_spool_costs_nothing_so_far(with_file, do, cost):
    do("receive_spool", "2026-11-10T08:00:00Z", material="ABS-BLACK", codes="B9", price="0")
    do("draw_filament", "2026-11-11T08:00:00Z", spool="B9", grams="500")
    assert cost().spent.filament_minor == 0


def test_electricity_is_the_power_of_the_printer_times_its_hours(printed, cost):
    assert cost().spent.electricity_minor == round(0.1 * 12 * 30)


def test_finishing_takes_filament_at_replacement_price_and_electricity(with_file, cost, stand):
    there = stand()
    assert cost().to_finish.filament_minor == round(there.material("ABS-BLACK").need_mg * 2_000 / 1_000_000)
    assert cost().to_finish.electricity_minor == round(there.hours.total_minutes / 60 * 0.1 * 30)


def test_bought_items_are_paid_as_received_and_finished_by_the_basket(beetle, add, do, cost):
    add("bought item", code="PIN", name="Hinge pin", pack_quantity="10", price="3.00", supplier="SUP")
    add("part", code="HINGE", name="Hinge", build="LB", assembly="LEG", origin="bought", bought_item="PIN",
        bought_quantity="6", quantity="1")  # fmt: skip
    assert (cost().spent.bought_minor, cost().to_finish.bought_minor) == (0, 600)
    do("receive_bought", item="PIN", amount="20")
    assert (cost().spent.bought_minor, cost().to_finish.bought_minor) == (600, 0)


def test_the_figures_since_the_start_count_hours_grams_pieces_and_failures(printed):
    said = figures_to_say(printed.snapshot(), printed.now()).by_build[1].all_time
    assert (said.print_minutes, said.drawn_mg) == (12 * 60, 310_000)
    assert (said.pieces, said.failures, said.prints) == (2, 1, 2)


def test_the_episode_begins_at_the_last_filming_moment(printed, add):
    add("episode", "2026-11-05T08:00:00Z", build="LB", number="1", films_at="2026-11-14 13:00")
    said = figures_to_say(printed.snapshot(), printed.now()).by_build[1]
    assert said.episode.since == "2026-11-14T12:00:00Z"
    assert (said.episode.print_minutes, said.episode.pieces, said.episode.failures) == (180, 0, 1)
    assert said.all_time.prints == 2


def test_figures_of_any_windows_add_up(printed):
    snapshot = printed.snapshot()
    early, late, whole = figures_in(
        snapshot,
        {
            1: (
                (None, Moment("2026-11-15T00:00:00Z")),
                (Moment("2026-11-15T00:00:00Z"), printed.now()),
                (None, printed.now()),
            )
        },
    )[1]
    assert early.print_minutes + late.print_minutes == whole.print_minutes
    assert (early.pieces, late.pieces) == (2, 0)
