"""The form of a row as it was last read, and what the ledger held then, as text."""

import json
from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FileBase:
    """Texts by field: as the file gave them, and as the ledger held them right afterwards."""

    given: Mapping[str, str]
    held: Mapping[str, str]

    def renewed(self, given: Mapping[str, str], held: Mapping[str, str]) -> "FileBase":
        """With these fields as they are now; the others stay as they were read."""
        return FileBase({**self.given, **given}, {**self.held, **held})

    def to_text(self) -> str:
        return json.dumps({"given": dict(self.given), "held": dict(self.held)}, ensure_ascii=False, sort_keys=True)


NEVER_READ = FileBase({}, {})


def base_from(text: str) -> FileBase:
    kept = json.loads(text)
    return FileBase(kept["given"], kept["held"])
