"""Tell what nobody expected: what it was, then its form with when it was."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from buildlog.proposals.bought import ReceiveBought
from buildlog.proposals.fits import RecordFit
from buildlog.proposals.orders import ReceiveOrder
from buildlog.proposals.prints import PrintRan
from buildlog.proposals.spools import ReceiveSpool
from buildlog.proposals.steps import TickStep
from buildlog.screens.acts.bench import open_steps, tick_values, told_of_doable
from buildlog.screens.acts.notes import add_note
from buildlog.screens.acts.orders import open_orders
from buildlog.screens.acts.spools import weigh_spool
from buildlog.screens.asking import WHEN
from buildlog.screens.dialogs.choose import Choice

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen

PRINT, STEP, FIT, PARCEL, WEIGHING, NOTE = "print", "step", "fit", "delivery", "weigh-in", "note"
BEGAN = replace(WHEN, label="began", required=True, help="as yesterday 23:10, -6h, Tue 22:10, 25 Nov 14:00")
RAN = ("file", "lines", "printer", "ended", "came_out", "outcomes", "cause", "went_wrong", "spools", "print_time",
       "material", "grams", "anyway")  # fmt: skip
TICKED = ("step", "place", "what", "pieces", "real_time", "overruled")
TRIED = ("test", "place", "outcome", "measured", "what_then", "scrap", "text")
SPOOLS, ITEM = "spools", "item"


async def tell_unexpected(screen: LiveScreen) -> None:
    what = await screen.pick(
        "What happened?",
        [
            Choice(PRINT, "a print", "ran from … to …, and how it came out"),
            Choice(STEP, "a step", "bench work that was done"),
            Choice(FIT, "a fit", "was tried: passed, or failed and what then"),
            Choice(PARCEL, "a delivery", "ordered or not"),
            Choice(WEIGHING, "a weigh-in", "what the scale read"),
            Choice(NOTE, "a note", "in your own words"),
        ],
    )
    tell = {PRINT: _print, STEP: _step, FIT: _fit, PARCEL: _delivery, WEIGHING: weigh_spool, NOTE: add_note}.get(
        what or ""
    )
    if tell is not None:
        await tell(screen)


async def _print(screen: LiveScreen) -> None:
    await screen.ask(PrintRan, "A print that is over", only=RAN, when=BEGAN)


async def _step(screen: LiveScreen) -> None:
    """One of those that are open, or any other, also one that something holds."""
    status = screen.status
    if status is None:
        return
    steps = {step.id: step for step in status.snapshot.steps}
    found = open_steps(status)
    listed = [Choice(i, one.text, told_of_doable(status, one)) for i, one in enumerate(found)]
    chosen = await screen.pick(
        "Which step was done?", [*listed, Choice(len(found), "another step", "type which, where")]
    )
    if chosen is not None:
        values = tick_values(status, steps[found[chosen].about.id], found[chosen]) if chosen < len(found) else {}
        await screen.ask(TickStep, "A step that was done", values=values, only=TICKED)


async def _fit(screen: LiveScreen) -> None:
    await screen.ask(RecordFit, "A fit that was tried", only=TRIED)


async def _delivery(screen: LiveScreen) -> None:
    """Of an order, or what nobody ordered."""
    if screen.status is None:
        return
    orders = [Choice(c.label, c.label, c.detail, c.tone) for c in open_orders(screen.status)]
    free = [Choice(SPOOLS, "spools", "that no order brought"), Choice(ITEM, "a bought item", "that no order brought")]
    came = await screen.pick("What came?", [*orders, *free])
    if came == SPOOLS:
        await screen.ask(ReceiveSpool, "Spools that came")
    elif came == ITEM:
        await screen.ask(ReceiveBought, "A bought item that came")
    elif came is not None:
        await screen.ask(ReceiveOrder, f"What came of {came}?", values={"order": came}, only=("lines", "box"))
