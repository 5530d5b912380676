"""The week's text in Markdown: the same record, moment and words give the same bytes."""

from buildlog.errors import Refused
from buildlog.facts.builds import Build, Episode
from buildlog.facts.snapshot import Snapshot
from buildlog.report.done import what_was_done
from buildlog.report.period import Period, episodes_of, period_of
from buildlog.report.standing import bullets, standing
from buildlog.report.table import escape
from buildlog.status.figures import Said, figures_in
from buildlog.status.status import Status
from buildlog.terms import BuildState
from buildlog.wording import count, day_and_clock, grams, hours


def build_named(snapshot: Snapshot, code: str | None) -> Build:
    """The build of that code, or the only open one; of several the first in rank."""
    live = [b for b in snapshot.builds if b.retired_at is None]
    if code is not None:
        found = [b for b in live if b.code == code.strip().upper()]
        if not found:
            raise Refused(f"There is no build «{code}»; there is {', '.join(b.code for b in live) or 'none yet'}.")
        return found[0]
    ranked = sorted(
        (b for b in live if b.state is BuildState.OPEN), key=lambda b: (b.rank is None, b.rank or 0, b.id)
    )
    if not ranked:
        raise Refused("There is no open build yet: `buildlog add build CODE NAME` makes one.")
    return ranked[0]


def week_text(status: Status, code: str | None = None, of: str | None = None) -> str:
    """The text of a build's running episode, or of the named one or week; ends with a line break."""
    snapshot = status.snapshot
    build = build_named(snapshot, code)
    period = period_of(snapshot, build, status.now, of)
    parts = [f"# {escape(build.name)}, {escape(period.title)}", *_told(status, build, period)]
    episode = period.episode
    if episode is not None and episode.closed_at is not None and episode.document:
        closed = day_and_clock(episode.closed_at, snapshot.settings.home_zone)
        parts += [f"## How it stood when it was closed, {closed}", episode.document]
    elif period.until < status.now and not _filmed_last(status, build, episode):
        parts.append("_How it stood then was not kept: that is saved when an episode is closed here._")
    else:
        parts += [
            f"## How it stands, {day_and_clock(status.now, snapshot.settings.home_zone)}",
            standing(status, build),
        ]
    return "\n\n".join(parts) + "\n"


def _filmed_last(status: Status, build: Build, episode: Episode | None) -> bool:
    """Whether no later episode has been filmed: how it stands now is what is told of an episode not closed yet."""
    filmed = [e for e in episodes_of(status.snapshot, build.id) if e.films_at <= status.now]
    return episode is not None and episode.closed_at is None and filmed[-1:] == [episode]


def _told(status: Status, build: Build, period: Period) -> list[str]:
    """Figures and deeds, from dated facts."""
    snapshot = status.snapshot
    windows = ((period.since, period.until), (None, period.until))
    now, ever = figures_in(snapshot, {build.id: windows})[build.id]
    parts = ["## Figures to say", _figures("This episode" if period.episode else "This week", now)]
    parts.append(_figures("Since the start", ever))
    deeds = what_was_done(snapshot, build.id, period)
    parts.append("## Done")
    if not deeds:
        parts.append("Nothing is on the record.")
    for heading, lines in deeds:
        parts.extend(bullets(heading, lines))
    return parts


def _figures(title: str, found: Said) -> str:
    return (
        f"**{title}:** {hours(found.print_minutes)} of printing, {grams(found.drawn_mg)} of filament, "
        f"{count(found.pieces, 'piece')}, {count(found.prints, 'print')}, {count(found.failures, 'failure')}."
    )
