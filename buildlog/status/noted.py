"""What was noted of a thing, as it is said beside it. Today says it at once, so that no form is loaded with it."""

from collections.abc import Sequence

from buildlog.facts.journal import Note
from buildlog.facts.snapshot import Snapshot
from buildlog.wording import day


def told_on(snapshot: Snapshot, noun: str, row_id: int) -> str:
    """What was noted of one thing, as `in_words`."""
    return in_words(snapshot.notes_on.get((noun, row_id), ()), snapshot.settings.home_zone)


def in_words(notes: Sequence[Note], zone: str) -> str:
    """``2 notes, Wed 25 Nov: creaks (creak.jpg)``: the newest, which comes first, with how many there are."""
    if not notes:
        return ""
    more = f"{len(notes)} notes, " if len(notes) > 1 else ""
    picture = f" ({notes[0].photo})" if notes[0].photo else ""
    return f"{more}{day(notes[0].at, zone)}: {notes[0].text}{picture}"
