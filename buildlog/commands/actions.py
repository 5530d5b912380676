"""The daily actions: one Typer app per group of VERBS, each command drawn from its wish's fields."""

from collections.abc import Callable
from typing import Any

import typer

from buildlog.commands.from_fields import command_of
from buildlog.commands.verbs import VERBS, Verb
from buildlog.proposals.field import fields_of
from buildlog.proposals.wishes import wishes

GROUP_HELP = {
    "print": "Queue, start, finish, fail and correct prints.",
    "printer": "What is on a printer: spool, nozzle, bed, down and up.",
    "spool": "Receive, weigh, dry, open, seal, load and empty spools.",
    "bought": "Bought items: receive, count, draw, return.",
    "lot": "Pieces: count, make, fit, take out, move, scrap, lend, find.",
    "part": "Revise and supersede parts, set their stage.",
    "position": "Remake a bonded position.",
    "step": "Tick bench steps, open them again.",
    "fit": "Record what a fit test found.",
    "question": "Ask and answer what holds parts or assemblies.",
    "order": "Place, receive and close orders.",
    "episode": "Plan, fill and close episodes.",
    "milestone": "Dated things to make.",
}


def verb_command(verb: Verb) -> Callable[..., None]:
    wish = wishes()[verb.wish]
    return command_of(fields_of(wish), verb.positional, lambda values: wish(**values), summary_of(wish))


def summary_of(wish: type[Any]) -> str:
    """The wish's own words; a wish without any is told by its name."""
    words = (wish.__doc__ or "").strip()
    if not words or words.startswith(f"{wish.__name__}("):
        return " ".join(_split_name(wish.__name__)).capitalize() + "."
    return words


def _split_name(name: str) -> list[str]:
    words = "".join(f" {c.lower()}" if c.isupper() else c for c in name)
    return words.split()


def group_app(group: str) -> typer.Typer:
    app = typer.Typer(no_args_is_help=True, pretty_exceptions_enable=False, help=GROUP_HELP[group])
    app.callback()(lambda: None)  # without one, Typer makes a group of one command that command itself
    for verb in VERBS:
        if verb.group == group:
            app.command(verb.name)(verb_command(verb))
    return app
