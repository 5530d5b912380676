"""Carries out what a command asks to be recorded, and says what happened."""

from dataclasses import replace
from typing import Any

from buildlog.commands.session import say, status_of
from buildlog.ledger import Ledger
from buildlog.proposals.episodes import CloseEpisode
from buildlog.proposals.fits import RecordFit
from buildlog.proposals.prints import StartPrint
from buildlog.proposals.spools import DrySpool
from buildlog.proposals.steps import TickStep
from buildlog.terms import Moment

LOOKS_FIRST = (StartPrint, TickStep, RecordFit, DrySpool, CloseEpisode)
"""Wishes of which something depends on how things stand; others are recorded without working that out."""


def record(ledger: Ledger, wish: Any, at: Moment | None = None, dry_run: bool = False) -> None:
    """Say what is to be said before it, carry a wish out and say in one sentence what happened."""
    if isinstance(wish, LOOKS_FIRST):
        wish = _told(ledger, wish, at)
    outcome = ledger.record(wish, at, dry_run)
    for sentence in outcome.sentences:
        say(f"(dry run) {sentence}" if dry_run else sentence)


def _told(ledger: Ledger, wish: Any, at: Moment | None) -> Any:
    """Say cautions; give a wish that depends on how things stand what it needs: pieces, the text of an episode."""
    from buildlog.status.cautions import in_words
    from buildlog.status.completing import completed
    from buildlog.status.said_before import cautions_of, spools_in_question

    status = status_of(ledger)
    for text in in_words(status.snapshot.reference, cautions_of(wish, status)):
        say(f"Caution: {text}")
    for text in spools_in_question(wish, status):
        say(f"Look at the spool: {text}.")
    if isinstance(wish, CloseEpisode) and not wish.document:
        from buildlog.report.standing import standing
        from buildlog.report.week import build_named

        return replace(wish, document=standing(status, build_named(status.snapshot, wish.build)))
    return completed(wish, status, at)
