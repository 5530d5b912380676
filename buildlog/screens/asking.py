"""Asks a wish by its table of fields, as commands do: the same fields, the same reading of what was typed.

    asked = await ask_wish(app, FailPrint, "Shins failed", values={"job": 12},
                           only=("cause", "went_wrong", "stopped", "ran_on"))
    if asked: app.record(asked.wish, asked.at)

`values` are what is known; a field that is not among `only` is not asked and keeps its value or default.
`check` is asked what is wrong with the wish as it is filled in so far, by field name; `alone` what is wrong with
the value of one field, by field name. `as_asked` are fields that are asked in other words than commands ask them.
A field «when» comes last, a required one first: moments are typed in words, none lies in the future.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from buildlog.proposals.field import Field, Kind, fields_of
from buildlog.proposals.moments import MomentReader, moment_reader
from buildlog.screens.dialogs.ask_fields import Alone, AskFields
from buildlog.screens.naming import words_for
from buildlog.terms import Moment, when
from buildlog.wording import home

if TYPE_CHECKING:
    from buildlog.screens.live import LiveApp
    from buildlog.status.status import Status

WHEN = Field("at", "when", Kind.MOMENT, help="empty: now; else yesterday 23:10, -6h, Tue 22:10, 25 Nov 14:00")
EXAMPLES = "yesterday 23:10, -6h, Tue 22:10"
AHEAD = "tomorrow 9:00, Sat 10:00, +7d 9:00"


@dataclass(frozen=True, slots=True)
class Asked:
    """A wish that was filled in, and when it happened (None: now)."""

    wish: Any
    at: Moment | None


async def ask_wish(
    app: LiveApp,
    kind: type[Any],
    title: str,
    *,
    values: Mapping[str, Any] | None = None,
    only: Sequence[str] = (),
    when_too: bool = True,
    when: Field = WHEN,
    caution: str = "",
    at: Moment | None = None,
    check: Callable[[Any], Mapping[str, str]] | None = None,
    alone: Alone | None = None,
    completions: Mapping[str, Sequence[str]] | None = None,
    heed: Callable[[Mapping[str, Any]], str] | None = None,
    as_asked: Mapping[str, Field] | None = None,
) -> Asked | None:
    """The wish as it was filled in, None where the form was left. To be awaited in a worker."""
    known, status = dict(values or {}), app.status
    now, zone = app.ledger.now(), status.snapshot.settings.home_zone if status else app.ledger.home_zone()
    table = {field.name: field for field in fields_of(kind)} | dict(as_asked or {})
    fields = [table[name] for name in only or table if only or name not in known]
    asked = _dated(fields, when) if when_too else fields
    read = moment_reader(now, zone)

    def filled(answer: Mapping[str, Any]) -> Asked:
        given = with_moments(asked, answer, read)
        happened = given.pop("at", None)
        empty = {field.name: field.default for field in asked if field is not when and given[field.name] is None}
        return Asked(kind(**{**known, **given, **empty}), happened)

    def wrong(answer: Mapping[str, Any]) -> Mapping[str, str]:
        found: Mapping[str, str] = wrong_moments(asked, answer, read)
        return found if found or check is None else check(filled(answer).wish)

    words = {f.name: words_for(status.snapshot, kind, f) for f in asked} if status else {}
    form = AskFields(
        title,
        [_hinted(field) for field in asked],
        values={**_only_answers(asked, words), **_typed(table, known, zone), "at": at and in_words(at, zone)},
        check=wrong,
        alone=alone,
        completions={**words, **(completions or {})},
        caution=caution,
        heed=heed,
        units=units_of(asked, status),
    )
    answer = await app.push_screen_wait(form)
    return None if answer is None else filled(answer)


def _only_answers(fields: Sequence[Field], words: Mapping[str, Sequence[str]]) -> dict[str, Any]:
    """What a field that must be filled in can only name, where there is but one such thing."""
    must = (field.name for field in fields if field.required and field.kind is Kind.REFERENCE)
    return {name: words[name][0] for name in must if len(words.get(name, ())) == 1}


def _dated(fields: list[Field], when: Field) -> list[Field]:
    return [when, *fields] if when.required else [*fields, when]


def units_of(fields: Sequence[Field], status: Status | None) -> dict[str, str]:
    """What stands beside fields of money: the ledger's currency."""
    currency = status.snapshot.settings.currency if status else ""
    return {field.name: currency for field in fields if field.kind is Kind.MONEY}


def wrong_moments(fields: Sequence[Field], values: Mapping[str, Any], read: MomentReader) -> dict[str, str]:
    """What is wrong with the moments that were typed, by field."""
    wrong: dict[str, str] = {}
    for field in fields:
        if field.kind is Kind.MOMENT and values.get(field.name):
            try:
                read(values[field.name], field.future)
            except ValueError as problem:
                wrong[field.name] = str(problem)
    return wrong


def with_moments(fields: Sequence[Field], values: Mapping[str, Any], read: MomentReader) -> dict[str, Any]:
    """The values with moments in place of words."""
    moments = {f.name: f.future for f in fields if f.kind is Kind.MOMENT}
    return {k: read(v, moments[k]) if v and k in moments else v for k, v in values.items()}


def in_words(at: Moment, zone: str) -> str:
    """A moment as it may be typed again: ``2026-11-25 14:00`` of the home zone."""
    return f"{home(at, zone):%Y-%m-%d %H:%M}" if at and when(at) else ""


def _typed(table: Mapping[str, Field], known: Mapping[str, Any], zone: str) -> dict[str, Any]:
    """What is known as a form takes it: moments in words."""
    moments = {name for name, field in table.items() if field.kind is Kind.MOMENT}
    return {name: in_words(value, zone) if name in moments and value else value for name, value in known.items()}


def _hinted(field: Field) -> Field:
    """A moment's field says how it may be typed."""
    if field.kind is not Kind.MOMENT or field.name == WHEN.name:
        return field
    if field.help.startswith("as ") or "; as " in field.help:
        return field
    examples = AHEAD if field.future else EXAMPLES
    return replace(field, help="; ".join(part for part in (field.help, f"as {examples}") if part))
