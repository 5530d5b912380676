"""What viewers ask and are answered; what is promised to those who supplied something, and keeping it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.proposals.promises import KeepPromise, MakePromise
from buildlog.proposals.viewers import AnswerViewer, ViewerAsks
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.dialogs.confirm import Confirm

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen


async def viewer_asks(screen: LiveScreen, build_code: str) -> None:
    await screen.ask(
        ViewerAsks, "What did a viewer ask?", values={"build": build_code}, only=("text", "who", "episode")
    )


async def answer_viewer(screen: LiveScreen, question_id: int | None = None) -> None:
    """One of those that wait for an answer, this one at once."""
    if screen.status is None:
        return
    waiting = [q for q in screen.status.snapshot.viewer_questions if q.answered_at is None and q.retired_at is None]
    choices = [Choice(q, q.code, f"{q.who}: {q.text}") for q in waiting if question_id in (None, q.id)]
    chosen = await screen.choose(
        "Answer which viewer?",
        choices,
        empty="No viewer waits for an answer: {viewer_asks} writes down what one asks.",
    )
    if chosen is not None:
        await screen.ask(AnswerViewer, chosen.text, values={"question": chosen.code})


async def make_promise(screen: LiveScreen, build_code: str) -> None:
    only = ("who", "supplied", "promised", "due")
    await screen.ask(MakePromise, "Who gave what, and was promised what?", values={"build": build_code}, only=only)


async def keep_promise(screen: LiveScreen, promise_id: int) -> None:
    """Asked first."""
    rows = screen.status.snapshot.promises if screen.status is not None else ()
    promise = next((p for p in rows if p.id == promise_id), None)
    if promise is None:
        return
    if promise.kept_at is not None:
        screen.live.tell(f"{promise.code} is kept already.")
        return
    will = [f"{promise.who}: {promise.promised}{f', for {promise.supplied}' if promise.supplied else ''}"]
    if await screen.app.push_screen_wait(Confirm("Is this promise kept?", will, yes="it is kept", no="not yet")):
        await screen.wish(KeepPromise(promise=promise.code))
