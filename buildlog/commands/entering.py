"""Opens the screens on a person's ledger. Nothing of Typer is loaded on this way: a person waits for it each time."""

import sys

from buildlog.commands.exits import Exit
from buildlog.commands.guarding import guarded
from buildlog.commands.session import open_ledger
from buildlog.errors import NoTerminal, SettingsError
from buildlog.ledger import Ledger
from buildlog.preferences import AS_USUAL, read_preferences


def enter() -> int:
    """The screens, told without any argument; the exit code."""
    return guarded(_enter)


def _enter() -> int:
    open_screens()
    return Exit.OK


def open_screens() -> None:
    """The screens on the ledger named by --ledger, BUILDLOG_LEDGER or the usual place."""
    need_terminal()
    with open_ledger() as ledger:
        show_screens(ledger)


def need_terminal() -> None:
    """NoTerminal where keys would never come, or the screens would go into a file: they would wait for ever."""
    if not all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stderr)):
        raise NoTerminal


def show_screens(ledger: Ledger) -> None:
    from buildlog.screens.app import run_app  # Textual is loaded for the screens only

    trouble = ""
    try:
        preferences = read_preferences()
    except SettingsError as error:  # the screens open all the same, and say it
        preferences, trouble = AS_USUAL, str(error)
    run_app(ledger, preferences, trouble)
