"""All commands by name, each loaded when it is called."""

import importlib
from functools import partial
from pathlib import Path
from typing import Annotated, Any

import typer

from buildlog.commands.lazy import LazyGroup, single_command
from buildlog.commands.session import chosen
from buildlog.proposals.verbs import GROUP_HELP, VERBS

FUNCTIONS = {
    "status": "questions:status",
    "blockers": "questions:blockers",
    "hours": "questions:hours_left",
    "stock": "questions:stock_question",
    "fits": "questions:fits_question",
    "shots": "questions:shots",
    "viewers": "questions:viewers",
    "promises": "questions:promises",
    "now": "questions:now",
    "catch-up": "catching_up:catching_up",
    "note": "noting:note",
    "boxes": "boxing:boxes",
    "repair-kit": "boxing:kit",
    "helper-list": "boxing:helper_list",
    "helper-done": "boxing:helper_done",
    "week": "telling:week",
    "alerts": "telling:alerts",
    "read": "files:read",
    "export": "files:export",
    "undo": "keeping:undo",
    "redo": "keeping:redo",
    "journal": "keeping:journal",
    "backup": "keeping:backup",
    "restore": "keeping:restore",
    "check": "keeping:check",
    "demo": "opening:demo",
}
"""Name → the function that Typer makes a command of."""

MADE = {
    "add": "nouns:add",
    "change": "nouns:change",
    "retire": "nouns:retire",
    "bring-back": "nouns:bring_back",
    **{verb.name: "actions:alone" for verb in VERBS if not verb.group},
    **dict.fromkeys(GROUP_HELP, "actions:group"),
    "milestone": "nouns:milestone",
    "box": "boxing:group",
}
"""Name → a function of the name that makes the command or group itself."""


def _load(where: str) -> Any:
    module, name = where.split(":")
    return getattr(importlib.import_module(f"buildlog.commands.{module}"), name)


def _single(name: str) -> Any:
    return single_command(name, _load(FUNCTIONS[name]))


def _made(name: str) -> Any:
    return _load(MADE[name])(name)


class Commands(LazyGroup):
    """Every command of ``buildlog``."""

    makers = {  # noqa: RUF012 - never changed
        **{name: partial(_single, name) for name in FUNCTIONS},
        **{name: partial(_made, name) for name in MADE},
    }


app = typer.Typer(
    cls=Commands, no_args_is_help=False, add_completion=False, rich_markup_mode=None, pretty_exceptions_enable=False
)


@app.callback(invoke_without_command=True)
def root(
    ctx: typer.Context,
    ledger: Annotated[
        Path | None,
        typer.Option(
            "--ledger", metavar="FILE", help="The ledger file; else that of BUILDLOG_LEDGER, else the usual place."
        ),
    ] = None,
    version: Annotated[bool, typer.Option("--version", help="Say the version and stop.")] = False,
) -> None:
    """A ledger that computes, for one person building something large over months.

    Without a command it opens the screens. Data goes to standard output, talk to standard error.
    """
    chosen.ledger = ledger
    if version:
        from importlib.metadata import version as installed

        typer.echo(installed("buildlog"))
        raise typer.Exit
    if ctx.invoked_subcommand is None:
        from buildlog.commands.entering import open_screens

        open_screens()
