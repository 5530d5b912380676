"""``note``: a daily fact in plain words, or a free note."""

from typing import Annotated, Any

import typer

from buildlog.commands.from_fields import AT_HELP, at_of, values_of
from buildlog.commands.recording import record
from buildlog.commands.session import open_ledger
from buildlog.errors import BadWish, MayOverrule, Refused
from buildlog.ledger import Ledger
from buildlog.proposals.field import fields_of
from buildlog.proposals.notes import AddNote
from buildlog.terms import Moment
from buildlog.wording import dated


def note(
    text: Annotated[
        list[str] | None, typer.Argument(help="A fact in plain words, or any words; left out: what can be said.")
    ] = None,
    about: Annotated[
        str | None, typer.Option("--about", help="A note on this thing: part FL07, lot #12, episode LB/14, TOE R.2.")
    ] = None,
    photo: Annotated[str | None, typer.Option("--photo", help="A note with the path to a picture.")] = None,
    at: Annotated[str | None, typer.Option("--at", help=AT_HELP, metavar="WHEN")] = None,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Show what would be written, write nothing.")] = False,
) -> None:
    """A daily fact in plain words, as «weighed BLACK-3 812 g»; other words are a note on what they name."""
    if not text:
        _tell_what_can_be_said()
        return
    line = " ".join(text)
    with open_ledger() as ledger:
        when = at_of(ledger, at)
        if about is None and photo is None:
            wish, said_at = _meant(ledger, line)
        else:
            wish, said_at = _free(ledger, {"text": line, "about": about, "photo": photo}), None
        read = dated(said_at, ledger.now(), ledger.home_zone()) if said_at is not None and when is None else ""
        try:
            record(ledger, wish, when or said_at, dry_run, read)
        except MayOverrule as error:
            raise _refused_in_a_line(error) from error


def _refused_in_a_line(error: MayOverrule) -> Refused:
    """The refusal, with what overrules it in a line."""
    from buildlog.intake.quick.reading import TO_OVERRULE

    return Refused(f"{error.message} {TO_OVERRULE}")


def _tell_what_can_be_said() -> None:
    from buildlog.intake.quick.phrases import PHRASES

    widest = max(len(phrase.example) for phrase in PHRASES)
    for phrase in PHRASES:
        typer.echo(f"{phrase.example:{widest}}  {phrase.means}")


def _meant(ledger: Ledger, line: str) -> tuple[Any, Moment | None]:
    """The wish that a line says, and when; BadWish says what it lacks."""
    from buildlog.intake.quick.known import Known
    from buildlog.intake.quick.reading import TO_NOTE, read_line
    from buildlog.proposals.moments import moment_reader

    found = read_line(line, Known(ledger.snapshot()), moment_reader(ledger.now(), ledger.home_zone()))
    if found.wish is None:
        raise BadWish((("TEXT", f"{found.plainly}. {TO_NOTE}"),))
    return found.wish, found.at


def _free(ledger: Ledger, given: dict[str, str | None]) -> AddNote:
    return AddNote(**values_of(ledger, fields_of(AddNote), given))
