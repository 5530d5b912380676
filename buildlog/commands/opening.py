"""Opens the screens on the demo."""

import tempfile
from pathlib import Path
from typing import Annotated

import typer

from buildlog.commands.entering import need_terminal, show_screens
from buildlog.commands.session import chosen, open_ledger, say
from buildlog.commands.waiting import told_while
from buildlog.demo import lay_demo
from buildlog.wording import count


def demo(
    into: Annotated[
        Path | None, typer.Option("--into", metavar="FILE", help="A new ledger file; else one in a temporary folder.")
    ] = None,
    no_screen: Annotated[
        bool, typer.Option("--no-screen", help="Only lay it; the path of the ledger goes to standard output.")
    ] = False,
) -> None:
    """Lay the demo, two invented builds as of today, into a ledger of its own and open the screens on it."""
    if not no_screen:
        need_terminal()
    path = into or chosen.ledger or Path(tempfile.mkdtemp(prefix="buildlog-demo-")) / "demo.db"
    with open_ledger(path) as ledger:
        say("Laying the demo, which takes some seconds …")
        with told_while("Laying it"):
            laid = count(lay_demo(ledger), "fact")
        say(f"Laid {laid} into {path}. Open it again with --ledger {path}.")
        if no_screen:
            typer.echo(str(path))
        else:
            show_screens(ledger)
