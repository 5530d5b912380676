"""Takes in what files say: every row as its own wish, and the forms as they were read."""

from collections.abc import Iterable, Iterator

from sqlalchemy.exc import IntegrityError

from buildlog.errors import BadWish, InTheFuture, NotFound, Refused
from buildlog.proposals.field import Field
from buildlog.proposals.file_base import NEVER_READ, base_from
from buildlog.proposals.file_problems import Problems
from buildlog.proposals.files import ReadFiles
from buildlog.proposals.from_file import FromFile, KeptForm
from buildlog.proposals.nouns import Add, key_of, noun_fields
from buildlog.proposals.recorded import form_of_row
from buildlog.record.actions import perform
from buildlog.record.actions.storing.rows import WorkRows, named_row
from buildlog.record.tables.journal import FileRow
from buildlog.record.writer import Work
from buildlog.watching import went_on


def read_files(wish: ReadFiles, work: Work) -> str:
    """Everything, or nothing and all that stands against it: a row that is refused does not hide the next one's."""
    problems = Problems()
    failed: set[str] = set()
    for done, fact in enumerate(wish.facts):
        went_on(done, len(wish.facts))
        try:
            with work.session.begin_nested():
                _take(fact, work)
        except (Refused, IntegrityError) as error:
            follows = isinstance(error, NotFound) and error.code in failed  # from one that is told already
            if not follows:
                for place in _told(fact, error):
                    problems.add(fact.source, *place)
            failed |= _codes(fact)
    problems.raise_if_any()
    _keep(wish.kept, work)
    return wish.summary


def _take(fact: FromFile, work: Work) -> None:
    if fact.at is not None and fact.at > work.recorded_at:
        raise InTheFuture(fact.at)
    perform(fact.wish, Work(work.session, fact.at or work.at, work.recorded_at))


def _codes(fact: FromFile) -> set[str]:
    """What does not come to be when the fact is refused."""
    return {key_of(fact.wish.form)} if isinstance(fact.wish, Add) else set()


def _told(fact: FromFile, error: Exception) -> Iterator[tuple[int, str, str]]:
    """(line, heading, message) of everything that stands against the fact."""
    if isinstance(error, BadWish):
        places = {name: (line, heading) for name, heading, line in fact.columns}
        yield from ((*places.get(name, (fact.line, name)), message) for name, message in error.problems)
    elif isinstance(error, IntegrityError):
        yield fact.line, "", f"the record does not allow this: {error.orig}"
    else:
        yield fact.line, "", str(error)


def _keep(all_kept: Iterable[KeptForm], work: Work) -> None:
    known = {(row.noun, row.key): row for row in work.all(FileRow)}
    for kept in all_kept:
        row = known.get((kept.noun, kept.key))
        given = dict(kept.given)
        base = base_from(row.form) if row is not None else NEVER_READ
        form = base.renewed(given, _held(kept, given, work)).to_text()
        if row is None:
            work.add(FileRow(noun=kept.noun, key=kept.key, form=form, read_at=work.recorded_at, source=kept.source))
        elif (row.form, row.source) != (form, kept.source):
            work.change(row, form=form, source=kept.source, read_at=work.recorded_at)


def _held(kept: KeptForm, given: dict[str, str], work: Work) -> dict[str, str]:
    """What the ledger holds in these fields, after all facts of the files."""
    if not kept.in_ledger:
        return {}
    fields: dict[str, Field] = {field.name: field for field in noun_fields(kept.noun)}
    form = form_of_row(WorkRows(work), kept.noun, named_row(work, kept.noun, kept.key, live=True))
    return {name: fields[name].show(getattr(form, name)) for name in given if name in fields}
