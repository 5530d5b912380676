"""What the ledger tells: the week's text, and alerts for a timer."""

from pathlib import Path
from typing import Annotated

import typer

from buildlog.commands.exits import Exit
from buildlog.commands.files import give
from buildlog.commands.session import open_ledger, status_of
from buildlog.report.alerts_out import alerts_calendar, alerts_plain, alerts_text, worst
from buildlog.report.table import to_json
from buildlog.report.week import week_text
from buildlog.status.alerts import AlertLevel


def week(
    of: Annotated[str | None, typer.Option("--of", help="An episode (14), a week (2026-W48) or a day.")] = None,
    build: Annotated[str | None, typer.Option("--build", help="Its code; left out: the first open one.")] = None,
    out: Annotated[Path | None, typer.Option("--out", help="Write to this file instead of standard output.")] = None,
) -> None:
    """The week's text in Markdown, with charts."""
    with open_ledger() as ledger:
        give(week_text(status_of(ledger), build, of), out)


def alerts(
    as_json: Annotated[bool, typer.Option("--json", help="Machine-readable, in raw units.")] = False,
    as_calendar: Annotated[bool, typer.Option("--ics", help="As an iCalendar file.")] = False,
) -> None:
    """What to order and look at, for a timer.

    Exit code 0: nothing needs to be ordered; 3: something now; 4: something, but only later. What only wants a look
    changes none of these. Any other code is an error: 2 the command line, 5 the ledger.
    """
    with open_ledger() as ledger:
        status = status_of(ledger)
        settings = status.snapshot.settings
        if as_calendar:
            typer.echo(alerts_calendar(status.alerts, status.now, settings.home_zone), nl=False)
        elif as_json:
            typer.echo(to_json({"now": status.now, "alerts": alerts_plain(status.alerts)}))
        else:
            typer.echo(alerts_text(status.alerts, status.now, settings.home_zone, settings.currency))
        level = worst(status.alerts)
    if level is not None:
        raise typer.Exit(Exit.ORDER_NOW if level is AlertLevel.ORDER_NOW else Exit.ORDER_LATER)
