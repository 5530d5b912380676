"""How forms ask for money, and say what is stored of it."""

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.nouns import Change
from buildlog.status.forms import form_of


async def test_money_is_asked_in_the_currency_of_the_ledger(workshop: Ledger, screens: Any) -> None:
    async with screens(workshop) as on:
        await on.go_to_noun("supplier")
        await on.press("a")
        await on.go_to_field("delivery")
        assert next(line for line in on.lines if "delivery charge  " in line).endswith("EUR")


@pytest.mark.parametrize(("typed", "price"), [("", 2390), ("24", 2400), ("24,5", 2450), ("19.9", 1990)])
async def test_a_stored_price_is_offered_with_both_decimals_and_typed_as_ever(
    workshop: Ledger, screens: Any, typed: str, price: int
) -> None:
    workshop.record(Change("material", "PLA-AMBER", {"price": 2390}))
    async with screens(workshop) as on:
        await on.go_to_noun("material")
        on.app.screen.things.focus()
        on.app.screen.things.move_to("thing:material:PLA-AMBER")
        await on.press("e")
        assert on.app.screen._entries["price"].text == "23.90"
        await on.fill({"price": typed} if typed else {"colour": "amber"})
        await on.press("enter")
    assert form_of(workshop.snapshot(), "material", "PLA-AMBER").price == price


async def test_the_price_of_several_is_said_with_both_decimals(workshop: Ledger, screens: Any) -> None:
    workshop.record(Change("material", "PLA-AMBER", {"price": 2390}))
    async with screens(workshop) as on:
        await on.go_to_noun("material")
        on.app.screen.things.focus()
        await on.press("home space space e")
        await on.go_to_field("price")
        assert "23.90, 25.00" in on.text or "25.00, 23.90" in on.text
