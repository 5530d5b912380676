"""One change to several marked things of a noun, or all of them out of use: one group of the journal."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

from buildlog.proposals.field import Field
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.nouns import Change, Retire, noun_fields, said_of_change
from buildlog.proposals.problems import problems
from buildlog.screens.acts.named import said_of_form
from buildlog.screens.acts.things import completions_of, known_names, several
from buildlog.screens.asking import WHEN, units_of, with_moments, wrong_moments
from buildlog.screens.dialogs.ask_fields import AskFields
from buildlog.screens.dialogs.confirm import Confirm
from buildlog.status.forms import form_of
from buildlog.wording import few

if TYPE_CHECKING:
    from buildlog.facts.snapshot import Snapshot
    from buildlog.screens.base import LiveScreen

ITSELF = ("name", "text", "revision")
"""What tells one thing from the other, beside its key."""
NONE = "none"
DASH = "-"


class Emptied:
    """What a field says that is to be emptied; no text and no moment."""

    def __bool__(self) -> bool:
        return False


EMPTIED = Emptied()


@dataclass(frozen=True, slots=True)
class ForAll:
    """A field as it is asked for several things: left empty each keeps its own, a dash empties it."""

    field: Field
    now: str
    required: bool = False
    default: None = None

    @property
    def name(self) -> str:
        return self.field.name

    @property
    def label(self) -> str:
        return self.field.label

    @property
    def kind(self) -> str:
        return self.field.kind

    @property
    def unit(self) -> str:
        return self.field.unit

    @property
    def caution(self) -> str:
        return self.field.caution

    @property
    def choices(self) -> tuple[str, ...]:
        return (*self.field.choices, NONE) if self.field.choices and self._may_be_empty else self.field.choices

    @property
    def help(self) -> str:
        empties = f"{DASH} empties it" if self._may_be_empty and not self.field.choices else ""
        return "; ".join(part for part in (f"now {self.now}", self.field.help, empties) if part)

    def parse(self, text: str) -> Any:
        if self._may_be_empty and text.strip() in (DASH, NONE):
            return EMPTIED
        return self.field.parse(text)

    def offered(self, value: Any) -> str:
        return self.field.offered(value)

    @property
    def _may_be_empty(self) -> bool:
        return not self.field.required and self.field.default in (None, "", ())


async def edit_several(screen: LiveScreen, noun: str, keys: Sequence[str]) -> bool:
    """What is filled in goes for all of them; whether it was recorded."""
    status = screen.status
    if status is None:
        return False
    snapshot = status.snapshot
    found = {key: form_of(snapshot, noun, key) for key in keys}
    forms = {key: form for key, form in found.items() if form is not None}
    fields = [f for f in noun_fields(noun) if f.name not in (*next(iter(forms.values())).KEY, *ITSELF)]
    read = moment_reader(screen.live.ledger.now(), snapshot.settings.home_zone)

    def wrong(answer: Mapping[str, Any]) -> dict[str, str]:
        late = wrong_moments([*fields, WHEN], answer, read)
        return late or _wrong(forms, _given(fields, with_moments(fields, answer, read)))

    def heed(answer: Mapping[str, Any]) -> str:
        given = {name: value or None for name, value in answer.items()}
        return said_of_form(status, noun, given)

    answer = await screen.app.push_screen_wait(
        AskFields(
            f"Change {several(noun, len(forms))}: what is filled in goes for all",
            [*(ForAll(field, _now(field, list(forms.values()))) for field in fields), WHEN],
            check=wrong,
            alone=_unless_emptied(known_names(snapshot, tuple(fields))),
            completions=completions_of(snapshot, noun, tuple(fields)),
            heed=heed,
            units=units_of(fields, status),
        )
    )
    if answer is None:
        return False
    told = with_moments([*fields, WHEN], answer, read)
    at, given = told.pop("at", None), _given(fields, told)
    changes = {key: _differing(form, given) for key, form in forms.items()}
    wishes = [(Change(noun, key, values), at) for key, values in changes.items() if values]
    if not wishes:
        screen.live.tell("Nothing was changed.")
        return False
    labels = few([said_of_change(field, given[field.name]) for field in fields if field.name in given])
    return await screen.live.record_all(wishes, f"Changed {several(noun, len(wishes))}: {labels}.") is not None


async def retire_several(screen: LiveScreen, noun: str, keys: Sequence[str]) -> bool:
    """Asked first; all of them or none. What hangs beneath another goes before it."""
    if screen.status is None:
        return False
    said = several(noun, len(keys))
    will = [
        f"{few(keys)}: out of use from now on. What happened with them stays, and {{bring_back}} brings each back."
    ]
    if not await screen.app.push_screen_wait(Confirm(f"Retire {said}?", will, yes="retire them")):
        return False
    wishes = [(Retire(noun, key), None) for key in lowest_first(screen.status.snapshot, noun, keys)]
    return await screen.live.record_all(wishes, f"Retired {said}: {few(keys)}.") is not None


def lowest_first(snapshot: Snapshot, noun: str, keys: Sequence[str]) -> list[str]:
    """Assemblies from the leaves of the tree up, others from the newest back."""
    if noun != "assembly":
        return list(reversed(keys))
    above = {a.code: snapshot.assembly[a.parent_id].code if a.parent_id else None for a in snapshot.assemblies}

    def depth(code: str | None) -> int:
        return 0 if code is None else 1 + depth(above.get(code))

    return sorted(keys, key=depth, reverse=True)


def _given(fields: Sequence[Field], answer: Mapping[str, Any]) -> dict[str, Any]:
    """What was filled in; what is to be emptied as it is when left out."""
    filled = {field.name: field for field in fields if answer[field.name] is not None}
    return {name: field.default if answer[name] is EMPTIED else answer[name] for name, field in filled.items()}


def _differing(form: Any, given: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in given.items() if getattr(form, name) != value}


def _wrong(forms: Mapping[str, Any], given: Mapping[str, Any]) -> dict[str, str]:
    """The first thing that the values do not go with, and why."""
    for key, form in forms.items():
        for name, text in problems(dataclasses.replace(form, **given)):
            return {name if name in given else "": f"{key}: {text}"}
    return {}


def _now(field: Field, forms: Sequence[Any]) -> str:
    said = dict.fromkeys(field.offered(getattr(form, field.name)) or "–" for form in forms)
    return few(list(said), 3)


def _unless_emptied(checks: Mapping[str, Callable[[Any], str]]) -> dict[str, Callable[[Any], str]]:
    def checked(check: Callable[[Any], str], value: Any) -> str:
        return "" if value is EMPTIED else check(value)

    return {name: partial(checked, check) for name, check in checks.items()}
