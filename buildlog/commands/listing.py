"""Every command with its line and its help, for the README; a test holds the two together."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import typer

from buildlog.commands.root import app

WIDEST = 200


@dataclass(frozen=True, slots=True)
class Entry:
    """``line`` is what is typed, with its arguments; ``options`` their names with what help says of each."""

    line: str
    help: str
    options: tuple[tuple[str, str], ...]


def all_commands() -> Iterator[Entry]:
    """Every command that can be typed, in the order in which help lists them."""
    command: Any = typer.main.get_command(app)
    with command.make_context("buildlog", [], resilient_parsing=True) as context:
        yield from _below(command, context)


def _below(group: Any, context: Any) -> Iterator[Entry]:
    for name in group.list_commands(context):
        command = group.get_command(context, name)
        with command.make_context(name, [], parent=context, resilient_parsing=True) as inner:
            if hasattr(command, "list_commands"):
                yield from _below(command, inner)
            else:
                yield _entry(command, inner)


def _entry(command: Any, context: Any) -> Entry:
    arguments = [p for p in command.params if p.param_type_name == "argument"]
    typed = [p.display_name_raw.upper() if p.required else f"[{p.display_name_raw.upper()}]" for p in arguments]
    options = [(p.opts[-1], p.help or "") for p in command.params if p.param_type_name == "option"]
    words = [(word.strip("[]"), p.help or "") for word, p in zip(typed, arguments, strict=True)]
    line = " ".join([context.command_path, *typed])
    return Entry(line, command.get_short_help_str(WIDEST), (*words, *options))
