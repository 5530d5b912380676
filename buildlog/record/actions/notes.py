"""Dated notes on anything."""

from os.path import exists, expanduser  # those of pathlib fail on odd names

from buildlog.errors import NotFound
from buildlog.proposals.notes import AddNote, RemoveNote
from buildlog.record.actions.about import thing_named
from buildlog.record.tables.journal import Note
from buildlog.record.writer import Work


def add_note(wish: AddNote, work: Work) -> str:
    """Without a thing that it is about it is a note of its day."""
    noun, row_id = thing_named(work, wish.about) if wish.about else ("day", None)
    note = work.add(Note(at=work.at, noun=noun, row_id=row_id, text=wish.text, photo=wish.photo))
    return f"Noted{f' about {wish.about}' if wish.about else ''} (note {note.id}).{_missing_picture(wish.photo)}"


def _missing_picture(photo: str) -> str:
    """The path is kept as it was told: the picture may lie on a disk that is not plugged in, or come later."""
    if not photo or exists(expanduser(photo)):
        return ""
    return f" There is no file {photo}: if the path is wrong, take the note away and write it again."


def remove_note(wish: RemoveNote, work: Work) -> str:
    note = work.first(Note, id=wish.note)
    if note is None:
        raise NotFound("note", str(wish.note))
    work.delete(note)
    return f"Removed note {wish.note}."
