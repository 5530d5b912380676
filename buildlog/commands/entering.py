"""Opens the screens on a person's ledger. Nothing of Typer is loaded on this way: a person waits for it each time."""

from buildlog.commands.exits import Exit
from buildlog.commands.guarding import guarded
from buildlog.commands.session import open_ledger
from buildlog.errors import SettingsError
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
    with open_ledger() as ledger:
        show_screens(ledger)


def show_screens(ledger: Ledger) -> None:
    from buildlog.screens.app import run_app  # Textual is loaded for the screens only

    trouble = ""
    try:
        preferences = read_preferences()
    except SettingsError as error:  # the screens open all the same, and say it
        preferences, trouble = AS_USUAL, str(error)
    run_app(ledger, preferences, trouble)
