"""Runs one command line."""

import sys
from collections.abc import Sequence

import typer
from typer.exceptions import TyperException

from buildlog.commands.exits import Exit
from buildlog.commands.guarding import guarded
from buildlog.commands.session import chosen, say


def run(arguments: Sequence[str]) -> int:
    """The exit code of a command line, told apart from the name of the program."""
    chosen.ledger = None
    return guarded(lambda: _run(arguments))


def _run(arguments: Sequence[str]) -> int:
    from buildlog.commands.root import app

    try:
        command = typer.main.get_command(app)
        with command.make_context("buildlog", list(arguments)) as context:
            command.invoke(context)
            sys.stdout.flush()
            return Exit.OK
    except typer.Exit as ending:
        return ending.exit_code
    except TyperException as error:
        return _usage(error)
    except typer.Abort:
        say("Stopped.")
        return Exit.STOPPED


def _usage(error: TyperException) -> int:
    """What was typed wrongly, and where to read more."""
    context = getattr(error, "ctx", None)
    path = context.command_path if context else "buildlog"
    message = error.format_message().strip()
    if message.startswith("Usage:"):  # a group without a command: its help
        typer.echo(message)
        return Exit.OK
    from buildlog.commands.right_form import right_form  # only for who has mistyped

    say("\n".join(filter(None, (f"{path}: {message}", right_form(error), f"`{path} --help` tells more."))))
    return Exit.USAGE
