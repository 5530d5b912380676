"""Parcels and spools to catch up with."""

from collections.abc import Iterator

from buildlog.proposals.orders import ExpectOrder, ReceiveOrder
from buildlog.proposals.spools import EmptySpool, WeighSpool
from buildlog.status.blocker import Thing
from buildlog.status.due import Asking, Due, DueKind, Reply, in_words
from buildlog.status.on_order import OnOrder, on_order, what_is_due
from buildlog.status.status import Status
from buildlog.terms import Moment, SpoolEntryKind, later
from buildlog.wording import count, day, grams

EXPECT_DAYS = 3
"""Our choice: what has not come by its day is proposed for so many days from now."""


def due_parcels(status: Status) -> Iterator[Due]:
    """Orders that should have come, oldest first."""
    snapshot = status.snapshot
    zone = snapshot.settings.home_zone
    lines: dict[int, list[OnOrder]] = {}
    for line in on_order(snapshot, status.now):
        if line.due_at <= status.now:
            lines.setdefault(line.order_id, []).append(line)
    for order in sorted((o for o in snapshot.orders if o.id in lines), key=lambda o: (o.expected_at, o.id)):
        values = {"order": order.code}
        some = Asking(ReceiveOrder, values, ("lines", "box"), order.expected_at)
        again = values | {"expected": later(status.now, EXPECT_DAYS * 24 * 60)}
        yield Due(
            key=f"order:{order.id}",
            kind=DueKind.PARCEL,
            about=Thing("order", order.id, order.code),
            where=order.code,
            what=", ".join(what_is_due(snapshot, line) for line in lines[order.id]),
            told=f"due {day(order.expected_at, zone)}",
            due_at=order.expected_at,
            as_planned=Reply("all of it came", Asking(ReceiveOrder, values, (), order.expected_at)),
            failed=Reply("only some: what", some),
            not_done=Reply("not here: until when", Asking(ExpectOrder, again, ("expected",), dates="")),
            whole=some,
        )


def due_weighings(status: Status, since: Moment) -> Iterator[Due]:
    """Spools that fed prints which ended since, and that nobody has weighed after that."""
    snapshot, now = status.snapshot, status.now
    fed: dict[int, list[Moment]] = {}
    for feed in snapshot.feeds:
        if feed.spool_id is not None and feed.to_at is not None and since < feed.to_at <= now:
            fed.setdefault(feed.spool_id, []).append(feed.to_at)
    told = (
        entry for entry in snapshot.spool_entries if entry.kind in (SpoolEntryKind.WEIGHED, SpoolEntryKind.EMPTIED)
    )
    weighed = {entry.spool_id: entry.at for entry in sorted(told, key=lambda entry: entry.at)}
    for spool in snapshot.spools:
        ends, state = fed.get(spool.id), status.accounts.spools[spool.id]
        if not ends or not state.usable or weighed.get(spool.id, "") >= max(ends):
            continue
        values = {"spool": spool.code}
        yield Due(
            key=f"spool:{spool.id}",
            kind=DueKind.SPOOL,
            about=Thing("spool", spool.id, spool.code),
            where=spool.code,
            what=f"{grams(state.net_mg)} ± {grams(state.pm_mg)} by the book",
            told=f"not weighed after {count(len(ends), 'print')}, {in_words(status, max(ends))}",
            due_at=max(ends),
            as_planned=Reply("weigh it", Asking(WeighSpool, values, ("gross",))),
            failed=Reply("used up", Asking(EmptySpool, values, ("reel",), max(ends))),
            not_done=Reply("not weighed"),
            whole=Asking(WeighSpool, values, ("gross", "cause")),
        )
