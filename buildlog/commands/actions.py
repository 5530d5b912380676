"""The daily actions: one group of commands per group of VERBS, each drawn from its wish's fields."""

from functools import partial
from typing import Any

from buildlog.commands.from_fields import command_of
from buildlog.commands.lazy import LazyGroup, lazy_group, single_command
from buildlog.commands.verbs import GROUP_HELP, VERBS, Verb
from buildlog.proposals.field import fields_of
from buildlog.proposals.wishes import wishes


def verb_command(verb: Verb) -> Any:
    wish = wishes()[verb.wish]
    function = command_of(fields_of(wish), verb.positional, lambda values: wish(**values), _help_of(verb, wish))
    return single_command(verb.name, function)


def _help_of(verb: Verb, wish: type[Any]) -> str:
    """What the verb says, else the wish's own first words; what its docstring says of code is left out."""
    words = (wish.__doc__ or "").strip()
    if verb.help or words.startswith(f"{wish.__name__}("):  # a dataclass without a docstring is given its signature
        return verb.help
    return words.split("\n\n")[0].replace("``", "")


def group(name: str) -> LazyGroup:
    return lazy_group(
        name, GROUP_HELP[name], {verb.name: partial(verb_command, verb) for verb in VERBS if verb.group == name}
    )


def alone(name: str) -> Any:
    """A verb without a group."""
    return verb_command(next(verb for verb in VERBS if not verb.group and verb.name == name))
