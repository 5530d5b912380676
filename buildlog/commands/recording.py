"""Carries out what a command asks to be recorded, and says what happened."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from buildlog.commands.session import say, status_of
from buildlog.ledger import Ledger
from buildlog.proposals.episodes import CloseEpisode
from buildlog.proposals.fits import RecordFit
from buildlog.proposals.prints import StartPrint
from buildlog.proposals.spools import DrySpool
from buildlog.proposals.steps import TickStep, TickSteps
from buildlog.terms import Moment

if TYPE_CHECKING:
    from buildlog.status.status import Status

LOOKS_FIRST = (StartPrint, TickStep, TickSteps, RecordFit, DrySpool, CloseEpisode)
"""Wishes of which something depends on how things stand; others are recorded without working that out."""


def record(ledger: Ledger, wish: Any, at: Moment | None = None, dry_run: bool = False, said_when: str = "") -> None:
    """Carry a wish out and say in one sentence what happened, after the cautions that belong to it.

    ``said_when`` tells when that was, where it was read out of a line.
    """
    from buildlog.status.started import told_of_start

    status, cautions = None, tuple[str, ...]()
    if isinstance(wish, LOOKS_FIRST):
        status = status_of(ledger)
        cautions = _cautions(wish, status)
        wish = _completed(wish, status, at)
    outcome = ledger.record(wish, at, dry_run)
    before = f"{'(dry run) ' if dry_run else ''}{f'{said_when}: ' if said_when else ''}"
    told = (f"{before}{sentence}" for sentence in outcome.sentences)
    for sentence in (*cautions, *told, *_strange(wish, ledger)):
        say(sentence)
    if status is not None and (ends := told_of_start(wish, outcome.entries, status)):
        say(ends)


def _strange(wish: Any, ledger: Ledger) -> tuple[str, ...]:
    """What a new or changed thing names that is not there: it is taken, and what follows from it is said."""
    from buildlog.proposals.nouns import Add, Change
    from buildlog.status.strange_words import strange_in

    return strange_in(wish, ledger.snapshot()) if isinstance(wish, Add | Change) else ()


def _cautions(wish: Any, status: Status) -> tuple[str, ...]:
    """What is to be said with the wish, once it is recorded: a refusal needs no caution."""
    from buildlog.status.cautions import in_words
    from buildlog.status.said_before import cautions_of, spools_in_question

    texts = in_words(status.snapshot.reference, cautions_of(wish, status))
    spools = spools_in_question(wish, status)
    return (*(f"Caution: {text}" for text in texts), *(f"Look at the spool: {text}." for text in spools))


def _completed(wish: Any, status: Status, at: Moment | None) -> Any:
    """Give a wish that depends on how things stand what it needs: pieces, the text of an episode."""
    from buildlog.status.completing import completed

    if isinstance(wish, CloseEpisode) and not wish.document:
        from buildlog.report.standing import standing
        from buildlog.report.week import build_named
        from buildlog.status.as_of import as_of

        then = as_of(status, at)
        return replace(wish, document=standing(then, build_named(then.snapshot, wish.build)))
    return completed(wish, status, at)
