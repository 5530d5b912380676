"""Makes a command of a wish or a noun's form: arguments, options and help are drawn from the table of fields."""

import inspect
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any

import typer

from buildlog.commands.parameters import keyword, parameter, typed_as
from buildlog.commands.recording import record
from buildlog.commands.session import open_ledger
from buildlog.errors import BadWish
from buildlog.ledger import Ledger
from buildlog.proposals.field import Field
from buildlog.proposals.moments import moment_reader, read_moment
from buildlog.proposals.nouns import values_from_texts
from buildlog.terms import Moment

AT_HELP = "When it happened: yesterday 23:10, -6h, Tue 22:10, 2026-11-25 14:00. Left out: now."
MakeWish = Callable[[dict[str, Any]], Any]


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


@contextmanager
def named_as_typed(fields: tuple[Field, ...], positional: tuple[str, ...]) -> Iterator[None]:
    """Problems name arguments and options as they stand on the command line."""
    names = {field.name: typed_as(field, field.name in positional) for field in fields}
    try:
        yield
    except BadWish as error:
        raise BadWish(tuple((names.get(name, name), text) for name, text in error.problems)) from error


def command_of(
    fields: tuple[Field, ...],
    positional: tuple[str, ...],
    make_wish: MakeWish,
    help_text: str,
    clears: bool = False,
) -> Callable[..., None]:
    """A function that Typer takes as a command: it reads the fields, makes the wish and records it."""

    def run(**given: Any) -> None:
        at, dry_run = given.pop("at_text"), bool(given.pop("dry_run"))
        with named_as_typed(fields, positional), open_ledger() as ledger:
            wish = make_wish(values_of(ledger, fields, given, clears))
            record(ledger, wish, at_of(ledger, at), dry_run)

    first = [parameter(f, True) for name in positional for f in fields if f.name == name]
    rest = [parameter(field, False) for field in fields if field.name not in positional]
    at = keyword("at_text", str | None, typer.Option("--at", help=AT_HELP, metavar="WHEN"))
    dry = keyword(
        "dry_run", bool | None, typer.Option("--dry-run", help="Show what would be written, write nothing.")
    )
    return with_signature(run, [*first, *rest, at, dry], help_text)


def with_signature(
    run: Callable[..., None], parameters: list[inspect.Parameter], help_text: str
) -> Callable[..., None]:
    """Give a function the signature that Typer is to see."""
    run.__signature__ = inspect.Signature(parameters)  # type: ignore[attr-defined]  # Typer reads it
    run.__annotations__ = {p.name: p.annotation for p in parameters}
    run.__doc__ = help_text
    return run
