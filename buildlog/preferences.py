"""What a person prefers on this machine: keys of their own, and the theme. A TOML file outside the ledger.

theme = "light"

[keys]
weigh_spool = "g"
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from buildlog.errors import SettingsError
from buildlog.locations import settings_path

THEMES = ("dark", "light")
KNOWN = ("theme", "keys")
MOST_BYTES = 16 * 1024
"""Our choice: twice what it takes to give every key another one."""


@dataclass(frozen=True, slots=True)
class Preferences:
    """`keys` are names of keys by the id of what they do; `theme` is one of THEMES, empty for the usual one.

    `path` is the file they were read from, None where there is none.
    """

    keys: Mapping[str, str] = field(default_factory=dict)
    theme: str = ""
    path: Path | None = None


AS_USUAL = Preferences()


def read_preferences(path: Path | None = None) -> Preferences:
    """Those of the file, else of the usual place; without a file all is as usual.

    SettingsError where it cannot be read or says what is not understood; it names all of that at once.
    """
    file = path or settings_path()
    try:
        with file.open("rb") as opened:
            content = opened.read(MOST_BYTES + 1)
        if len(content) > MOST_BYTES:
            raise SettingsError(file, (f"it is longer than {MOST_BYTES} bytes: leave in it what is meant for here",))
        import tomllib  # most people have no such file, and the first frame waits

        told = tomllib.loads(content.decode("utf-8"))
    except FileNotFoundError:
        return AS_USUAL
    except (OSError, UnicodeDecodeError) as error:
        raise SettingsError(file, (f"it cannot be read ({error}): mend it, or take it away",)) from None
    except (ValueError, RecursionError) as error:  # also numbers and brackets that go on and on
        raise SettingsError(file, (f"it is not TOML ({error}): write it as the README shows",)) from None
    problems = _problems(told)
    if problems:
        raise SettingsError(file, problems)
    return Preferences(dict(told.get("keys", {})), told.get("theme", ""), file)


def _problems(told: dict[str, Any]) -> tuple[str, ...]:
    found = [f"«{name}» is not known here: only {' and '.join(KNOWN)} are" for name in told if name not in KNOWN]
    if told.get("theme", THEMES[0]) not in THEMES:
        found.append(f"theme is {told['theme']!r}: write {' or '.join(THEMES)}")
    keys = told.get("keys", {})
    if not isinstance(keys, dict):
        return (*found, "keys is no table: write [keys], and below it a line for each key")
    found += [
        f"{name} = {key!r}: write the name of one key" for name, key in keys.items() if not isinstance(key, str)
    ]
    return tuple(found)
