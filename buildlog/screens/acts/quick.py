"""One line in plain words, from any screen."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from buildlog.errors import BuildlogError, MayOverrule
from buildlog.intake.quick.completing import Completion, completions
from buildlog.intake.quick.known import Known
from buildlog.intake.quick.reading import TO_NOTE, TO_OVERRULE, Read, read_line
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.notes import AddNote
from buildlog.screens.acts.named import said_cautions
from buildlog.screens.asking import in_words
from buildlog.screens.dialogs.quick_line import QuickLine, Tried
from buildlog.screens.live import as_forms_say
from buildlog.wording import dated

if TYPE_CHECKING:
    from buildlog.ledger import Ledger
    from buildlog.screens.app import Buildlog
    from buildlog.status.status import Status


async def quick_entry(app: Buildlog) -> None:
    """Ask for a line until it is recorded or left; what is left unrecorded stands there when it is asked again.

    The moment of the line before is offered behind a fact that is whole and tells none.
    """
    status = app.status
    if status is None:
        app.tell("The ledger is still being read: try again in a moment.")
        return
    known = Known(status.snapshot, app.build_id)
    reader = moment_reader(app.ledger.now(), status.snapshot.settings.home_zone)

    async def try_out(read: Read) -> Tried:
        return await asyncio.to_thread(_tried, app.ledger, status, read)

    def offer(text: str) -> tuple[Completion, ...]:
        read = read_line(text, known, reader)
        is_fact = read.wish is not None and not isinstance(read.wish, AddNote)
        again = app.last_said if is_fact and read.at is None else ""
        same = (Completion(f"{text.rstrip()} {again} ", again, "the moment of the line before"),) if again else ()
        return (*same, *completions(text, known, reader))

    left = True
    while True:
        line = QuickLine(
            app.draft,
            lambda text: read_line(text, known, reader),
            offer,
            try_out,
            TO_NOTE,
            typed_over=left,
        )
        typed = await app.push_screen_wait(line)
        app.draft = typed.text if typed is not None else ""
        if typed is None or typed.read is None:
            return
        if await app.record(typed.read.wish, typed.read.at) is not None:
            app.draft = ""
            at = typed.read.at
            app.last_said = f"at {in_words(at, status.snapshot.settings.home_zone)}" if at is not None else ""
            return
        left = False


def _tried(ledger: Ledger, status: Status, read: Read) -> Tried:
    """What recording it would say: carried out, and rolled back."""
    from buildlog.status.completing import completed
    from buildlog.status.said_before import cautions_of

    caution = said_cautions(status, cautions_of(read.wish, status))
    try:
        outcome = ledger.record(completed(read.wish, status, read.at), read.at, dry_run=True)
    except MayOverrule as error:
        return Tried(f"{error.message} {TO_OVERRULE}", True, caution)
    except BuildlogError as error:
        return Tried(" ".join(as_forms_say(error, [read.wish])), True, caution)
    said = read.plainly if isinstance(read.wish, AddNote) else " ".join(outcome.sentences)
    when = f"{dated(read.at, status.now, status.snapshot.settings.home_zone)}: " if read.at is not None else ""
    return Tried(f"{when}{said}", False, caution)
