"""What a command works with: the ledger that was named, the moment of the fact, and where words go."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import typer

from buildlog.commands.exits import Exit
from buildlog.errors import BuildlogError, FileError, LedgerError
from buildlog.ledger import Ledger
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
    """Carry a wish out and say in one sentence what happened."""
    outcome = ledger.record(wish, at, dry_run)
    for sentence in outcome.sentences:
        say(f"(dry run) {sentence}" if dry_run else sentence)
