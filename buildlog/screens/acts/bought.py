"""Count a bought item, or say how much of it there is; receive some without an order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.proposals.bought import CountBought, ReceiveBought, SetLevel
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.widgets.tones import Tone
from buildlog.terms import BoughtAccount, Level

if TYPE_CHECKING:
    from buildlog.facts.stock import BoughtItem
    from buildlog.screens.base import LiveScreen
    from buildlog.status.status import Status

NO_ITEM = "There is no bought item yet: add one on Things ({go_things}), with {add_thing}."


async def count_item(screen: LiveScreen, item_id: int | None = None) -> None:
    """What was counted; of an item that is only looked at, plenty, low or out."""
    item = await _one(screen, "Count which item?", item_id)
    if item is None:
        return
    if item.account is BoughtAccount.ROUGH:
        levels = [Choice(level, level.value) for level in Level]
        level = await screen.pick(f"{item.name}: how much is there?", levels)
        if level is not None:
            await screen.wish(SetLevel(item=item.code, level=level.value))
    else:
        title = f"How many {item.unit.value} of {item.name} lie there?"
        await screen.ask(CountBought, title, values={"item": item.code}, only=("amount",))


async def receive_item(screen: LiveScreen) -> None:
    """Some of an item came without an order."""
    item = await _one(screen, "What came?", None)
    if item is not None:
        await screen.ask(ReceiveBought, f"{item.name} came", values={"item": item.code}, only=("amount",))


def told_of_item(status: Status, item: BoughtItem) -> str:
    """``40 each``, ``low``."""
    state = status.accounts.bought[item.id]
    if state.amount is not None:
        return f"{state.amount} {item.unit.value}"
    return state.level.value if state.level is not None else "not looked at yet"


async def _one(screen: LiveScreen, title: str, known: int | None) -> BoughtItem | None:
    """The known one, else one of those in use, flagged ones first."""
    status = screen.status
    if status is None:
        return None
    items = [item for item in status.snapshot.bought_items if item.retired_at is None]
    if known is not None:
        return next((item for item in items if item.id == known), None)
    items.sort(key=lambda item: not status.accounts.bought[item.id].flagged)
    choices = [
        Choice(item, item.code, f"{item.name}, {told_of_item(status, item)}", _tone(status, item)) for item in items
    ]
    return await screen.pick(title, choices, empty=NO_ITEM)


def _tone(status: Status, item: BoughtItem) -> Tone:
    return Tone.CAUTION if status.accounts.bought[item.id].flagged else Tone.FAINT
