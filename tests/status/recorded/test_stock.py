"""Whether the material lasts: what is laid against it, when it runs out, when to order how much."""

import pytest

from buildlog.status.stock import burn_down_of

EIGHT, NOON = "2026-11-25T08:00:00Z", "2026-11-25T12:00:00Z"


@pytest.fixture
def need(beetle, add):
    """``need(7)``: so many plates of 150 g of black ABS and 10 h each, unless told otherwise."""

    def asked(quantity: int, code: str = "PLATE", **texts: str):
        figures = {"print_time": "10:00", "material": "ABS-BLACK", "grams": "150", "stage": "drawn"} | texts
        add("part", code=code, name=code.lower(), build="LB", assembly="BEETLE", quantity=str(quantity), **figures)

    return asked


def test_what_is_to_print_is_told_with_what_failures_cost_on_top(beetle, stand):
    black = stand().material("ABS-BLACK")
    assert (black.on_hand_mg, black.to_print_mg, black.running_mg, black.queued_mg) == (1_000_000, 400_000, 0, 0)
    retries = stand().piece("SHIN", "L").retries
    assert black.waste_mg == 4 * round(100_000 * (retries - 1)) > 0


def test_enough_for_all_slots_blocks_nothing(beetle, stand):
    assert stand().stock.not_covered == {}


def test_the_first_demand_not_covered_and_every_later_one_is_blocked(need, stand):
    need(7)  # the 6 plates that lie nearer to the root come first: 900 g of 1000 g, the 7th is not covered
    there = stand()
    plate, left, right = (there.piece(*named) for named in (("PLATE",), ("SHIN", "L"), ("SHIN", "R")))
    missing = {key: not_covered.rank for key, not_covered in there.stock.not_covered.items()}
    assert missing == {
        (plate.part_id, plate.side): 6,
        (left.part_id, left.side): 7,
        (right.part_id, right.side): 8,
    }
    assert "ABS-BLACK: 100 g left, needs 150 g" in {m.reason for m in there.stock.not_covered.values()}


def test_what_is_held_on_purpose_is_reckoned_with(need, stand):
    need(1, code="HAND", handed="yes", lead_side="L", side_rule="one of each")
    there = stand()
    assert [slot.side for slot in there.needs.slots if slot.held] == ["R"]
    assert there.material("ABS-BLACK").to_print_mg == 400_000 + 2 * 150_000


def test_any_colour_demands_take_the_largest_remainder_after_the_exact_ones(need, stand):
    need(2, code="INNER", material="any ABS")
    there = stand()
    assert (there.material("ABS-BLACK").to_print_mg, there.material("ABS-RED").to_print_mg) == (400_000, 300_000)


def test_a_polymer_of_which_the_ledger_knows_no_material_is_named(need, stand):
    need(1, code="TANK", material="any PA")
    (missing,) = stand().stock.not_covered.values()
    assert missing.reason == "the ledger knows no material of PA"


def test_a_running_print_claims_what_it_still_draws(with_file, do, stand):
    do("start_print", EIGHT, file="F1", printer="P1", spools="B1")
    black = stand().material("ABS-BLACK")
    assert (black.on_hand_mg, black.running_mg) == (890_000, 110_000)
    assert black.to_print_mg == 220_000  # one run of the file is still to come


def test_a_queued_print_comes_before_what_is_to_print(with_file, do, stand):
    do("queue_print", file="F1", printer="P1")
    black = stand().material("ABS-BLACK")
    assert (black.queued_mg, black.to_print_mg) == (220_000, 220_000)


def test_the_needs_of_the_weeks_add_up_to_the_whole_need(need, stand):
    need(30)
    black = stand().material("ABS-BLACK")
    assert sum(week.need_mg for week in black.weeks) == black.need_mg
    assert black.weeks[-1].left_mg == black.on_hand_mg - black.need_mg == -black.short_mg


def test_with_no_prints_yet_the_pace_stands_in_and_says_so(beetle, stand):
    """The share of the week that is for building × printers up: 168 h × 0.6 × 2."""
    there = stand()
    assert there.learning.pace.hours_per_week == pytest.approx(201.6)
    assert there.material("ABS-BLACK").usual_pace is True


def test_an_order_is_due_before_the_stock_falls_below_the_reserve_less_the_lead_time(need, stand):
    need(30)
    there = stand()
    black = there.material("ABS-BLACK")
    assert black.runs_out_at is not None
    assert black.order_by < black.runs_out_at
    assert black.packs_to_order >= 4
    (basket,) = there.stock.baskets
    assert (basket.supplier, basket.is_now) == ("Filament by post", True)
    assert basket.total_minor == black.packs_to_order * 2_000 + 490


def test_nothing_is_ordered_for_the_last_hook_when_a_full_spool_lies_there(beetle, stand):
    """The reserve is never more than the whole need: 1000 g bear 400 g twice."""
    there = stand()
    assert there.material("ABS-BLACK").order_by is None
    assert there.stock.baskets == ()


def test_what_is_on_order_counts_from_when_it_is_due(need, do, stand):
    need(12)
    before = stand().material("ABS-BLACK")
    do("place_order", lines="ABS-BLACK x2", expected="2026-11-28T12:00:00Z")
    after = stand().material("ABS-BLACK")
    assert before.short_mg > 0
    assert (after.on_order_mg, after.short_mg, after.due_at) == (2_000_000, 0, "2026-11-28T12:00:00Z")
    assert after.packs_to_order < before.packs_to_order


