"""Add, edit, copy, retire and bring back a thing of any noun, by the one form drawn from its table of fields."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any

from buildlog.errors import AlreadyThere, NotFound
from buildlog.proposals.field import Field, Kind
from buildlog.proposals.lines import Ask
from buildlog.proposals.nouns import FORMS, Add, BringBack, Change, Retire, key_of, noun_fields
from buildlog.proposals.problems import problems
from buildlog.screens.acts.named import said_of_form
from buildlog.screens.acts.thing_defaults import only_material, values_to_add, values_to_copy, wanted_first
from buildlog.screens.asking import Asked, ask_wish, in_words
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.dialogs.confirm import Confirm
from buildlog.screens.naming import names_of, words_for
from buildlog.screens.things_rows import told_of_form
from buildlog.screens.widgets.tones import Tone
from buildlog.status.forms import form_of, keys_of, retired_of
from buildlog.status.strange_words import (
    classes_of_printers,
    polymers_kept,
    words_of_parts,
    words_of_printers,
)
from buildlog.terms import Capability
from buildlog.wording import count

if TYPE_CHECKING:
    from buildlog.facts.snapshot import Snapshot
    from buildlog.screens.base import LiveScreen
    from buildlog.status.status import Status

MAY_NAME = {
    ("question", "holds"): "assembly or part",
    ("goal", "code"): "assembly or part or step or question",
}
"""What a field may name that refers to things of several nouns."""
NO_SUCH_FORM = "There is one row of settings: it can be changed with {edit_thing}, not added, copied or retired."

FIRST = "{0} names {2}, and there is no {1} yet: add that first, on Things ({{go_things}})."


async def add_thing(screen: LiveScreen, noun: str, **known: Any) -> str | None:
    """The key of what was added; `known` are values that stand in the form instead of the last one's."""
    if screen.status is None:
        return None
    first = wanted_first(screen.status.snapshot, noun)
    if first:
        screen.live.tell(FIRST.format(a(noun).capitalize(), first, a(first)), Tone.CAUTION)
        return None
    values = values_to_add(screen.status.snapshot, noun) | known
    return await _add(screen, noun, f"Add {a(noun)}", values)


async def copy_thing(screen: LiveScreen, noun: str, key: str) -> str | None:
    """The key of the copy, which is asked like a new thing, filled in like the old one."""
    form = form_of(screen.status.snapshot, noun, key) if screen.status is not None else None
    if form is None or screen.status is None:
        return None
    return await _add(screen, noun, f"Copy {noun} {key}", values_to_copy(screen.status.snapshot, noun, form))


async def edit_thing(
    screen: LiveScreen, noun: str, key: str, title: str = "", only: tuple[str, ...] = ()
) -> str | None:
    """The key that it has afterwards; what was refused is asked again as typed. `only` these fields are asked."""
    form = form_of(screen.status.snapshot, noun, key) if screen.status is not None else None
    values = _values(form) if form is not None else {}
    while form is not None and screen.status is not None:
        title = title or f"Change {noun} {key}".rstrip()
        asked = await _ask(screen, screen.status, noun, title, values, key, only=only)
        if asked is None:
            return None
        changed = _changed(form, asked.wish, screen.status.snapshot.settings.home_zone)
        if not changed:
            screen.live.tell("Nothing was changed.")
            return None
        if await screen.wish(Change(noun, key, changed), asked.at) is not None:
            return key_of(asked.wish)
        values = _values(asked.wish)
    return None


async def retire_thing(screen: LiveScreen, noun: str, key: str) -> None:
    """Asked first; what still stands on it is named when it is refused."""
    will = [
        f"{noun} {key} goes out of use. What happened with it stays on the record, and {{bring_back}} brings it back."
    ]
    if await screen.app.push_screen_wait(Confirm(f"Retire {noun} {key}?", will, yes="retire it")):
        await screen.wish(Retire(noun, key))


async def bring_back(screen: LiveScreen, noun: str) -> str | None:
    """The key of what was brought back, one of those out of use."""
    if screen.status is None:
        return None
    retired = retired_of(screen.status.snapshot, noun)
    choices = [Choice(key, key, told_of_form(form)) for key, form in retired.items()]
    key = await screen.pick(
        f"Bring back which {noun}?",
        choices,
        empty=f"No {noun} is out of use: {{retire_thing}} takes one out, and then it can be brought back.",
    )
    if key is None or await screen.wish(BringBack(noun, key)) is None:
        return None
    return key


def several(noun: str, number: int) -> str:
    """``3 assemblies``."""
    return count(number, noun, {"assembly": "assemblies", "box": "boxes"}.get(noun, ""))


def a(noun: str) -> str:
    return f"an {noun}" if noun[0] in "aeio" else f"a {noun}"


async def _add(screen: LiveScreen, noun: str, title: str, values: dict[str, Any]) -> str | None:
    """What was refused is asked again as it was typed."""
    at = None
    while screen.status is not None:
        asked = await _ask(screen, screen.status, noun, title, values, None, at)
        if asked is None:
            return None
        if await screen.wish(Add(asked.wish), asked.at) is not None:
            return key_of(asked.wish)
        values, at = _values(asked.wish), asked.at
    return None


