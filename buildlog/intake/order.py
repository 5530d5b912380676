"""The order in which rows can be taken: each after those that it refers to."""

from collections.abc import Iterable, Sequence
from typing import Any

from buildlog.intake.form_rows import FormRow
from buildlog.proposals.field import Field
from buildlog.proposals.file_problems import Problems
from buildlog.proposals.nouns import FORMS, noun_fields

AFTERWARDS = {"assembly": ("lead_side", "lead_test")}
"""Fields that name things which come later: the fit that proves a side needs its assembly first."""


def in_order(rows: Sequence[FormRow], problems: Problems) -> list[FormRow]:
    """By noun, and within a noun parents and originals first; loops are told with their names."""
    found: list[FormRow] = []
    for noun in FORMS:
        of_noun = {read.key: read for read in rows if read.noun == noun}
        own = [field for field in noun_fields(noun) if field.refers == noun]
        found += _first_things_first(of_noun, own, problems) if own else of_noun.values()
    return found


def _first_things_first(rows: dict[str, FormRow], own: list[Field], problems: Problems) -> list[FormRow]:
    placed: dict[str, FormRow] = {}
    for key in rows:
        way: list[str] = []
        step: str | None = key
        while step is not None and step not in placed and step not in way:
            way.append(step)
            step = next((named for named in _named(rows[step], own) if named in rows), None)
        if step is not None and step in way:
            loop = [*way[way.index(step) :], step]
            field, read = own[0], rows[step]
            message = f"this makes a loop: {' → '.join(loop)}. Take one of these out"
            problems.add(*read.columns.place(field.name), message)
        for each in reversed(way):
            placed[each] = rows[each]
    return list(placed.values())


def _named(read: FormRow, own: Iterable[Field]) -> list[Any]:
    return [value for field in own if (value := getattr(read.form, field.name)) is not None]
