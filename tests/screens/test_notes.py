"""A note with a picture on whatever stands under the cursor, of every kind of row; it is read there again."""

from __future__ import annotations

from typing import Any

import pytest

from buildlog.ledger import Ledger
from buildlog.proposals.episodes import PlanEpisode
from buildlog.proposals.lots import DamagePieces, MovePieces
from buildlog.proposals.nouns import Add, form_from_texts
from buildlog.proposals.places import PiecesNamed
from buildlog.proposals.shots import PlanShot
from buildlog.screens.widgets.grid import Grid


@pytest.fixture
def told(workshop: Ledger, clock: Any) -> Ledger:
    """The workshop with a box that holds a piece and a spool, an episode, a viewer and somebody who helped."""
    workshop.record(PlanEpisode(build="LB", films_at=clock.ago(days=-3)))
    workshop.record(PlanShot(build="LB", what="the jaw opens"))
    for noun, texts in (
        ("box", {"code": "SHELF", "name": "shelf"}),
        ("goal", {"build": "LB", "number": "1", "kind": "free", "text": "lamps lit"}),
        ("viewer question", {"code": "V1", "build": "LB", "text": "how heavy?"}),
        ("promise", {"code": "P1", "build": "LB", "who": "a neighbour", "supplied": "hall", "promised": "a mention"}),
    ):
        workshop.record(Add(form_from_texts(noun, texts)))
    workshop.record(MovePieces(what=PiecesNamed(code="BRIDGE"), box="SHELF"))
    workshop.record(DamagePieces(what=PiecesNamed(code="BRIDGE"), where="rim", out_of_use=False))
    return workshop


ROWS = [
    ("1", "printer:", "printer"),
    ("1", "offer:", "print file"),
    ("1", "doable:0", "goal"),
    ("1", "doable:2", "position"),
    ("1", "alert:", "order"),
    ("2", "assembly:", "assembly"),
    ("3", "printer:", "printer"),
    ("3", "job:", "print"),
    ("3", "offer:", "print file"),
    ("4", "material:", "material"),
    ("4", "spool:", "spool"),
    ("4", "order:", "order"),
    ("4", "bought item:", "bought item"),
    ("5 p", "fit:", "fit test"),
    ("7", "goal:", "goal"),
    ("7", "shot:", "shot"),
    ("7", "viewer question:", "viewer question"),
    ("7", "promise:", "promise"),
    ("7", "milestone:", "milestone"),
    ("7", "done:", "episode"),
    ("8", "group:", "day"),
    ("ctrl+o", "box:", "box"),
    ("ctrl+o", "lot:", "lot"),
]


async def stand_on(on: Any, begins: str) -> bool:
    """Put the cursor on the first row whose key begins so."""
    for grid in on.app.screen.query(Grid):
        key = next((key for key in grid.shown_keys if key.startswith(begins)), None)
        if key is not None and grid.display:
            grid.focus()
            grid.move_to(key)
            await on.settle()
            return True
    return False


@pytest.mark.parametrize(("screen", "row", "noun"), ROWS)
async def test_a_note_with_a_picture_is_about_the_row_under_the_cursor_and_is_read_there(
    told: Ledger, screens: Any, screen: str, row: str, noun: str
) -> None:
    async with screens(told, size=(120, 40)) as on:
        await on.press(screen)
        assert await stand_on(on, row), on.text
        await on.press("n")
        await on.fill({"text": "creaks", "photo": "p/creak.jpg"})
        await on.press("enter")
        (note,) = told.snapshot().notes
        assert (note.noun, note.text, note.photo) == (noun, "creaks", "p/creak.jpg"), on.text
    async with screens(told, size=(120, 40)) as on:  # where nothing was said last
        await on.press(screen)
        await stand_on(on, row)
        assert ("Wed 25 Nov: creaks (p/creak.jpg)" in on.lines[-2]) == (noun != "day"), on.text
