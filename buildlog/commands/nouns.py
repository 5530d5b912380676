"""``add NOUN``, ``change NOUN KEY``, ``retire NOUN KEY``, ``bring-back NOUN KEY``, drawn from the nouns' forms."""

import dataclasses
from collections.abc import Callable
from functools import partial
from typing import Any

from buildlog.commands.from_fields import command_of
from buildlog.commands.lazy import LazyGroup, lazy_group, single_command
from buildlog.errors import BadWish
from buildlog.proposals.assemblies import AddAssemblyWithParts
from buildlog.proposals.field import Field, Kind, fields_of
from buildlog.proposals.nouns import FORMS, Add, BringBack, Change, Retire, noun_fields
from buildlog.proposals.verbs import GROUP_HELP

WITH_PARTS = "assembly-with-parts"


def command_name(noun: str) -> str:
    return noun.replace(" ", "-")


def _key(noun: str) -> Field:
    parts = FORMS[noun].KEY
    words = "its code" if len(parts) == 1 else f"its {', '.join(parts)} with slashes between"
    return Field("key", f"which {noun}", Kind.TEXT, required=True, help=words)


def positional(noun: str) -> tuple[str, ...]:
    """The key fields and the name of a new thing are typed without their names."""
    fields = {field.name: field for field in noun_fields(noun)}
    key = tuple(name for name in FORMS[noun].KEY if name in fields and fields[name].required)[:2]
    return key + (("name",) if "name" in fields and fields["name"].required else ())


def _add(noun: str) -> Any:
    form = FORMS[noun]
    words = (form.__doc__ or "").strip()
    help_text = f"Add {_a(noun)}."
    if words and not words.startswith(f"{form.__name__}("):  # what Python gives a dataclass without a docstring
        help_text += " " + words.replace("``", "")
    return single_command(
        command_name(noun),
        command_of(noun_fields(noun), positional(noun), lambda values: Add(form(**values)), help_text),
    )


def _change(noun: str) -> Any:
    optional = tuple(dataclasses.replace(field, required=False) for field in noun_fields(noun))
    fields = (_key(noun), *optional) if FORMS[noun].KEY else optional

    def wish(values: dict[str, Any]) -> Change:
        key = str(values.pop("key", ""))
        if not values:
            raise BadWish((("what to change", "give an option, as --help lists them"),))
        return Change(noun, key, values)

    help_text = f'Change {_a(noun)}; what is not named stays, "" sets back what it is when left out.'
    return single_command(command_name(noun), command_of(fields, ("key",), wish, help_text, clears=True))


def _by_key(kind: type[Retire] | type[BringBack], help_text: str, noun: str) -> Any:
    return single_command(
        command_name(noun),
        command_of(
            (_key(noun),), ("key",), lambda values: kind(noun, str(values["key"])), help_text.format(_a(noun))
        ),
    )


def _a(noun: str) -> str:
    if noun == "settings":
        return "the settings"
    return f"an {noun}" if noun[0] in "aeio" else f"a {noun}"


def _group(name: str, help_text: str, command: Callable[[str], Any], settings: bool = False) -> LazyGroup:
    nouns = [noun for noun in FORMS if noun != "settings" or settings]
    return lazy_group(name, help_text, {command_name(noun): partial(command, noun) for noun in nouns})


def add(name: str) -> LazyGroup:
    makers = {command_name(noun): partial(_add, noun) for noun in FORMS if noun != "settings"}
    return lazy_group(name, "Add a thing of any kind.", {**makers, WITH_PARTS: _add_with_parts})


def _add_with_parts() -> Any:
    fields = fields_of(AddAssemblyWithParts)
    help_text = "Add an assembly with its parts and how many of each, as one change."
    positional = ("code", "name")
    return single_command(
        WITH_PARTS, command_of(fields, positional, lambda values: AddAssemblyWithParts(**values), help_text)
    )


def change(name: str) -> LazyGroup:
    return _group(name, "Change a thing of any kind.", _change, settings=True)


def retire(name: str) -> LazyGroup:
    return _group(name, "Take a thing out of use.", partial(_by_key, Retire, "Take {} out of use; its past stays."))


def bring_back(name: str) -> LazyGroup:
    help_text = "Take {} that was retired into use again, as it was."
    return _group(name, "Take a retired thing into use again.", partial(_by_key, BringBack, help_text))


def milestone(name: str) -> LazyGroup:
    """``milestone add`` is ``add milestone``: milestones are a noun like any other, and a daily matter."""

    def make() -> Any:
        command = _add("milestone")
        command.name = "add"
        return command

    return lazy_group(name, GROUP_HELP[name], {"add": make})
