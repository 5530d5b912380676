"""What a printer is set up with at a moment, read from its dated facts, and loading as one consistent step."""

from collections.abc import Iterable

from sqlmodel import col

from buildlog.errors import BadWish, Refused
from buildlog.record.actions.feeds import feed_from_head, feed_of_spool
from buildlog.record.actions.jobs import job_of, label
from buildlog.record.actions.moments import local
from buildlog.record.actions.spool_state import open_if_sealed, refuse_unusable
from buildlog.record.tables.printing import Printer, SetUp
from buildlog.record.tables.stock import Spool
from buildlog.record.writer import Work
from buildlog.terms import Moment, SetUpKind

LOADING = (SetUpKind.LOADED, SetUpKind.UNLOADED)
UP_OR_DOWN = (SetUpKind.DOWN, SetUpKind.UP)


def refuse_head(printer: Printer, head: int) -> None:
    if head > printer.heads:
        raise BadWish((("head", f"{printer.code} has {printer.heads}, no head {head}"),))


def latest(facts: Iterable[SetUp], at: str) -> SetUp | None:
    """The last of the facts at or before a moment."""
    before = [fact for fact in facts if fact.at <= at]
    return max(before, key=lambda fact: (fact.at, fact.id or 0), default=None)


def head_facts(work: Work, printer: Printer, head: int, *kinds: SetUpKind) -> list[SetUp]:
    return work.all(SetUp, col(SetUp.kind).in_(kinds), printer_id=printer.id, head=head)


def nozzle_um(work: Work, printer: Printer, head: int, at: str) -> int | None:
    """The nozzle of a head, None before the first fact about it."""
    fact = latest(head_facts(work, printer, head, SetUpKind.NOZZLE), at)
    return fact.nozzle_um if fact else None


def loaded_spool(work: Work, printer: Printer, head: int, at: str) -> Spool | None:
    fact = latest(head_facts(work, printer, head, *LOADING), at)
    return work.get(Spool, fact.spool_id) if fact and fact.kind is SetUpKind.LOADED else None


def down_since(work: Work, printer: Printer, at: str) -> SetUp | None:
    """The fact that the printer is down at a moment; None when it is up."""
    facts = work.all(SetUp, col(SetUp.kind).in_(UP_OR_DOWN), printer_id=printer.id)
    fact = latest(facts, at)
    return fact if fact and fact.kind is SetUpKind.DOWN else None


def places_of(work: Work, spool: Spool, at: str) -> list[tuple[Printer, int]]:
    """Where the spool is loaded at a moment: (printer, head)."""
    loads = work.all(SetUp, spool_id=spool.id, kind=SetUpKind.LOADED)
    heads = sorted({(load.printer_id, load.head) for load in loads if load.at <= at})
    places = [(work.get(Printer, printer_id), head) for printer_id, head in heads]
    return [place for place in places if (there := loaded_spool(work, *place, at)) and there.id == spool.id]


def load(work: Work, printer: Printer, head: int, spool: Spool, at: Moment) -> list[str]:
    """Load the spool, unloading it elsewhere and opening it if sealed; returns what was done beside that."""
    refuse_head(printer, head)
    refuse_unusable(work, spool, at)
    _refuse_contradicted(work, printer, head, spool, at)
    beside = []
    already = False
    for other, other_head in places_of(work, spool, at):
        if (other.id, other_head) == (printer.id, head):
            already = True
            continue
        unload(work, other, other_head, spool, at)
        beside.append(f"unloaded from {other.code} head {other_head}")
    if open_if_sealed(work, spool, at):
        beside.append("opened")
    if not already:
        _add(work, printer, head, spool, SetUpKind.LOADED, at)
        _end_at_next_load(work, printer, head, spool, at)
    return beside


def unload(work: Work, printer: Printer, head: int, spool: Spool, at: Moment) -> None:
    _add(work, printer, head, spool, SetUpKind.UNLOADED, at)


def _add(work: Work, printer: Printer, head: int, spool: Spool, kind: SetUpKind, at: Moment) -> None:
    assert printer.id is not None
    work.add(SetUp(printer_id=printer.id, at=at, kind=kind, head=head, spool_id=spool.id))


def _refuse_contradicted(work: Work, printer: Printer, head: int, spool: Spool, at: Moment) -> None:
    """A print draws from the spool elsewhere, or from another spool on this head, at that moment."""
    feed = feed_of_spool(work, spool, at)
    if feed is not None:
        job = job_of(work, feed.job_id)
        if (job.printer_id, feed.head) != (printer.id, head):
            raise Refused(f"{spool.code} feeds {label(job)} at that time: swap or finish there first.")
    feed = feed_from_head(work, printer, head, at)
    if feed is not None and feed.spool_id != spool.id:
        job = job_of(work, feed.job_id)
        raise Refused(
            f"Head {head} of {printer.code} feeds {label(job)} at that time: swap the spool of that print, "
            "or finish it first."
        )


def _end_at_next_load(work: Work, printer: Printer, head: int, spool: Spool, at: Moment) -> None:
    """A late fact: where the spool was loaded elsewhere afterwards, it left this head by then."""
    here = sorted(fact.at for fact in head_facts(work, printer, head, *LOADING) if fact.at > at)
    loads = work.all(SetUp, spool_id=spool.id, kind=SetUpKind.LOADED)
    elsewhere = sorted(
        load.at for load in loads if load.at > at and (load.printer_id, load.head) != (printer.id, head)
    )
    if elsewhere and (not here or elsewhere[0] < here[0]):
        unload(work, printer, head, spool, Moment(elsewhere[0]))


def refuse_down(work: Work, printer: Printer, at: Moment) -> None:
    """Refuse while the printer is down; where the time until which it should be down is over, it is up again."""
    fact = down_since(work, printer, at)
    if fact is None:
        return
    if fact.until_at is None or fact.until_at > at:
        why = f" ({fact.text})" if fact.text else ""
        raise Refused(f"{printer.code} is down since {local(work, fact.at)}{why}: say that it is up again first.")
    assert printer.id is not None
    work.add(SetUp(printer_id=printer.id, at=at, kind=SetUpKind.UP))
