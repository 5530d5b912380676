"""What happens to one thing that lies in a box, or to all that are marked, as one change."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from buildlog.facts.naming import lot_name
from buildlog.proposals.lots import (
    DamagePieces,
    FoundPieces,
    LendPieces,
    MarkMissing,
    MovePieces,
    PiecesBack,
    RepairPieces,
    ScrapPieces,
)
from buildlog.proposals.nouns import Change, noun_fields
from buildlog.proposals.places import PiecesNamed
from buildlog.status.notes import key_typed
from buildlog.wording import count, few

if TYPE_CHECKING:
    from buildlog.facts.pieces import Lot
    from buildlog.screens.base import LiveScreen
    from buildlog.status.status import Status

TO_LOTS: dict[str, tuple[type[Any], str, tuple[str, ...]]] = {
    "move": (MovePieces, "put into which box?", ("box", "pieces")),
    "missing": (MarkMissing, "missing", ("pieces",)),
    "found": (FoundPieces, "found again", ("pieces", "box")),
    "lend": (LendPieces, "lent", ("to", "pieces")),
    "back": (PiecesBack, "came back", ("pieces", "box")),
    "damage": (DamagePieces, "broke", ("where", "why", "out_of_use", "pieces")),
    "repair": (RepairPieces, "repaired", ("pieces",)),
    "scrap": (ScrapPieces, "scrapped", ("why", "pieces")),
}
"""The wish, the words of its title, and what is asked."""
KEPT = ("spool", "bought item")
"""What lies in boxes beside pieces."""


async def act_on(screen: LiveScreen, rows: Sequence[tuple[str, int]], what: str) -> bool:
    """Of one lot it is asked how many pieces, several things go whole; whether it was recorded."""
    status = screen.status
    if status is None:
        return False
    lots = [status.snapshot.lot[row_id] for noun, row_id in rows if noun == "lot"]
    kept = [(noun, row_id) for noun, row_id in rows if noun in KEPT]
    if what == "move" and (kept or len(lots) > 1):
        return await _move_all(screen, status, lots, kept)
    if kept or not lots:
        screen.live.tell("Only pieces can go that way; {move_pieces} puts spools and bought items into another box.")
        return False
    wish, words, only = TO_LOTS[what]
    title = f"{_named(status, lots, ())}: {words}"
    if len(lots) == 1:
        return await screen.ask(wish, title, values={"what": _piece(lots[0])}, only=only) is not None
    return await _all_of_them(screen, lots, (wish, title, only))


async def _all_of_them(
    screen: LiveScreen, lots: Sequence[Lot], asked_for: tuple[type[Any], str, tuple[str, ...]]
) -> bool:
    from buildlog.screens.asking import ask_wish

    wish, title, only = asked_for
    asks = [name for name in only if name != "pieces"]
    known = {"what": _piece(lots[0]), "pieces": None}
    asked = await ask_wish(screen.live, wish, title, values=known, only=asks)
    if asked is None:
        return False
    wishes = [(replace(asked.wish, what=_piece(lot)), asked.at) for lot in lots]
    return await screen.live.record_all(wishes, f"{title[0].upper()}{title[1:]}.") is not None


async def _move_all(screen: LiveScreen, status: Status, lots: Sequence[Lot], kept: Sequence[tuple[str, int]]) -> bool:
    from buildlog.proposals.moments import moment_reader
    from buildlog.screens.asking import WHEN, with_moments, wrong_moments
    from buildlog.screens.dialogs.ask_fields import AskFields
    from buildlog.screens.naming import names_of

    snapshot, named = status.snapshot, _named(status, lots, kept)
    box = replace(next(field for field in noun_fields("spool") if field.name == "box"), required=True, help="")
    read = moment_reader(screen.live.ledger.now(), snapshot.settings.home_zone)
    form = AskFields(
        f"{named}: put into which box?",
        [box, WHEN],
        check=lambda values: wrong_moments([WHEN], values, read),
        completions={"box": names_of(snapshot, "box")},
    )
    answer = await screen.app.push_screen_wait(form)
    if answer is None:
        return False
    told = with_moments([WHEN], answer, read)
    to, at = told["box"], told["at"]
    wishes: list[tuple[Any, Any]] = [(MovePieces(what=_piece(lot), box=to), at) for lot in lots]
    for noun, row_id in kept:
        key = key_typed(snapshot, noun, row_id)
        wishes.append((Change(noun, key, {"box": to}), at))
    return await screen.live.record_all(wishes, f"Put {named} into {to}.") is not None


def _piece(lot: Lot) -> PiecesNamed:
    return PiecesNamed(code=lot.mark) if lot.mark else PiecesNamed(lot_id=lot.id)


def _named(status: Status, lots: Sequence[Lot], kept: Sequence[tuple[str, int]]) -> str:
    """The one by its name; several by their number and the first of them."""
    names = [lot_name(status.snapshot, lot) for lot in lots]
    names += [key_typed(status.snapshot, noun, row_id) for noun, row_id in kept]
    return names[0] if len(names) == 1 else f"{count(len(names), 'thing')} ({few(names, 3)})"
