"""Files in and out: ``read`` takes build sheets and lists, ``export`` gives them back."""

from pathlib import Path
from typing import Annotated

import typer

from buildlog.commands.session import open_ledger, say
from buildlog.commands.waiting import told_while
from buildlog.files import SHEET, read_into, told, write_text
from buildlog.files import export as exported
from buildlog.terms import HeldBy


def read(
    files: Annotated[list[Path], typer.Argument(help="Build sheets (TOML) and lists (CSV), in any order.")],
    as_list: Annotated[
        str | None, typer.Option("--as", help="What the lists hold, where neither they nor their names say so.")
    ] = None,
    prefer: Annotated[
        HeldBy | None, typer.Option("--prefer", help="Which wins where file and ledger both changed.")
    ] = None,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Say what would change, write nothing.")] = False,
) -> None:
    """Take files into the ledger: all of them or, with any error, nothing."""
    with open_ledger() as ledger:
        with told_while("Taking them in"):
            report = read_into(ledger, files, as_list, prefer, dry_run)
        for line in told(report):
            say(line)


def export(
    noun: Annotated[
        str,
        typer.Argument(
            help="A noun, as parts or spools, for a CSV list; `counts` of the shelf; `print-history`; `sheet` for a "
            "build sheet of all."
        ),
    ] = SHEET,
    out: Annotated[Path | None, typer.Option("--out", help="Write to this file instead of standard output.")] = None,
) -> None:
    """The things of the ledger, what lies on the shelf or what was printed, in a form that can be read again. What is
    fitted, lent, broken, ticked or tested and what still prints or waits to be printed stands in none: `backup` keeps
    all.
    """
    with open_ledger() as ledger:
        give(exported(ledger.snapshot(), noun, ledger.now()), out)


def give(text: str, out: Path | None) -> None:
    """Text to standard output or whole into a file; FileError says why it could not be written."""
    if out is None:
        typer.echo(text, nl=False)
        return
    write_text(text, out)
    say(f"Wrote {out}.")
