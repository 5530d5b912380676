"""How a field is typed on the command line: its argument, option or flag, and what help says of it."""

import inspect
from typing import Annotated, Any

import typer

from buildlog.commands.spelling import spelled
from buildlog.proposals.field import Field, Kind

_METAVARS = {
    Kind.CODE: "CODE",
    Kind.WHOLE: "NUMBER",
    Kind.DECIMAL: "NUMBER",
    Kind.GRAMS: "GRAMS",
    Kind.DURATION: "H:MM",
    Kind.MONEY: "AMOUNT",
    Kind.MM: "MM",
    Kind.DENSITY: "G/CM3",
    Kind.PERCENT: "PERCENT",
    Kind.CHOICE: "CHOICE",
    Kind.MOMENT: "WHEN",
    Kind.LINES: "LIST",
}


def option_name(field: Field) -> str:
    return spelled(field.name)


def typed_as(field: Field, positional: bool) -> str:
    """What a person finds in help and on the command line: ``SPOOL`` or ``--went-wrong``."""
    return field.name.upper() if positional else option_name(field)


def help_of(field: Field) -> str:
    """What a person reads about a field: label, unit or choices, hint, default."""
    parts = [field.label[:1].upper() + field.label[1:]]
    if field.unit:
        parts[0] += f" ({field.unit})"
    if field.choices:
        parts.append(" | ".join(choice.replace(" ", "-") for choice in field.choices))
    if field.help:
        parts.append(field.help)
    if field.default not in (None, "", (), False):
        shown = field.show(field.default)
        parts.append(f"usual: {shown.replace(' ', '-') if field.choices else shown}")
    return "; ".join(parts) + "."


def parameter(field: Field, positional: bool) -> inspect.Parameter:
    """A flag for yes or no, else an argument or an option of text: the field itself reads it."""
    text, needed = help_of(field), field.required
    if field.kind is Kind.YES_NO:
        flag = option_name(field)
        return keyword(field.name, bool | None, typer.Option(f"{flag}/--no-{flag[2:]}", help=text))
    kind = str if needed else str | None
    if positional:
        return keyword(field.name, kind, typer.Argument(help=text, metavar=typed_as(field, True)), needed)
    metavar = _METAVARS.get(field.kind) or ("CODE" if field.refers else "TEXT")
    return keyword(field.name, kind, typer.Option(option_name(field), help=text, metavar=metavar), needed)


def keyword(name: str, kind: Any, info: Any, needed: bool = False) -> inspect.Parameter:
    """A parameter that Typer sees; None where it may be left out and was."""
    default = inspect.Parameter.empty if needed else None
    return inspect.Parameter(name, inspect.Parameter.KEYWORD_ONLY, default=default, annotation=Annotated[kind, info])