async def _ask(
    screen: LiveScreen,
    status: Status,
    noun: str,
    title: str,
    values: dict[str, Any],
    key: str | None,
    at: Any = None,
    only: tuple[str, ...] = (),
) -> Asked | None:
    """The form filled in; `key` is that of the thing being changed, `only` are the fields asked, all for none."""
    fields, snapshot = noun_fields(noun), status.snapshot

    only_one = only_material(snapshot)

    def whole(form: Any) -> Any:
        """With the only material there is, where a part says grams and not of what."""
        left_out = noun == "part" and form.grams is not None and form.material is None
        return replace(form, material=only_one) if left_out else form

    def wrong(form: Any) -> Mapping[str, str]:
        found = dict(reversed(problems(whole(form))))
        if FORMS[noun].KEY and key_of(form) != key and key_of(form) in keys_of(snapshot, noun):
            found.setdefault(FORMS[noun].KEY[-1], str(AlreadyThere(noun, key_of(form))))
        return found

    def heed(given: Mapping[str, Any]) -> str:
        return said_of_form(status, noun, given)

    asked = await ask_wish(
        screen.live,
        FORMS[noun],
        title,
        values=values,
        only=only or [field.name for field in fields],
        at=at,
        check=wrong,
        alone=known_names(snapshot, fields) | _free_code(snapshot, noun, key),
        completions=completions_of(snapshot, noun, fields),
        heed=heed,
        as_asked=_told_of_material(fields, only_one) if noun == "part" else None,
    )
    return None if asked is None else replace(asked, wish=whole(asked.wish))


def _told_of_material(fields: tuple[Field, ...], only_one: Ask | None) -> dict[str, Field]:
    """A part's material may be left out where there is but one: its help says so."""
    told = f"empty: {only_one.material}, where there are grams" if only_one is not None else ""
    return {field.name: replace(field, help=told) for field in fields if field.name == "material" and told}


def known_names(snapshot: Snapshot, fields: tuple[Field, ...]) -> dict[str, Callable[[Any], str]]:
    """For each field that refers to nouns: which of the names in it is not there."""
    return {
        field.name: partial(_unknown, field.refers, frozenset(names_of(snapshot, field.refers)))
        for field in fields
        if field.refers in FORMS
    }


def _unknown(noun: str, known: frozenset[str], value: Any) -> str:
    strange = next((name for name in _names_in(value) if name not in known), None)
    return "" if strange is None else str(NotFound(noun, strange))


def _names_in(value: Any) -> tuple[str, ...]:
    """The codes in a value: it is one, a list of them, or of lines with one in each."""
    if isinstance(value, str):
        return (value,)
    if isinstance(value, Ask):
        return (value.material,) if value.material else ()
    return tuple(each if isinstance(each, str) else each.code for each in value)


def _free_code(snapshot: Snapshot, noun: str, key: str | None) -> dict[str, Callable[[Any], str]]:
    """A new code is free; `key` is that of the thing being changed."""
    if FORMS[noun].KEY != ("code",):
        return {}
    taken = frozenset(keys_of(snapshot, noun)) - {key}
    return {"code": lambda code: str(AlreadyThere(noun, code)) if code in taken else ""}


def completions_of(snapshot: Snapshot, noun: str, fields: tuple[Field, ...]) -> dict[str, tuple[str, ...]]:
    """For each field the names that it may hold, and words that it held before."""
    found: dict[str, tuple[str, ...]] = {}
    for field in fields:
        if (noun, field.name) in MAY_NAME:
            found[field.name] = names_of(snapshot, MAY_NAME[noun, field.name])
        elif (noun, field.name) in KNOWN_WORDS:
            found[field.name] = each_once(KNOWN_WORDS[noun, field.name](snapshot))
        elif field.kind is Kind.TEXT and field.default == "":
            found[field.name] = each_once(getattr(row, field.stored_as, "") for row in _rows(snapshot, noun))
        else:
            found[field.name] = words_for(snapshot, FORMS[noun], field)
    return found


def _classes_of_files(snapshot: Snapshot) -> Iterable[str]:
    return (file.printer_class for file in snapshot.print_files if file.retired_at is None)


KNOWN_WORDS: dict[tuple[str, str], Callable[[Snapshot], Iterable[str]]] = {
    ("print file", "printer_class"): classes_of_printers,
    ("printer", "printer_class"): lambda snapshot: (*classes_of_printers(snapshot), *_classes_of_files(snapshot)),
    ("printer", "capabilities"): lambda snapshot: (*Capability, *words_of_parts(snapshot)),
    ("part", "needs"): words_of_printers,
    ("material", "polymer"): lambda snapshot: (*polymers_kept(snapshot), *snapshot.reference.polymers),
}
"""Free words that must match what is known elsewhere."""


def each_once(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(word for word in words if word))


def _rows(snapshot: Snapshot, noun: str) -> Any:
    from buildlog.proposals.recorded import table_of
    from buildlog.status.forms import SnapshotRows

    return SnapshotRows(snapshot).all(table_of(noun))


def _values(form: Any) -> dict[str, Any]:
    return {field.name: getattr(form, field.name) for field in noun_fields(form.NOUN)}


def _changed(before: Any, after: Any, zone: str) -> dict[str, Any]:
    """The fields that differ; a moment is typed to the minute, so seconds make no difference."""

    def told(field: Field, value: Any) -> Any:
        return in_words(value, zone) if field.kind is Kind.MOMENT and value else value

    return {
        field.name: getattr(after, field.name)
        for field in noun_fields(before.NOUN)
        if told(field, getattr(before, field.name)) != told(field, getattr(after, field.name))
    }
