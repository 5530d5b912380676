"""Keys of a person's own in place of the usual ones: `[keys]` of the settings file, by the ids of KEYS.

A widget that shows keys asks `as_set(keys, own_keys(self.app))` for them. A sentence names them by their ids,
«add one with {add_thing}»; `with_keys` puts the keys in where it is said: by `tell`, and in what is empty.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any

from textual.keys import Keys

from buildlog.errors import SettingsError
from buildlog.screens.keys import KEYS, SCREENS, Key, Scope, clashes, in_force, keys_of

if TYPE_CHECKING:
    from buildlog.preferences import Preferences

OwnKeys = Mapping[str, str]
_NAMED = frozenset(key.value for key in Keys if "+" not in key.value and not key.value.startswith("<"))
_HELD = ("ctrl", "alt", "shift")
_WHERE_TYPED = (Scope.FORM, Scope.QUICK, Scope.WINDOW, Scope.DIALOG)
"""Where a key that writes would write."""
_ID = re.compile(r"\{(\w+)\}")
_USUAL = {key.id: key.face for key in KEYS}
_QUESTIONS = (Scope.CHOICE, Scope.YES_NO, Scope.FORM, Scope.HELP)


def own_keys(app: Any) -> OwnKeys:
    """Those of the app; none where it is not ours."""
    found: OwnKeys = getattr(app, "own_keys", {})
    return found


def as_set(keys: Iterable[Key], own: OwnKeys) -> tuple[Key, ...]:
    """The keys as they are pressed here."""
    return tuple(replace(key, keys=(own[key.id],)) if key.id in own else key for key in keys)


def with_keys(text: str, own: OwnKeys) -> str:
    """The sentence with the key that is pressed here in place of each `{id}`; other braces stay as they are."""
    return _ID.sub(lambda found: own.get(found[1]) or _USUAL.get(found[1], found[0]), text)


def keymap(own: OwnKeys) -> dict[str, str]:
    """Key names by the ids of bindings, as `App.set_keymap` takes them."""
    wanted = (key for key in KEYS if key.id in own)
    return {f"{scope.name.lower()}.{key.id}.{key.keys[0]}": own[key.id] for key in wanted for scope in key.scopes}


def checked(preferences: Preferences) -> OwnKeys:
    """The keys of the file; SettingsError with all that is wrong, since half of them would only confuse."""
    own = preferences.keys
    called = {name: [key for key in KEYS if key.id == name] for name in own}
    problems = [problem for name, key in own.items() if (problem := _wrong(called[name], name, key))]
    if not problems:
        problems = _clashes(own)
    if problems:
        raise SettingsError(preferences.path, tuple(problems))
    return own


def _wrong(called: Sequence[Key], name: str, wanted: str) -> str:
    if not called:
        near = get_close_matches(name, {key.id for key in KEYS}, 1)
        meant = f"did you mean {near[0]}?" if near else "the README's table of keys has the ids"
        return f"{name}: nothing is called so; {meant}"
    if any(len(key.keys) > 1 for key in called):
        return f"{name}: it has several keys and keeps them; take this line out"
    *held, base = wanted.split("+") if len(wanted) > 1 else [wanted]
    writes = len(base) == 1 and base.isprintable() and not base.isspace()  # a space is written «space»
    if not set(held) <= set(_HELD) or not (writes or base in _NAMED):
        return f"{name}: «{wanted}» is no name of a key; write g, ctrl+g, f5, pageup …"
    if writes and not held and {scope for key in called for scope in key.scopes} & set(_WHERE_TYPED):
        return f"{name}: «{wanted}» would be typed there; take a key that writes nothing, as f5 or ctrl+g"
    return ""


def _clashes(own: OwnKeys) -> list[str]:
    """Every key that would do two things at once, with both, told once."""
    together = [in_force(scope) for scope in SCREENS]
    together += [(*keys_of(scope), *keys_of(Scope.DIALOG), *keys_of(Scope.LIST)) for scope in _QUESTIONS]
    usual = [set(clashes(keys)) for keys in together]
    found: dict[str, None] = {}
    for keys, before in zip(together, usual, strict=True):
        here = as_set(keys, own)
        for name in sorted(set(clashes(here)) - before):
            ids = " and ".join(key.id for key in here if name in key.keys)
            found[f"«{name}» would be {ids}: give one of them another key"] = None
    return list(found)
