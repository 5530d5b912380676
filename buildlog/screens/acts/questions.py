"""Answer a question that holds something."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.proposals.questions import AnswerQuestion
from buildlog.screens.dialogs.choose import Choice

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen

NO_QUESTION = "No open question holds this: Things ({go_things}) has all questions, and adds one."


async def answer_question(screen: LiveScreen, *question_ids: int) -> None:
    """One of these, the only one at once."""
    if screen.status is None:
        return
    still = {q.id: q for q in screen.status.snapshot.questions if q.answered_at is None and q.retired_at is None}
    choices = [Choice(still[i], still[i].code, still[i].text) for i in question_ids if i in still]
    chosen = await screen.choose("Answer which question?", choices, empty=NO_QUESTION)
    if chosen is not None:
        await screen.ask(AnswerQuestion, chosen.text, values={"question": chosen.code})
