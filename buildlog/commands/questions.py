"""The questions as commands: each shows tables of the one Status, as words or as JSON."""

import shutil
import sys
from typing import Annotated

import typer

from buildlog.commands.session import open_ledger, status_of
from buildlog.errors import BadWish, Refused
from buildlog.proposals.places import read_place
from buildlog.report.answers import blockers as blocker_tables
from buildlog.report.answers import doable, fits, hours, overview, stock, story
from buildlog.report.table import Table, to_json, to_plain, to_text
from buildlog.status.places import positions_at
from buildlog.status.status import Status

AsJson = Annotated[bool, typer.Option("--json", help="The same figures, machine-readable, in raw units.")]


def show(tables: tuple[Table, ...], as_json: bool) -> None:
    """Tables to standard output, within the width of the terminal where it is one."""
    if as_json:
        typer.echo(to_json({table.key: to_plain(table) for table in tables}))
    else:
        width = shutil.get_terminal_size().columns if sys.stdout.isatty() else None
        typer.echo("\n\n".join(to_text(table, width) for table in tables))


def status(as_json: AsJson = False) -> None:
    """How every build stands: printers, days to make, each subassembly on both sides."""
    with open_ledger() as ledger:
        found = status_of(ledger)
        tables = overview.status_tables(found)
        if as_json:
            typer.echo(to_json(overview.as_plain(found) | {t.key: to_plain(t) for t in tables}))
        else:
            show(tables, False)


def blockers(
    place: Annotated[str | None, typer.Argument(help="A position, as HEAD or TOE R.2; left out: everything.")] = None,
    as_json: AsJson = False,
) -> None:
    """What blocks every position, or one with all that it waits for and the way to it."""
    with open_ledger() as ledger:
        found = status_of(ledger)
        if place is None:
            show((blocker_tables.all_blockers(found),), as_json)
            return
        show(tuple(blocker_tables.blockers_of(found, p) for p in positions_named(found, place)), as_json)


def positions_named(found: Status, text: str) -> tuple[int, ...]:
    """Every live position that a name may mean; Refused for none."""
    try:
        place = read_place(text)
    except ValueError as error:
        raise BadWish((("PLACE", str(error)),)) from error
    wanted = positions_at(found.snapshot, place)
    if not wanted:
        raise Refused(f"There is no position «{text}». `buildlog status` lists them.")
    return wanted


def hours_left(as_json: AsJson = False) -> None:
    """Print hours left, per set of printers that can, and what usually comes on top."""
    with open_ledger() as ledger:
        found = status_of(ledger)
        table = hours.print_hours(found)
        if as_json:
            typer.echo(to_json({table.key: to_plain(table)} | hours.as_plain(found)))
        else:
            show((table,), False)


def stock_question(as_json: AsJson = False) -> None:
    """Whether the material lasts: materials, spools, bought items, what to order."""
    with open_ledger() as ledger:
        found = status_of(ledger)
        tables = (stock.materials(found), stock.spools(found), stock.bought(found), stock.baskets(found))
        show(tables, as_json)


def fits_question(
    everything: Annotated[bool, typer.Option("--all", help="Passed and coming ones too.")] = False,
    as_json: AsJson = False,
) -> None:
    """Fits that are due, failed, stale or want a spot check."""
    with open_ledger() as ledger:
        show((fits.fits(status_of(ledger), everything),), as_json)


Everything = Annotated[bool, typer.Option("--all", help="Those that are done too.")]


def shots(everything: Everything = False, as_json: AsJson = False) -> None:
    """Shots to film, and footage to copy and look at."""
    with open_ledger() as ledger:
        show((story.shots(status_of(ledger), everything),), as_json)


def viewers(everything: Everything = False, as_json: AsJson = False) -> None:
    """What viewers asked and nobody has answered."""
    with open_ledger() as ledger:
        show((story.viewers(status_of(ledger), everything),), as_json)


def promises(everything: Everything = False, as_json: AsJson = False) -> None:
    """Who supplied what and was promised what, as long as it is not kept."""
    with open_ledger() as ledger:
        show((story.promises(status_of(ledger), everything),), as_json)


def now(as_json: AsJson = False) -> None:
    """What can be done now with what is on hand, what helps most first."""
    with open_ledger() as ledger:
        show((doable.what_now(status_of(ledger)),), as_json)
