"""The daily actions: one group of commands per group of VERBS, each drawn from its wish's fields."""

from functools import partial
from typing import Any

from buildlog.commands.from_fields import command_of
from buildlog.commands.lazy import LazyGroup, lazy_group, single_command
from buildlog.proposals.field import fields_of
from buildlog.proposals.verbs import GROUP_HELP, VERBS, Verb


def verb_command(verb: Verb) -> Any:
    wish = verb.kind
    function = command_of(fields_of(wish), verb.positional, lambda values: wish(**values), verb.told)
    return single_command(verb.name, function)


def group(name: str) -> LazyGroup:
    return lazy_group(
        name, GROUP_HELP[name], {verb.name: partial(verb_command, verb) for verb in VERBS if verb.group == name}
    )


def alone(name: str) -> Any:
    """A verb without a group."""
    return verb_command(next(verb for verb in VERBS if not verb.group and verb.name == name))
