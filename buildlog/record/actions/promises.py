"""What was promised to those who supplied or lent something, and keeping it."""

from buildlog.errors import Refused
from buildlog.proposals import promises as wishes
from buildlog.proposals.forms_story import Promise as PromiseForm
from buildlog.record.actions.moments import local
from buildlog.record.actions.new_things import build_named, next_code
from buildlog.record.actions.places import by_prefix
from buildlog.record.actions.storing.by_noun import storing_of
from buildlog.record.tables.story import Promise
from buildlog.record.writer import Work


def make_promise(wish: wishes.MakePromise, work: Work) -> str:
    form = PromiseForm(
        code=wish.code or next_code(work, Promise, "PR"),
        build=build_named(work, wish.build).code,
        who=wish.who,
        supplied=wish.supplied,
        promised=wish.promised,
        due=wish.due,
    )
    storing_of("promise", work).add(form)
    gave = f" for {wish.supplied}" if wish.supplied else ""
    return f"Wrote down {form.code}, {wish.who} is promised {wish.promised}{gave}."


def keep_promise(wish: wishes.KeepPromise, work: Work) -> str:
    promise = by_prefix(work, Promise, wish.promise, "promise")
    if promise.kept_at is not None:
        raise Refused(f"{promise.code} is kept since {local(work, promise.kept_at)}: undo that to say it anew.")
    if work.at < promise.promised_at:
        raise Refused(f"{promise.code} was made only at {local(work, promise.promised_at)}: keep it after that.")
    work.change(promise, kept_at=work.at)
    return f"Kept {promise.code}: {promise.promised}, to {promise.who}."
