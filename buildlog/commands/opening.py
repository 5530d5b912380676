"""Opens the screens."""

from buildlog.commands.session import open_ledger


def open_screens() -> None:
    """The screens on the ledger named by --ledger, BUILDLOG_LEDGER or the usual place."""
    with open_ledger() as ledger:
        from buildlog.screens.app import run_app

        run_app(ledger)
