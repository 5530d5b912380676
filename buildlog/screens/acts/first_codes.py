"""A code made of a name, where nobody was asked for one."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection

from buildlog.screens.acts.thing_defaults import next_code

LONGEST = 16


def code_from(name: str, taken: Collection[str], otherwise: str) -> str:
    """``LANTERN-BEETLE`` of «Lantern Beetle», its accents left out; whole words, as many as are short enough.

    Where nothing of the name can stand in a code (other scripts), `otherwise`; where it is taken, counted on.
    """
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().upper()
    words = re.findall(r"[A-Z0-9]+", plain) or [otherwise.replace(" ", "-")]
    code = words[0][:LONGEST]
    for word in words[1:]:
        if len(code) + 1 + len(word) > LONGEST:
            break
        code += f"-{word}"
    return next_code(code, taken) if code in taken else code
