"""``add NOUN``, ``change NOUN KEY``, ``retire NOUN KEY``, ``bring-back NOUN KEY``, drawn from the nouns' forms."""

import dataclasses
from collections.abc import Callable
from typing import Any

import typer

from buildlog.commands.from_fields import command_of
from buildlog.errors import BadWish
from buildlog.proposals.field import Field, Kind
from buildlog.proposals.nouns import FORMS, Add, BringBack, Change, Retire, noun_fields

KEY = Field("key", "which one", Kind.TEXT, required=True, help="its code, or its key with slashes as list shows it")


def command_name(noun: str) -> str:
    return noun.replace(" ", "-")


def _positional(noun: str) -> tuple[str, ...]:
    """The key fields and the name of a new thing are typed without their names."""
    names = [field.name for field in noun_fields(noun)]
    key = tuple(name for name in FORMS[noun].KEY if name in names)[:2]
    return key + (("name",) if "name" in names else ())


def _add(noun: str) -> Callable[..., None]:
    form = FORMS[noun]
    words = (form.__doc__ or "").strip()
    help_text = f"Add a {noun}." + ("" if words.startswith(f"{form.__name__}(") or not words else f" {words}")
    return command_of(noun_fields(noun), _positional(noun), lambda values: Add(form(**values)), help_text)


def _change(noun: str) -> Callable[..., None]:
    optional = tuple(dataclasses.replace(field, required=False) for field in noun_fields(noun))
    fields = (KEY, *optional) if FORMS[noun].KEY else optional

    def wish(values: dict[str, Any]) -> Change:
        key = str(values.pop("key", ""))
        if not values:
            raise BadWish(((noun, "nothing was named to change: give an option, as --help lists them"),))
        return Change(noun, key, values)

    return command_of(fields, ("key",), wish, f"Change a {noun}; what is not named stays.", clears=True)


def _by_key(noun: str, kind: type[Retire] | type[BringBack], help_text: str) -> Callable[..., None]:
    return command_of((KEY,), ("key",), lambda values: kind(noun, str(values["key"])), help_text)


def _nouns_app(help_text: str, command: Callable[[str], Callable[..., None]], settings: bool = False) -> typer.Typer:
    app = typer.Typer(no_args_is_help=True, pretty_exceptions_enable=False, help=help_text)
    for noun in FORMS:
        if noun != "settings" or settings:
            app.command(command_name(noun))(command(noun))
    return app


def add_app() -> typer.Typer:
    return _nouns_app("Add a thing of any kind.", _add)


def change_app() -> typer.Typer:
    return _nouns_app("Change a thing of any kind.", _change, settings=True)


def retire_app() -> typer.Typer:
    return _nouns_app(
        "Take a thing out of use.", lambda noun: _by_key(noun, Retire, f"Take a {noun} out of use; its past stays.")
    )


def bring_back_app() -> typer.Typer:
    return _nouns_app(
        "Take a retired thing into use again.",
        lambda noun: _by_key(noun, BringBack, f"Take a retired {noun} into use again, as it was."),
    )
