"""``buildlog catch-up``: what should have happened since the last entry, and the answer to one of it."""

from typing import Annotated, Any

import typer

from buildlog.commands.from_fields import AT_HELP, at_of
from buildlog.commands.questions import AsJson, show
from buildlog.commands.recording import record
from buildlog.commands.session import open_ledger, say, status_of
from buildlog.errors import BadWish
from buildlog.ledger import Ledger
from buildlog.proposals.field import Field, fields_of
from buildlog.proposals.moments import moment_reader
from buildlog.proposals.nouns import values_from_texts
from buildlog.report.answers.catch_up import as_plain, what_should_have_happened
from buildlog.report.table import to_json
from buildlog.status.catch_up import LOOKS_BACK, catch_up, last_entry_before
from buildlog.status.due import Answer, Asking, Due

HOW = "as-planned, failed, not-done or later."
AT = AT_HELP.replace("Left out: now", "Left out: as proposed")
FIELDS = "What the answer asks, as cause=warped, went_wrong='Tue 22:10'; a wrong name lists them."


def catching_up(
    number: Annotated[int | None, typer.Argument(help="Which one to answer; left out: list all.")] = None,
    answer: Annotated[str | None, typer.Argument(help=HOW)] = None,
    fields: Annotated[list[str] | None, typer.Argument(metavar="[FIELD=VALUE]...", help=FIELDS)] = None,
    at: Annotated[str | None, typer.Option("--at", help=AT, metavar="WHEN")] = None,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Show what would be written, write nothing.")] = False,
    as_json: AsJson = False,
) -> None:
    """What should have happened since the last entry, numbered; with a number and an answer, record it."""
    with open_ledger() as ledger:
        status = status_of(ledger)
        dues = catch_up(status, last_entry_before(ledger.journal(LOOKS_BACK), status.now))
        if number is not None:
            _answer(ledger, _one_of(dues, number), _meant(answer), fields or [], at, dry_run)
        elif as_json:
            typer.echo(to_json({"catch_up": as_plain(dues)}))
        else:
            show((what_should_have_happened(dues),), False)


def _answer(ledger: Ledger, due: Due, answer: Answer, texts: list[str], at: str | None, dry_run: bool) -> None:
    reply = due.reply(answer)
    if reply.asking is None:
        say(f"{due.where}, {due.what}: {reply.words}. Nothing was recorded.")
        return
    wish = reply.asking.filled(_values(ledger, reply.asking, texts))
    record(ledger, wish, at_of(ledger, at) or reply.asking.at, dry_run)


def _values(ledger: Ledger, asking: Asking, texts: list[str]) -> dict[str, Any]:
    """What was typed for the fields that the answer asks; what it knows already stands in for the rest."""
    asked = {field.name: field for field in fields_of(asking.kind) if field.name in asking.asks}
    given = dict(_named(asked, text) for text in texts)
    wanted = tuple(field for field in asked.values() if field.name in given or field.name not in asking.values)
    values, problems = values_from_texts(wanted, given, moment_reader(ledger.now(), ledger.home_zone()))
    if problems:
        raise BadWish(problems)
    return values


def _named(asked: dict[str, Field], text: str) -> tuple[str, str]:
    name, equals, value = text.partition("=")
    name = name.strip().replace("-", "_")
    if not equals or name not in asked:
        known = ", ".join(f"{name}=… ({field.label})" for name, field in asked.items())
        raise BadWish(((text, f"write {known}" if known else "this answer asks nothing more"),))
    return name, value


def _one_of(dues: tuple[Due, ...], number: int) -> Due:
    if not 1 <= number <= len(dues):
        known = f"1 to {len(dues)}" if dues else "nothing waits for an answer"
        raise BadWish((("NUMBER", f"there is no {number}: {known}"),))
    return dues[number - 1]


def _meant(text: str | None) -> Answer:
    wanted = (text or "").strip().lower().replace("-", " ").replace("_", " ")
    if wanted not in tuple(Answer):
        raise BadWish((("ANSWER", f"say {HOW.removesuffix('.')}"),))
    return Answer(wanted)
