"""The one Status that screens, report and commands show, and the order in which it is computed."""

from dataclasses import dataclass

from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts, settle
from buildlog.status.alerts import Alert, alerts
from buildlog.status.blockers import Blockers, find_blockers
from buildlog.status.cost import Cost, reckon_cost
from buildlog.status.doable import Doable, what_can_be_done
from buildlog.status.figures import Figures, figures_to_say
from buildlog.status.fits import Fits, judge_fits
from buildlog.status.fits_lying import with_pieces_lying_there
from buildlog.status.hours import Hours, count_hours
from buildlog.status.learning import Learning, learn
from buildlog.status.machines import Machines, look_at_machines
from buildlog.status.milestones import Outlook, look_ahead
from buildlog.status.needs import Needs, allot
from buildlog.status.progress import Progress, measure_progress
from buildlog.status.sides import Sides, compare_sides
from buildlog.status.stock import Stock, lay_material
from buildlog.status.work import WorkDone, tick_off
from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class Status:
    """What the record means at ``now``. Everything in it is computed from the snapshot alone."""

    now: Moment
    snapshot: Snapshot
    accounts: Accounts
    learning: Learning
    work: WorkDone
    fits: Fits
    needs: Needs
    hours: Hours
    stock: Stock
    sides: Sides
    blockers: Blockers
    progress: Progress
    machines: Machines
    doable: tuple[Doable, ...]
    outlook: Outlook
    cost: Cost
    figures: Figures
    alerts: tuple[Alert, ...]


def take_stock(snapshot: Snapshot, now: Moment) -> Status:
    """Answer every question of the snapshot as of ``now``; quick and pure."""
    accounts = settle(snapshot, now)
    learning = learn(snapshot, now)
    work = tick_off(snapshot, now)
    fits = judge_fits(snapshot, now, work)
    needs = allot(snapshot, now, accounts, work, fits)
    fits = with_pieces_lying_there(snapshot, fits, needs)
    hours = count_hours(snapshot, now, needs, learning)
    stock = lay_material(snapshot, now, accounts, needs, hours)
    sides = compare_sides(snapshot, needs)
    blockers = find_blockers(snapshot, now, accounts, work, fits, needs, hours, stock, sides)
    progress = measure_progress(snapshot, needs, work, fits, hours, blockers)
    machines = look_at_machines(snapshot, now, accounts, needs, hours)
    return Status(
        now=now,
        snapshot=snapshot,
        accounts=accounts,
        learning=learning,
        work=work,
        fits=fits,
        needs=needs,
        hours=hours,
        stock=stock,
        sides=sides,
        blockers=blockers,
        progress=progress,
        machines=machines,
        doable=what_can_be_done(snapshot, now, fits, blockers),
        outlook=look_ahead(snapshot, now, blockers, progress),
        cost=reckon_cost(snapshot, now, accounts, hours, stock),
        figures=figures_to_say(snapshot, now),
        alerts=alerts(snapshot, now, accounts, stock),
    )
