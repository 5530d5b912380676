"""Makes a command of a wish or a noun's form: arguments, options and help are drawn from the table of fields."""

import inspect
from collections.abc import Callable, Mapping
from typing import Annotated, Any

import typer

from buildlog.commands.session import open_ledger, record
from buildlog.errors import BadWish
from buildlog.ledger import Ledger
from buildlog.proposals.field import Field, Kind
from buildlog.proposals.moments import moment_reader, read_moment
from buildlog.proposals.nouns import values_from_texts
from buildlog.terms import Moment

AT_HELP = "When it happened: yesterday 23:10, -6h, Tue 22:10, 2026-11-25 14:00. Left out: now."
MakeWish = Callable[[dict[str, Any]], Any]


def option_name(field: Field) -> str:
    return "--" + field.name.replace("_", "-")


def help_of(field: Field) -> str:
    """What a person reads about a field: label, unit or choices, hint, default."""
    parts = [field.label]
    if field.unit:
        parts[0] += f" ({field.unit})"
    if field.choices:
        parts.append(" | ".join(field.choices))
    if field.help:
        parts.append(field.help)
    if field.default not in (None, "", (), False):
        parts.append(f"usual: {field.show(field.default)}")
    return "; ".join(parts) + "."


def _parameter(field: Field, positional: bool) -> inspect.Parameter:
    """A flag for yes or no, else an argument or an option of text: the field itself reads it."""
    if field.kind is Kind.YES_NO:
        flag = f"{option_name(field)}/--no-{option_name(field)[2:]}"
        return _keyword(field.name, bool | None, typer.Option(flag, help=help_of(field)))
    if positional:
        metavar = field.name.upper()
        return _keyword(field.name, str | None, typer.Argument(help=help_of(field), metavar=metavar))
    return _keyword(field.name, str | None, typer.Option(option_name(field), help=help_of(field)))


def _keyword(name: str, kind: Any, info: Any) -> inspect.Parameter:
    return inspect.Parameter(name, inspect.Parameter.KEYWORD_ONLY, default=None, annotation=Annotated[kind, info])


def as_texts(fields: tuple[Field, ...], given: Mapping[str, Any]) -> dict[str, str]:
    """What was typed for each field; a flag as yes or no; what was not given is left out."""
    texts = {}
    for field in fields:
        value = given.get(field.name)
        if value is not None:
            texts[field.name] = ("yes" if value else "no") if isinstance(value, bool) else value
    return texts


def at_of(ledger: Ledger, text: str | None) -> Moment | None:
    """The moment behind --at; BadWish where it cannot be read."""
    if text is None:
        return None
    try:
        return read_moment(text, ledger.now(), ledger.home_zone())
    except ValueError as error:
        raise BadWish((("--at", str(error)),)) from error


def values_of(
    ledger: Ledger, fields: tuple[Field, ...], given: Mapping[str, Any], clears: bool = False
) -> dict[str, Any]:
    """Parsed values of the fields that were given; BadWish with all problems at once.

    With ``clears`` an option given as "" sets its field back to what it is when left out.
    """
    reader = moment_reader(ledger.now(), ledger.home_zone())
    values, problems = values_from_texts(fields, as_texts(fields, given), reader)
    if problems:
        raise BadWish(problems)
    if clears:
        values |= {f.name: f.default for f in fields if given.get(f.name) == ""}
    return values


def command_of(
    fields: tuple[Field, ...],
    positional: tuple[str, ...],
    make_wish: MakeWish,
    help_text: str,
    clears: bool = False,
) -> Callable[..., None]:
    """A function that Typer takes as a command: it reads the fields, makes the wish and records it."""

    def run(**given: Any) -> None:
        with open_ledger() as ledger:
            at, dry_run = given.pop("at_text"), given.pop("dry_run")
            values = values_of(ledger, fields, given, clears)
            record(ledger, make_wish(values), at_of(ledger, at), bool(dry_run))

    first = [_parameter(f, True) for name in positional for f in fields if f.name == name]
    rest = [_parameter(field, False) for field in fields if field.name not in positional]
    at = _keyword("at_text", str | None, typer.Option("--at", help=AT_HELP))
    dry = _keyword(
        "dry_run", bool | None, typer.Option("--dry-run", help="Show what would be written, write nothing.")
    )
    return with_signature(run, [*first, *rest, at, dry], help_text)


def with_signature(
    run: Callable[..., None], parameters: list[inspect.Parameter], help_text: str
) -> Callable[..., None]:
    """Give a function the signature that Typer is to see."""
    run.__signature__ = inspect.Signature(parameters)  # type: ignore[attr-defined]
    run.__annotations__ = {p.name: p.annotation for p in parameters}
    run.__doc__ = help_text
    return run
