"""Stock: keys pressed, the record looked at."""

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.spools import DrawFilament, EmptySpool, ReceiveSpool
from buildlog.terms import SpoolEntryKind


def spool_id(ledger: Ledger, code: str) -> int:
    return next(spool.id for spool in ledger.snapshot().spools if spool.code == code)


async def go_to(on: Any, key: str) -> None:
    """The cursor on a line of the lower list, whichever material it belongs to."""
    noun, _, row_id = key.partition(":")
    on.app.screen.reveal(noun, int(row_id))
    await on.settle()
    assert on.app.screen.cursor_key == key


async def go_to_spool(on: Any, ledger: Ledger, code: str) -> None:
    await go_to(on, f"spool:{spool_id(ledger, code)}")


def kinds(ledger: Ledger, code: str) -> list[SpoolEntryKind]:
    return [e.kind for e in ledger.snapshot().spool_entries if e.spool_id == spool_id(ledger, code)]


async def test_materials_have_what_is_there_what_is_needed_and_when_to_order(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("4")
        head = on.lines[2]
        assert [word in head for word in ("on hand", "needs", "short", "runs out", "order by", "packs")] == [True] * 6
        amber = next(line for line in on.lines if "PLA-AMBER" in line)
        told = on.app.status.stock.materials[1]
        assert f"± {told.pm_mg / 1000:.0f}" in amber
        assert any("print hours" in line for line in on.lines)


async def test_the_burn_down_is_of_the_material_under_the_cursor(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        await on.press("4 home")
        first = next(line for line in on.lines if "so far" in line)
        await on.press("end")
        last = next(line for line in on.lines if "so far" in line)
        assert "print hours" in last
        assert "print hours" not in first


async def test_a_weighing_shows_both_figures(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("4")
        await go_to_spool(on, workshop, "A1")
        await on.press("w 9 0 0 enter")
        entry = workshop.snapshot().spool_entries[-1]
        assert (entry.kind, entry.gross_mg) == (SpoolEntryKind.WEIGHED, 900_000)
        told = on.app.status.accounts.spools[spool_id(workshop, "A1")].correction
        assert f"read {told.read // 1000} g, reckoned" in on.text


async def test_a_spool_is_loaded_opened_sealed_dried_and_used_up(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("4")
        await go_to_spool(on, workshop, "A2")
        await on.press("p")
        await on.press("p")
        await on.press("d")
        assert "data sheet" in on.text
        await on.press("1")
        await on.press("m 2 0 0 enter")
    found = kinds(workshop, "A2")
    assert found == [SpoolEntryKind.OPENED, SpoolEntryKind.SEALED, SpoolEntryKind.DRIED, SpoolEntryKind.EMPTIED]


async def test_a_spool_under_the_cursor_is_loaded_on_the_printer_picked(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("4")
        await go_to_spool(on, workshop, "A2")
        await on.press("l 2")
    assert workshop.snapshot().set_ups[-1].spool_id == spool_id(workshop, "A2")


async def test_the_material_that_is_on_the_head_is_offered_first(workshop: Ledger, screens: Any) -> None:
    workshop.record(ReceiveSpool(material="ABS-BLACK", codes=("B2",)))
    async with screens(workshop) as on:
        await on.press("f 1 4 home l")
        twin = next(line.split() for line in on.lines if "TWIN head 1" in line)
        await on.press(twin[twin.index("TWIN") - 1])
        order = [word for line in on.lines for word in line.split() if word in ("A2", "B2")]
    assert order == ["B2", "A2"]


async def test_more_drawn_than_was_there_asks_for_a_weighing(workshop: Ledger, screens: Any) -> None:
    workshop.record(DrawFilament(spool="A2", grams=1_200_000))
    async with screens(workshop) as on:
        await on.press("4")
        await go_to_spool(on, workshop, "A2")
        assert next(line for line in on.lines if " A2 " in line and "weigh" in line)


async def test_a_basket_is_ordered_with_one_key_and_received_with_another(workshop: Ledger, screens: Any) -> None:
    workshop.record(EmptySpool(spool="A2"))
    before = len(workshop.snapshot().orders)
    async with screens(workshop) as on:
        await on.press("4")
        baskets = on.app.status.stock.baskets
        assert baskets, "nothing to order"
        await go_to(on, f"supplier:{baskets[0].supplier_id}")
        await on.press("o 1")
        order = workshop.snapshot().orders[-1]
        assert len(workshop.snapshot().orders) == before + 1
        lines = [line for line in workshop.snapshot().order_lines if line.purchase_id == order.id]
        assert [line.quantity for line in lines] == [line.quantity for line in baskets[0].lines]
        await go_to(on, f"order:{order.id}")
        await on.press("e 1")
    assert workshop.snapshot().orders[-1].closed_at is not None


async def test_spools_that_came_without_an_order_are_received(workshop: Ledger, screens: Any) -> None:
    before = len(workshop.snapshot().spools)
    async with screens(workshop) as on:
        await on.press("4 home e 2")
        await on.press("enter")
    spools = workshop.snapshot().spools
    assert len(spools) == before + 1


async def test_a_bought_item_is_counted(workshop: Ledger, screens: Any) -> None:
    item = workshop.snapshot().bought_items[0]
    async with screens(workshop) as on:
        await on.press("4")
        await go_to(on, f"bought item:{item.id}")
        await on.press("k 3 7 enter")
        assert "37 each" in on.text
        assert "counted 37, reckoned 40" in on.text
    assert workshop.snapshot().bought_entries[-1].amount == 37


async def test_an_order_that_is_late_asks_for_an_answer(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop, size=(120, 40)) as on:
        await on.press("4")
        assert "Asks for you" in on.text
        key = next(row.key for row in on.app.screen.query_one("#shelf").view.rows if row.key.startswith("alert:"))
        await go_to(on, key)
        await on.press("enter")
        assert on.app.screen.cursor_key.startswith("order:")


async def test_a_blocker_of_material_leads_to_it_and_escape_back(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.press("2")
        await on.app.lead_to("material", 1)
        await on.settle()
        assert on.app.current_mode == "stock"
        assert on.app.screen.cursor_key == "material:1"
        await on.press("escape")
        assert on.app.current_mode == "mirror"


async def test_an_empty_ledger_leads_in(ledger: Ledger, screens: Any) -> None:
    async with screens(ledger) as on:
        await on.press("4")
        assert "buildlog read FILE" in on.text


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_list_and_chart_stand_side_by_side_at_both_sizes(
    workshop: Ledger, screens: Any, size: tuple[int, int]
) -> None:
    async with screens(workshop, size=size) as on:
        await on.press("4 home")
        shelf, chart = on.app.screen.query_one("#shelf"), on.app.screen.query_one("#burn-down")
        assert shelf.region.y == chart.region.y
        assert chart.size.width >= 36
        assert chart.size.height >= 10
        assert all(len(line) <= size[0] for line in on.lines)
