"""The wish to take in what files say."""

from dataclasses import dataclass

from buildlog.proposals.from_file import FromFile, KeptForm


@dataclass(frozen=True, slots=True)
class ReadFiles:
    """All of it happens or nothing; ``summary`` is what the journal says of it."""

    facts: tuple[FromFile, ...]
    kept: tuple[KeptForm, ...]
    summary: str
