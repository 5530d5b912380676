"""The tables of README.md, each drawn from the code: commands, keys, lists with their headings, daily actions."""

from collections.abc import Callable, Iterable, Iterator
from typing import Any

import typer

from buildlog.commands.root import app
from buildlog.intake.daily import OF_NOUNS, daily, fields_for
from buildlog.intake.headings import heading_of
from buildlog.intake.lists import DATED, HISTORY, fields_of_list
from buildlog.intake.print_run import KIND as PRINT_HISTORY
from buildlog.proposals.field import Field
from buildlog.proposals.nouns import FORMS
from buildlog.screens.keys import markdown_table

BY_NOUN = ("add", "change", "retire", "bring-back")
COMMON = ("--help", "--at", "--dry-run")
"""Options that are told once, above the table."""


def commands() -> str:
    """Every command with its arguments, its options and its first sentence."""
    rows = [["`buildlog`", "Opens the screens.", "`--ledger` `--version`"]]
    for path, command in _walk("buildlog", typer.main.get_command(app)):
        rows.append([f"`{path}`", _first_sentence(command), " ".join(f"`{o}`" for o in _options(command))])
    return _table(("command", "what it does", "options"), rows)


def _walk(path: str, command: Any) -> Iterator[tuple[str, Any]]:
    """(what is typed, command) of every command; those drawn for each noun stand once."""
    for name in command.list_commands(None):
        found = command.get_command(None, name)
        if path == "buildlog" and name in BY_NOUN:
            yield f"{path} {name} NOUN …", found
        elif hasattr(found, "list_commands"):
            yield from _walk(f"{path} {name}", found)
        else:
            yield " ".join([f"{path} {name}", *_arguments(found)]), found


def _arguments(command: Any) -> list[str]:
    """``SPOOL GROSS [HEAD]``, several as ``FILES …``."""
    found = []
    for parameter in command.params:
        if parameter.param_type_name == "argument":
            name = (parameter.metavar or parameter.name.upper()).strip("[]{}")
            name += " …" if parameter.nargs == -1 else ""
            found.append(name if parameter.required else f"[{name}]")
    return found


def _options(command: Any) -> list[str]:
    names = [parameter.opts[0] for parameter in command.params if parameter.param_type_name == "option"]
    return [name for name in names if name not in COMMON]


def _first_sentence(command: Any) -> str:
    text = " ".join((command.help or "").split())
    return _cell(text.partition(". ")[0].rstrip(".") + ".") if text else ""


def nouns() -> str:
    return ", ".join(f"`{noun.replace(' ', '-')}`" for noun in FORMS) + "."


def keys() -> str:
    return markdown_table()


def lists() -> str:
    """Every list that a file can hold, with its headings; those that must stand in it in bold."""
    kinds = [*(noun for noun in FORMS if noun != "settings"), *DATED, PRINT_HISTORY, HISTORY]
    return _table(("list", "headings"), ([kind, _headings(fields_of_list(kind))] for kind in kinds))


def actions() -> str:
    """Every daily action that a line of a history can ask for, with its fields."""
    names = [name for name in daily() if name not in OF_NOUNS]
    rows = [[name.replace("_", " "), _headings(fields_for(name))] for name in names]
    return _table(("wish", "its fields"), rows)


def _headings(fields: Iterable[Field]) -> str:
    named = [(heading_of(field), field.required) for field in fields]
    return _cell(", ".join(f"**{heading}**" if required else heading for heading, required in named))


def _table(heads: Iterable[str], rows: Iterable[list[str]]) -> str:
    heads = tuple(heads)
    lines = ["| " + " | ".join(heads) + " |", "|" + "---|" * len(heads)]
    return "\n".join([*lines, *("| " + " | ".join(row) + " |" for row in rows)]) + "\n"


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")


TABLES: dict[str, Callable[[], str]] = {
    "commands": commands,
    "nouns": nouns,
    "keys": keys,
    "lists": lists,
    "actions": actions,
}
