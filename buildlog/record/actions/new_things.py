"""What a new thing gets where nothing was typed: its build, and the next free code."""

from typing import Any

from sqlmodel import col

from buildlog.errors import BadWish
from buildlog.record.actions.places import by_prefix
from buildlog.record.tables.builds import Build
from buildlog.record.writer import Work
from buildlog.terms import BuildState


def build_named(work: Work, code: str | None) -> Build:
    """The build of that code, without one the only open build; BadWish names them where there are several."""
    if code is not None:
        return by_prefix(work, Build, code, "build")
    live = work.all(Build, Build.state == BuildState.OPEN, col(Build.retired_at).is_(None))
    if len(live) != 1:
        raise BadWish((("build", f"say which build: {', '.join(build.code for build in live)}"),))
    return live[0]


def next_code(work: Work, table: type[Any], stem: str) -> str:
    """``Q3`` where Q1 and Q2 were ever given."""
    taken = {row.code for row in work.all(table)}
    return next(code for number in range(1, 100_000) if (code := f"{stem}{number}") not in taken)
