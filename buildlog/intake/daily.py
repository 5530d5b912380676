"""Daily wishes by name, with the fields that a file can give them."""

import difflib
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from typing import Any

from buildlog.proposals.field import Field, Kind, fields_of
from buildlog.proposals.nouns import FORMS, Add, BringBack, Change, Retire, noun_fields, noun_named
from buildlog.proposals.wishes import wishes

NOUN = Field("noun", "noun", Kind.TEXT, required=True)
KEY = Field("key", "key", Kind.TEXT, required=True)
AT = Field("at", "at", Kind.MOMENT)
NOT_FROM_FILES = {
    "tick_steps": "write each step as a tick_step of its own",
    "read_files": "name the files to read",
}
OF_NOUNS = {"add": Add, "change": Change, "retire": Retire, "bring_back": BringBack}


@cache
def daily() -> dict[str, type[Any]]:
    """Every wish that a line of a file can ask for, by the name of its action."""
    return {name: wish for name, wish in wishes().items() if name not in NOT_FROM_FILES}


def wish_named(text: str) -> str:
    """``Print queue`` is no name, ``weigh spool`` and ``weigh-spool`` are weigh_spool; ValueError names near ones."""
    wanted = "_".join(text.strip().lower().replace("-", " ").replace("_", " ").split())
    if wanted in daily():
        return wanted
    if wanted in NOT_FROM_FILES:
        raise ValueError(f"«{text}» cannot be asked for in a line of a file: {NOT_FROM_FILES[wanted]}")
    near = difflib.get_close_matches(wanted, daily(), 3, 0.5)
    hint = f"did you mean {', '.join(near)}?" if near else f"they are {', '.join(daily())}"
    raise ValueError(f"«{text[:60]}» is no daily action: {hint}")


def fields_for(name: str, noun: str = "") -> tuple[Field, ...]:
    """The fields of a wish; those about nouns take the fields of the noun's form beside."""
    if name not in OF_NOUNS:
        return fields_of(daily()[name])
    own = (NOUN,) if name == "add" else (NOUN, KEY)
    if not noun or name in ("retire", "bring_back"):
        return own
    fields = noun_fields(noun)
    if name == "add":
        return own + fields
    return own + tuple(replace(field, required=False) for field in fields)


def make_wish(name: str, values: Mapping[str, Any]) -> Any:
    """The wish with these values; BadWish or ValueError where they do not make one."""
    if name not in OF_NOUNS:
        return daily()[name](**values)
    given = dict(values)
    noun = noun_named(given.pop("noun"))
    if name == "add":
        return Add(FORMS[noun](**given))
    key = given.pop("key")
    return Change(noun, key, given) if name == "change" else OF_NOUNS[name](noun, key)
