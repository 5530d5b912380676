"""Boxes counted, emptied and placed; pages written to a file."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from buildlog.facts.naming import lot_name
from buildlog.proposals.boxes import CountBox, MoveContents
from buildlog.proposals.counted import Counted
from buildlog.proposals.field import Field, Kind
from buildlog.proposals.lots import MOST_PIECES
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.nouns import Change, noun_fields
from buildlog.proposals.places import PiecesNamed
from buildlog.proposals.steps import TickSteps
from buildlog.screens.acts.named import said_cautions
from buildlog.screens.dialogs.choose import Choice
from buildlog.terms import BoughtAccount

if TYPE_CHECKING:
    from buildlog.facts.pieces import Box
    from buildlog.screens.base import LiveScreen
    from buildlog.status.boxes import Contents
    from buildlog.status.more_hands import HelperStep
    from buildlog.status.status import Status


async def count_box(screen: LiveScreen, box: Box, contents: Contents) -> None:
    """One form with the book's number for each lot and item; what stays as it is counts as read so."""
    from buildlog.screens.asking import WHEN, with_moments, wrong_moments
    from buildlog.screens.dialogs.ask_fields import AskFields

    status = screen.status
    if status is None:
        return
    book = _book(status, contents)
    if not book:
        screen.live.tell(f"Nothing of {box.code} can be counted: it holds no pieces and no counted item.")
        return
    fields = [
        Field(name, one.label, Kind.WHOLE, True, one.number, least=0, most=MOST_PIECES, help=one.told)
        for name, one in book.items()
    ]
    read = moment_reader(screen.live.ledger.now(), status.snapshot.settings.home_zone)
    form = AskFields(
        f"Count {box.code}: what lies there?",
        [*fields, WHEN],
        check=lambda values: wrong_moments([WHEN], values, read),
        units={name: one.unit for name, one in book.items()},
    )
    answer = await screen.app.push_screen_wait(form)
    if answer is not None:
        values = with_moments([WHEN], answer, read)
        counted = tuple(Counted(one.what, values[name]) for name, one in book.items())
        await screen.wish(CountBox(box=box.code, counted=counted), values["at"])


class InTheBook(NamedTuple):
    """What can be counted, what it is called, the book's number and its unit."""

    what: PiecesNamed | str
    label: str
    number: int
    unit: str

    @property
    def told(self) -> str:
        return f"the book says {self.number} {self.unit}".rstrip()


def _book(status: Status, contents: Contents) -> dict[str, InTheBook]:
    """By the name of a field: every lot, and every bought item that is counted."""
    book: dict[str, InTheBook] = {}
    for lying in contents.lots:
        name, what = lot_name(status.snapshot, lying.lot), PiecesNamed(lot_id=lying.lot.id)
        book[f"lot{lying.lot.id}"] = InTheBook(what, name, lying.pieces, "")
    items = {item.id: item for item in status.snapshot.bought_items}
    for item_id in contents.item_ids:
        item, amount = items[item_id], status.accounts.bought[item_id].amount
        if item.account is BoughtAccount.COUNTED:
            book[f"item{item_id}"] = InTheBook(item.code, item.code, max(0, amount or 0), item.unit.value)
    return book


async def empty_box(screen: LiveScreen, box: Box) -> None:
    if screen.status is None:
        return
    others = [
        Choice(other.code, other.code, f"{other.name}{f', {other.place}' if other.place else ''}")
        for other in screen.status.snapshot.boxes
        if other.retired_at is None and other.id != box.id
    ]
    to = await screen.pick(
        f"All of {box.code} into which box?",
        others,
        empty="There is no other box: add one on Things ({go_things}), with {add_thing}.",
    )
    if to is not None:
        await screen.wish(MoveContents(box=box.code, to=to))


async def place_box(screen: LiveScreen, box: Box) -> None:
    """Where it stands now, with all that is in it."""
    from buildlog.screens.dialogs.ask_fields import AskFields

    if screen.status is None:
        return
    place = [field for field in noun_fields("box") if field.name == "place"]
    known = tuple(dict.fromkeys(b.place for b in screen.status.snapshot.boxes if b.place))
    title, values = f"{box.code} {box.name} stands where?", {"place": box.place}
    form = AskFields(title, place, values=values, completions={"place": known})
    answer = await screen.app.push_screen_wait(form)
    if answer is not None:
        await screen.wish(Change("box", box.code, {"place": answer["place"] or ""}))


async def tick_helped(screen: LiveScreen, steps: Sequence[HelperStep]) -> None:
    """All of them as one change, after a yes that names them."""
    from buildlog.screens.dialogs.confirm import Confirm

    if screen.status is None:
        return
    lines = [f"{found.doable.text}, {found.where}" for found in steps]
    caution = said_cautions(screen.status, [found.doable.caution_key for found in steps])
    question = Confirm("Tick as done?", lines, yes="they are done", caution=caution)
    if await screen.app.push_screen_wait(question):
        await screen.wish(TickSteps(tuple(found.tick for found in steps)))


async def write_page(screen: LiveScreen, place: str) -> None:
    """The label list, the helper's list or the repair kit, by what stands under the cursor."""
    from buildlog.report.boxes_out import box_label, repair_kit
    from buildlog.report.more_hands import helper_page
    from buildlog.screens.acts.files import write_file

    status = screen.status
    if status is None:
        return
    noun, _, name = place.partition(":")
    if noun == "box":
        code = next(box.code for box in status.snapshot.boxes if box.id == int(name))
        text = await asyncio.to_thread(box_label, status, code)
        await write_file(screen, f"Write the label list of {code}", f"box-{code.lower()}.md", text)
    elif name == "helper":
        text = await asyncio.to_thread(helper_page, status)
        await write_file(screen, "Write the helper's list", "helper-list.md", text)
    else:
        text = await asyncio.to_thread(repair_kit, status)
        await write_file(screen, "Write the repair kit", "repair-kit.md", text)
