"""All commands by name, each loaded when it is called: starting must not pay for the others."""

import importlib
from pathlib import Path
from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from buildlog.commands.actions import GROUP_HELP
from buildlog.commands.session import chosen
from buildlog.commands.verbs import VERBS

GROUPS = {
    **dict.fromkeys(GROUP_HELP, "actions:group_app"),
    "add": "nouns:add_app",
    "change": "nouns:change_app",
    "retire": "nouns:retire_app",
    "bring-back": "nouns:bring_back_app",
}
"""Name → function that makes a Typer app (of the group's name, for daily actions)."""

SINGLE = {
    **{verb.name: "" for verb in VERBS if not verb.group},
    "undo": "keeping:undo",
    "redo": "keeping:redo",
    "journal": "keeping:journal",
    "backup": "keeping:backup",
    "restore": "keeping:restore",
    "check": "keeping:check",
    "status": "questions:status",
    "blockers": "questions:blockers",
    "hours": "questions:hours_left",
    "stock": "questions:stock_question",
    "fits": "questions:fits_question",
    "now": "questions:now",
    "week": "telling:week",
    "alerts": "telling:alerts",
    "read": "files:read",
    "export": "files:export",
    "demo": "opening:demo",
}
"""Name → the command's function; empty for a daily action drawn from its wish."""


def _load(where: str) -> Any:
    module, name = where.split(":")
    return getattr(importlib.import_module(f"buildlog.commands.{module}"), name)


def _app_of(name: str) -> typer.Typer:
    if name in GROUPS:
        make = _load(GROUPS[name])
        made = make(name) if GROUPS[name].startswith("actions:") else make()
        assert isinstance(made, typer.Typer)
        return made
    app = typer.Typer()
    if SINGLE[name]:
        app.command(name)(_load(SINGLE[name]))
    else:
        from buildlog.commands.actions import verb_command

        app.command(name)(verb_command(next(v for v in VERBS if not v.group and v.name == name)))
    return app


class Commands(TyperGroup):
    """Lists every name, loads the one that is called."""

    def list_commands(self, ctx: Any) -> list[str]:  # noqa: ARG002 - the base class passes it
        return sorted({*GROUPS, *SINGLE})

    def get_command(self, ctx: Any, cmd_name: str) -> Any:  # noqa: ARG002
        if cmd_name not in GROUPS and cmd_name not in SINGLE:
            return None
        command = typer.main.get_command(_app_of(cmd_name))
        command.name = cmd_name
        return command


app = typer.Typer(
    cls=Commands, no_args_is_help=False, add_completion=False, rich_markup_mode=None, pretty_exceptions_enable=False
)


@app.callback(invoke_without_command=True)
def root(
    ctx: typer.Context,
    ledger: Annotated[
        Path | None, typer.Option("--ledger", help="The ledger file; else BUILDLOG_LEDGER, else the usual place.")
    ] = None,
    version: Annotated[bool, typer.Option("--version", help="Say the version and stop.")] = False,
) -> None:
    """A ledger that computes, for one person building something large over months."""
    chosen.ledger = ledger
    if version:
        from importlib.metadata import version as installed

        typer.echo(installed("buildlog"))
        raise typer.Exit
    if ctx.invoked_subcommand is None:
        from buildlog.commands.opening import open_screens

        open_screens()
