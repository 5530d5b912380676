"""How long a spool has lain open to the air, and whether that is too long for its material."""

from buildlog.facts.frozen import frozen
from buildlog.facts.reference_data import Reference
from buildlog.facts.stock import Material
from buildlog.status.spool_draws import AFTER_ALL, SpoolFacts
from buildlog.terms import Moment, SpoolEntryKind, minutes_between


@frozen
class OpenTime:
    """``opened_at`` is when it was opened last, None as long as it is sealed; ``minutes`` is the time open since it
    was last dried (or first opened), the time sealed in between left out.
    """

    opened_at: Moment | None
    sealed: bool
    dried_at: Moment | None
    minutes: int


def open_time(facts: SpoolFacts, now: Moment, found_used_at: Moment = AFTER_ALL) -> OpenTime:
    """A spool that was printed from, or found used, without being told to be opened is open since then."""
    events = sorted(facts.handled, key=lambda e: (e.at, e.id))
    opened = next((e.at for e in events if e.kind is SpoolEntryKind.OPENED), AFTER_ALL)
    opened = min(opened, facts.first_draw_at, found_used_at)
    if opened == AFTER_ALL:
        return OpenTime(None, True, _last_dried(facts), 0)
    since: Moment | None = opened
    dried_at: Moment | None = None
    minutes = 0
    for event in events:
        if event.at < opened:
            continue
        if event.kind is SpoolEntryKind.OPENED:
            since = since or event.at
        elif event.kind is SpoolEntryKind.SEALED:
            minutes += minutes_between(since, event.at) if since else 0
            since = None
        elif event.kind is SpoolEntryKind.DRIED:
            minutes, dried_at = 0, event.at
            since = event.at if since else None
    if since is not None:
        minutes += minutes_between(since, now)
    return OpenTime(since, since is None, dried_at or _last_dried(facts), minutes)


def is_wet(material: Material, open_minutes: int, reference: Reference) -> bool:
    """Open for longer than its material bears; the person's figure, else that of the polymer; never where neither
    is known.
    """
    bears = material.open_minutes
    if bears is None and material.polymer in reference.polymers:
        bears = reference.polymers[material.polymer].open_minutes.whole
    return bears is not None and open_minutes > bears


def _last_dried(facts: SpoolFacts) -> Moment | None:
    return max((e.at for e in facts.handled if e.kind is SpoolEntryKind.DRIED), default=None)
