"""What a command works with: the ledger that was named, the moment of the fact, and where words go."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import typer

from buildlog.commands.exits import Exit
from buildlog.errors import BuildlogError, FileError, LedgerError
from buildlog.ledger import Ledger
from buildlog.proposals.episodes import CloseEpisode
from buildlog.report.standing import standing
from buildlog.report.week import build_named
from buildlog.status.cautions import in_words
from buildlog.status.completing import completed, needs_status
from buildlog.status.said_before import SPEAKS_OF, cautions_of, spools_in_question
from buildlog.status.status import Status, take_stock
from buildlog.terms import Moment


@dataclass(slots=True)
class Chosen:
    """What was said before the command: ``--ledger PATH``."""

    ledger: Path | None = None


chosen = Chosen()


def say(text: str) -> None:
    """Talk to the person: standard error, so that data can be piped."""
    typer.echo(text, err=True)


@contextmanager
def open_ledger() -> Iterator[Ledger]:
    """The ledger named by --ledger, BUILDLOG_LEDGER or the usual place; errors become an exit code and a message."""
    with telling_errors():
        ledger = Ledger.open(chosen.ledger)
        try:
            yield ledger
        finally:
            ledger.close()


@contextmanager
def telling_errors() -> Iterator[None]:
    try:
        yield
    except BuildlogError as error:
        say(str(error))
        raise typer.Exit(exit_of(error)) from error
    except BrokenPipeError:
        sys.stderr.close()
        raise typer.Exit(Exit.OK) from None


def exit_of(error: BuildlogError) -> Exit:
    if isinstance(error, LedgerError):
        return Exit.LEDGER
    return Exit.FILE if isinstance(error, FileError) else Exit.REFUSED


def record(ledger: Ledger, wish: Any, at: Moment | None = None, dry_run: bool = False) -> None:
    """Say what is to be said before it, carry a wish out and say in one sentence what happened."""
    if isinstance(wish, SPEAKS_OF) or needs_status(wish) or isinstance(wish, CloseEpisode):
        wish = _told(wish, status_of(ledger), at)
    outcome = ledger.record(wish, at, dry_run)
    for sentence in outcome.sentences:
        say(f"(dry run) {sentence}" if dry_run else sentence)


def _told(wish: Any, status: Status, at: Moment | None) -> Any:
    """Say cautions; give a wish that depends on how things stand what it needs: pieces, the text of an episode."""
    for text in in_words(status.snapshot.reference, cautions_of(wish, status)):
        say(f"Caution: {text}")
    for text in spools_in_question(wish, status):
        say(f"Look at the spool: {text}.")
    if isinstance(wish, CloseEpisode) and not wish.document:
        return replace(wish, document=standing(status, build_named(status.snapshot, wish.build)))
    return completed(wish, status, at)


def status_of(ledger: Ledger) -> Status:
    return take_stock(ledger.snapshot(), ledger.now())
