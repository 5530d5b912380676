"""Every noun that can be added, changed and retired, with its form; and those three wishes."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from buildlog.errors import BadWish
from buildlog.proposals import forms_bench, forms_build, forms_shop, forms_story
from buildlog.proposals.field import Field, Kind, fields_of
from buildlog.proposals.moments import MomentReader, stored_moment

FORMS: dict[str, type[Any]] = {
    form.NOUN: form
    for form in (
        forms_bench.Settings,
        forms_build.Build,
        forms_shop.Supplier,
        forms_shop.Box,
        forms_shop.Resource,
        forms_shop.Material,
        forms_shop.Printer,
        forms_shop.Spool,
        forms_shop.BoughtItem,
        forms_build.Assembly,
        forms_build.Part,
        forms_build.Usage,
        forms_bench.FitTest,
        forms_bench.Step,
        forms_bench.Wait,
        forms_bench.Question,
        forms_shop.PrintFile,
        forms_build.Milestone,
        forms_build.Episode,
        forms_build.Goal,
        forms_story.Shot,
        forms_story.ViewerQuestion,
        forms_story.Promise,
    )
}
"""In an order in which each noun comes after those it refers to (an assembly's proving fit is set afterwards)."""


@dataclass(frozen=True, slots=True)
class Add:
    """Add a thing: ``form`` is one of the FORMS."""

    form: Any


@dataclass(frozen=True, slots=True)
class Change:
    """Change the named fields of the thing with that key; others stay."""

    noun: str
    key: str
    values: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Retire:
    """Take a thing out of use; what happened with it stays on the record."""

    noun: str
    key: str


@dataclass(frozen=True, slots=True)
class BringBack:
    """Take a retired thing into use again, as it was."""

    noun: str
    key: str


def noun_fields(noun: str) -> tuple[Field, ...]:
    return fields_of(FORMS[noun])


def said_of_change(field: Field, value: Any) -> str:
    """The field by its label; what was set to no is told so, as its label alone would say yes."""
    if field.kind is not Kind.YES_NO or (field.default if value is None else value):
        return field.label
    return f"{field.label}: no" if " " in field.label else f"not {field.label} any more"


def key_of(form: Any) -> str:
    """What a thing is called in commands and files: its code, or its key fields with a slash between."""
    return key_from(getattr(form, name) for name in form.KEY)


def key_from(values: Iterable[Any]) -> str:
    return "/".join("" if value is None else str(value) for value in values)


def form_from_texts(noun: str, texts: Mapping[str, str], read_moment: MomentReader = stored_moment) -> Any:
    """A form from what was typed; BadWish carries every field's problem at once."""
    values, problems = values_from_texts(noun_fields(noun), texts, read_moment)
    if problems:
        raise BadWish(problems)
    return FORMS[noun](**values)


def values_from_texts(
    fields: tuple[Field, ...], texts: Mapping[str, str], read_moment: MomentReader = stored_moment
) -> tuple[dict[str, Any], tuple[tuple[str, str], ...]]:
    """Parsed values of the fields that were given, and (field, problem) for what is wrong or missing.

    Moments in words need a ``moment_reader``; without one they are read as the record writes them.
    """
    values: dict[str, Any] = {}
    problems: list[tuple[str, str]] = []
    for field in fields:
        try:
            value = field.parse(texts.get(field.name, ""))
            if field.kind is Kind.MOMENT and value is not None:
                value = read_moment(value, field.future)
        except ValueError as error:
            problems.append((field.name, str(error)))
            continue
        if value is not None:
            values[field.name] = value
        elif field.required:
            problems.append((field.name, f"{field.label} is missing"))
    return values, tuple(problems)


def noun_named(text: str) -> str:
    """The noun behind what was typed, as ``print-file`` or ``Print files``; BadWish lists them."""
    wanted = re.sub(r"[\s_-]+", " ", text.strip().lower())
    for noun in FORMS:
        if wanted in (noun, f"{noun}s", noun.removesuffix("y") + "ies", f"{noun}es"):
            return noun
    raise BadWish((("noun", f"«{text}» is none of: {', '.join(FORMS)}"),))
