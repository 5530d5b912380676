"""Files in and out: ``read`` takes build sheets and lists, ``export`` gives them back."""

from pathlib import Path
from typing import Annotated

import typer

from buildlog.commands.session import open_ledger, say
from buildlog.commands.waiting import told_while
from buildlog.files import ReadReport, export_list, export_sheet, read_into, write_text
from buildlog.proposals.nouns import noun_named
from buildlog.terms import HeldBy
from buildlog.wording import count


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


def told(report: ReadReport) -> list[str]:
    """What was taken, and all that a person should look at: left, missing, in conflict; in lines."""
    plan = report.plan
    taken = [f"added {named.noun} {named.key}" for named in plan.added]
    taken += [f"changed {named.noun} {named.key}" for named in plan.changed]
    lines = [*taken[:MOST_TAKEN], *_rest(taken)]
    lines += [f"left as it is, changed in the ledger only: {named.noun} {named.key}" for named in plan.left]
    lines += [f"no longer in its file, not retired: {named.noun} {named.key}" for named in plan.missing]
    lines += [f"conflict: {conflict}" for conflict in plan.conflicts]
    lines += list(plan.remarks)
    new = len(plan.added) + len(plan.changed) + plan.recorded
    if not new:
        return [*lines, "Nothing is new in these files: nothing was changed."]
    shown = "Would take" if report.dry_run else "Took"
    total = (
        f"{shown} {count(len(plan.added), 'new thing')}, {count(len(plan.changed), 'change')} and "
        f"{count(plan.recorded, 'past fact')}; {count(plan.unchanged + plan.known, 'row')} as before."
    )
    return [*lines, total]


MOST_TAKEN = 30


def _rest(taken: list[str]) -> list[str]:
    more = len(taken) - MOST_TAKEN
    return [f"… and {more} more"] if more > 0 else []


def export(
    noun: Annotated[
        str, typer.Argument(help="A noun, as parts or spools, for a CSV list; `sheet` for a build sheet of all.")
    ] = "sheet",
    out: Annotated[Path | None, typer.Option("--out", help="Write to this file instead of standard output.")] = None,
) -> None:
    """The things of the ledger, as a list or a build sheet that can be read again; `backup` keeps what happened to
    them, too.
    """
    with open_ledger() as ledger:
        snapshot = ledger.snapshot()
        text = export_sheet(snapshot) if noun == "sheet" else export_list(snapshot, noun_named(noun))
        give(text, out)


def give(text: str, out: Path | None) -> None:
    """Text to standard output or whole into a file; FileError says why it could not be written."""
    if out is None:
        typer.echo(text, nl=False)
        return
    write_text(text, out)
    say(f"Wrote {out}.")
