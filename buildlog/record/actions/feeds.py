"""The feeds of a print: which spool a head draws from, from when to when, and how many grams."""

from sqlmodel import col

from buildlog.errors import BadWish, Refused
from buildlog.record.actions.jobs import NEVER, due_at, job_of, label
from buildlog.record.actions.moments import local
from buildlog.record.tables.printing import Feed, Job, Printer
from buildlog.record.tables.stock import Material, Spool
from buildlog.record.writer import Work
from buildlog.terms import FigureOrigin, Moment, when
from buildlog.wording import grams


def heads_of(work: Work, job: Job) -> dict[int, list[Feed]]:
    """The feeds of a print by head, each in the order of time."""
    heads: dict[int, list[Feed]] = {}
    for feed in sorted(work.all(Feed, job_id=job.id), key=lambda f: (f.head, f.from_at or "", f.id)):
        heads.setdefault(feed.head, []).append(feed)
    return heads


def estimate_mg(feed: Feed) -> int:
    return feed.part_mg + feed.support_mg + feed.purge_mg


def matches(feed: Feed, material: Material) -> bool:
    """Whether the material is what the head asks for."""
    if feed.material_id is not None:
        return feed.material_id == material.id
    return feed.polymer is None or feed.polymer == material.polymer


def asked(work: Work, feed: Feed) -> str:
    return work.get(Material, feed.material_id).code if feed.material_id else f"any {feed.polymer}"


def _at(feeds: list[Feed], at: str) -> Feed | None:
    return next((f for f in feeds if f.from_at and f.from_at <= at < (f.to_at or NEVER)), None)


def feed_of_spool(work: Work, spool: Spool, at: str) -> Feed | None:
    """The feed that draws from the spool at a moment."""
    return _at(work.all(Feed, spool_id=spool.id), at)


def feed_from_head(work: Work, printer: Printer, head: int, at: str) -> Feed | None:
    """The feed of that head of the printer at a moment."""
    jobs = [job.id for job in work.all(Job, printer_id=printer.id)]
    return _at(work.all(Feed, col(Feed.job_id).in_(jobs), head=head), at)


def refuse_spool_busy(work: Work, spool: Spool, start: str, end: str | None, feed_id: int | None) -> None:
    """A spool feeds one head at a time."""
    for other in work.all(Feed, col(Feed.from_at).is_not(None), spool_id=spool.id):
        assert other.from_at is not None
        if other.id != feed_id and start < (other.to_at or NEVER) and other.from_at < (end or NEVER):
            until = f"to {local(work, other.to_at)}" if other.to_at else "until now"
            raise Refused(
                f"{spool.code} fed {label(job_of(work, other.job_id))} from {local(work, other.from_at)} {until}: "
                "a spool feeds one head at a time. Name the spool that was used."
            )


def shares(total: int, weights: list[int]) -> list[int]:
    """total in whole parts in proportion to weights (all to the last when they are nothing), sum kept."""
    whole = sum(weights)
    if whole == 0:
        return [0] * (len(weights) - 1) + [total]
    parts, given = [], 0
    for index in range(len(weights)):
        upto = total * sum(weights[: index + 1]) // whole
        parts.append(upto - given)
        given = upto
    return parts


def _seconds(start: str, end: str) -> int:
    return max(0, round((when(Moment(end)) - when(Moment(start))).total_seconds()))


def split(work: Work, feed: Feed, at: Moment, spool: Spool, typed_mg: int | None) -> Feed:
    """End the feed at a moment and let another spool go on; grams are parted by time, or as typed."""
    job = job_of(work, feed.job_id)
    assert feed.from_at is not None
    until = feed.to_at or max(due_at(job), at)
    whole = feed.real_mg if feed.real_mg is not None else estimate_mg(feed)
    if typed_mg is None:
        before, after = shares(whole, [_seconds(feed.from_at, at), _seconds(at, until)])
    else:
        before, after = typed_mg, max(0, whole - typed_mg)
        if feed.real_mg is not None and typed_mg > whole:
            raise BadWish((("grams", f"the print drew {grams(whole)} there in all: correct that first"),))
    planned = [shares(mg, [before, after]) for mg in (feed.part_mg, feed.support_mg, feed.purge_mg)]
    origin = FigureOrigin.TYPED if typed_mg is not None else feed.real_from or FigureOrigin.ESTIMATE
    rest = Feed(
        job_id=feed.job_id,
        head=feed.head,
        material_id=feed.material_id,
        polymer=feed.polymer,
        spool_id=spool.id,
        from_at=at,
        to_at=feed.to_at,
        part_mg=planned[0][1],
        support_mg=planned[1][1],
        purge_mg=planned[2][1],
        real_mg=None if feed.real_mg is None else after,
        real_from=feed.real_from,
    )
    work.change(
        feed,
        to_at=at,
        part_mg=planned[0][0],
        support_mg=planned[1][0],
        purge_mg=planned[2][0],
        real_mg=before,
        real_from=origin,
    )
    return work.add(rest)


def settle(
    work: Work,
    feeds: list[Feed],
    total_mg: int | None,
    origin: FigureOrigin,
    laid: tuple[int, int] = (1, 1),
) -> None:
    """Give the ended feeds of one head their real grams: ``total_mg``, or the ``laid`` share of the estimate.

    What a swap of spools typed stays; the rest is shared by time.
    """
    known = [f for f in feeds if f.real_from not in (None, FigureOrigin.ESTIMATE)]
    open_ones = [f for f in feeds if f not in known]
    if not open_ones:
        return
    known_mg = sum(f.real_mg or 0 for f in known)
    if total_mg is None:
        rest, origin = sum(map(estimate_mg, feeds)) * laid[0] // laid[1] - known_mg, FigureOrigin.ESTIMATE
    else:
        rest = total_mg - known_mg
        if rest < 0:
            raise BadWish((("grams", f"{grams(known_mg)} were drawn before the spool was swapped"),))
    seconds = [_seconds(f.from_at or "", f.to_at or "") for f in open_ones]
    for feed, real in zip(open_ones, shares(max(0, rest), seconds), strict=True):
        work.change(feed, real_mg=real, real_from=origin)


def correct(work: Work, feeds: list[Feed], total_mg: int, origin: FigureOrigin) -> None:
    """New grams of a head that has ended: the last spool takes the difference, or all in proportion."""
    earlier = [f.real_mg or 0 for f in feeds[:-1]]
    rest = total_mg - sum(earlier)
    reals = [*earlier, rest] if rest >= 0 else shares(total_mg, [f.real_mg or 0 for f in feeds])
    for feed, real in zip(feeds, reals, strict=True):
        work.change(feed, real_mg=real, real_from=origin)
