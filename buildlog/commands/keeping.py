"""Commands about the ledger itself: undo, redo, journal, backup, restore, check."""

import json
from pathlib import Path
from typing import Annotated

import typer

from buildlog.commands.exits import Exit
from buildlog.commands.session import open_ledger, say
from buildlog.facts.journal import standing_of
from buildlog.ledger import Ledger
from buildlog.wording import count, dated

MOST_GROUPS = 10**12  # no journal has more, and SQLite can count so far
AsJson = Annotated[bool, typer.Option("--json", help="Machine-readable.")]


def undo(
    group: Annotated[
        int | None, typer.Argument(min=1, max=MOST_GROUPS, help="Number in the journal; left out: the newest.")
    ] = None,
) -> None:
    """Take the newest wish back, or the named one; says which first."""
    with open_ledger() as ledger:
        stands = standing_of(reversed(ledger.journal(MOST_GROUPS))).wishes
        chosen = next((wish for wish in reversed(stands) if group in (None, wish.id)), None)
        if chosen is not None:
            say(f"Takes back change {chosen.id}: {chosen.summary}")
        done = ledger.undo(chosen.id if chosen else group)
        say(f"Taken back, {count(done.rows, 'row')}. `buildlog redo` puts it back.")


def redo() -> None:
    """Put back what was taken back last."""
    with open_ledger() as ledger:
        done = ledger.redo()
        say(f"Put back, {count(done.rows, 'row')}: {done.summary}")


def journal(
    newest: Annotated[int, typer.Option("--newest", "-n", min=1, max=MOST_GROUPS, help="How many.")] = 20,
    group: Annotated[
        int | None, typer.Argument(min=1, max=MOST_GROUPS, help="Show the rows of this one, before and after.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """What changed, newest first; with a number, the rows before and after."""
    with open_ledger() as ledger:
        if group is not None:
            _show_rows(ledger, group, as_json)
            return
        groups = ledger.journal(newest)
        if as_json:
            names = ("id", "recorded_at", "at", "kind", "action", "summary")
            typer.echo(json.dumps([{name: getattr(g, name) for name in names} for g in groups], indent=2))
            return
        now, zone = ledger.now(), ledger.home_zone()
        for g in groups:
            typer.echo(f"{g.id:>5}  {dated(g.recorded_at, now, zone)}  {g.summary}")


def _show_rows(ledger: Ledger, group: int, as_json: bool) -> None:
    entries = [
        {"table": table, "row": row, "before": before and json.loads(before), "after": after and json.loads(after)}
        for table, row, before, after in ledger.journal_rows(group)
    ]
    if as_json:
        typer.echo(json.dumps(entries, indent=2, ensure_ascii=False))
        return
    for entry in entries:
        typer.echo(f"{entry['table']} {entry['row']}")
        for sign, image in (("-", entry["before"]), ("+", entry["after"])):
            if image:
                typer.echo(f"  {sign} {json.dumps(image, ensure_ascii=False)}")


def backup(target: Annotated[Path | None, typer.Argument(help="Left out: the backups folder.")] = None) -> None:
    """Copy the ledger as it stands; the path of the copy goes to standard output."""
    with open_ledger() as ledger:
        typer.echo(str(ledger.backup(target)))


def restore(source: Annotated[Path, typer.Argument(help="A backup.", exists=True, dir_okay=False)]) -> None:
    """Bring a backup back into the ledger; what was there is copied first."""
    with open_ledger() as ledger:
        before = ledger.restore(source)
        say(f"Restored from {source}. What was there before is at {before}.")


def check() -> None:
    """Test the file, its references and its accounts; exit 0 when nothing is wrong."""
    with open_ledger() as ledger:
        found = ledger.check()
        risk = ledger.risk
        for problem in found:
            typer.echo(problem)
        if risk:
            say(risk)
        if found:
            raise typer.Exit(Exit.REFUSED)
        say("Nothing is wrong.")
