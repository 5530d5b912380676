"""What fits best what was typed: a whole code, how a code begins, a name, a word, then whatever holds it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple


class Names(NamedTuple):
    """What a thing is called, and all its words."""

    code: str
    name: str
    words: str

    @classmethod
    def of(cls, code: str, name: str, words: str = "") -> Names:
        """As they are looked for: in small letters."""
        return cls(code.casefold(), name.casefold(), f"{code} {name} {words}".casefold())


def ranked(names: Sequence[Names], typed: str) -> list[int]:
    """Places of those that hold every word typed, the best first; what is as good stays in its order."""
    wanted = typed.casefold().split()
    if not wanted:
        return list(range(len(names)))
    whole = " ".join(wanted)
    begins = [re.compile(rf"(?<![^\W_]){re.escape(word)}") for word in wanted]

    def rank(place: int) -> int:
        one = names[place]
        if one.code == whole:
            return 0
        if one.code.startswith(whole):
            return 1
        if one.name.startswith(whole):
            return 2
        return 3 if all(word.search(one.words) for word in begins) else 4

    return sorted((n for n, one in enumerate(names) if all(word in one.words for word in wanted)), key=rank)