def test_what_is_on_order_is_named_beside_what_is_not_covered(need, do, stand):
    need(7)
    do("place_order", lines="ABS-BLACK x1", expected="2026-11-28T12:00:00Z")
    assert {m.reason for m in stand().stock.not_covered.values()} == {
        "ABS-BLACK: 100 g left, needs 150 g, due Sat 28 Nov",
        "ABS-BLACK: 100 g left, needs 100 g, due Sat 28 Nov",
    }


def test_received_packs_are_on_hand_and_no_longer_on_order(beetle, do, stand):
    do("place_order", code="O1", lines="ABS-BLACK x2")
    do("receive_spool", material="ABS-BLACK", order="O1")
    black = stand().material("ABS-BLACK")
    assert (black.on_hand_mg, black.on_order_mg, black.sealed_spools) == (2_000_000, 1_000_000, 2)


def test_a_shown_colour_from_one_lot_is_bought_whole_and_a_fifth_more(need, stand):
    need(10, code="HORN", material="ABS-RED", one_lot="yes")
    red = stand().material("ABS-RED")
    assert red.packs_to_order * 1_000_000 + red.on_hand_mg >= 1.2 * 1_500_000


def test_bought_items_that_slots_ask_for_are_in_the_basket_in_whole_packs(beetle, add, stand):
    add("bought item", code="PIN", name="Hinge pin", pack_quantity="10", price="3.00", supplier="SUP")
    add("part", code="HINGE", name="Hinge", build="LB", assembly="LEG", origin="bought", bought_item="PIN",
        bought_quantity="6", quantity="1")  # fmt: skip
    (basket,) = stand().stock.baskets
    (line,) = basket.lines
    assert (line.code, line.quantity, line.price_minor) == ("PIN", 20, 600)


def test_a_rough_item_that_runs_low_is_in_the_basket_until_it_is_ordered(beetle, add, do, stand):
    add("bought item", code="GLUE", name="Glue", account="rough", supplier="SUP")
    assert stand().stock.baskets == ()
    do("set_level", item="GLUE", level="low")
    assert [line.code for line in stand().stock.baskets[0].lines] == ["GLUE"]
    do("place_order", lines="GLUE x1")
    assert stand().stock.baskets == ()


def test_what_is_drawn_outside_the_plan_is_ordered_at_its_reorder_point(beetle, add, do, stand):
    """8, 12 and 10 in the three full weeks, 10 a week on average with a standard deviation of 2; seven days to come:
    10 + 1.645 × 2 = 13.3, so at 14."""
    add("bought item", code="SCREW", name="Screw", pack_quantity="50", supplier="SUP", lead_days="7")
    do("receive_bought", "2026-11-01T12:00:00Z", item="SCREW", amount="45")
    for day, amount in ((3, "8"), (10, "12"), (17, "10")):
        do("draw_bought", f"2026-11-{day:02d}T12:00:00Z", item="SCREW", amount=amount, why="jigs")
    assert stand().stock.baskets == ()
    do("draw_bought", EIGHT, item="SCREW", amount="1", why="jigs")
    (line,) = stand().stock.baskets[0].lines
    assert (line.code, line.quantity, line.is_short) == ("SCREW", 50, False)
    assert line.reason == "10.0 each a week go outside the plan: order at 14 each"


def test_the_best_spool_for_each_print_is_told(with_file, do, stand):
    do("weigh_spool", EIGHT, spool="B1", gross="480")
    checks = {check.text for check in stand().stock.one_spool.values()}
    assert checks == {"280 g, needs 220 g: enough"}


def test_the_hours_burn_down_ends_with_what_is_left_now(beetle, stand):
    there = stand()
    curve = there.stock.hours_burn_down
    assert curve.actual[-1] == (there.now, there.hours.total_minutes / 60)
    assert [at for at, _ in curve.actual] == sorted(at for at, _ in curve.actual)
    assert curve.forecast[0] == curve.actual[-1]
    assert curve.forecast[-1][1] == 0.0
    assert all(low <= middle <= high for (_, low), (_, middle), (_, high) in zip(
        curve.low, curve.forecast, curve.high, strict=True))  # fmt: skip


def test_the_hours_burn_down_shows_pieces_from_when_they_were_made(with_file, do, stand):
    do("start_print", "2026-11-18T08:00:00Z", file="F1", printer="P1", spools="B1", ended="2026-11-18T17:00:00Z")
    there = stand()
    by_day = {at[:10]: hours for at, hours in there.stock.hours_burn_down.actual}
    assert by_day["2026-11-15"] == pytest.approx(2 * by_day["2026-11-22"])
    assert by_day["2026-11-22"] == pytest.approx(there.hours.total_minutes / 60, abs=0.1)


def test_the_burn_down_of_a_material_replays_its_balances(beetle, do, stand):
    do("draw_filament", "2026-11-18T08:00:00Z", spool="B1", grams="250")
    there = stand()
    (black,) = [m.id for m in there.snapshot.materials if m.code == "ABS-BLACK"]
    curve = burn_down_of(there.snapshot, there.now, there.stock, there.hours, black)
    by_day = {at[:10]: grams for at, grams in curve.actual}
    assert (by_day["2026-11-15"], by_day["2026-11-22"], by_day["2026-11-25"]) == (1000, 750, 750)
