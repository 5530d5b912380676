"""The one Status that screens, report and commands show, and the order in which it is computed."""

from dataclasses import dataclass
from functools import cached_property

from buildlog.facts.collection import no_collection
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


@dataclass(frozen=True)
class Status:
    """What the record means at ``now``. Everything in it is computed from the snapshot alone.

    What blockers rest on is there from the start; what no blocker asks for is answered when it is first looked at,
    from the same frozen things, and kept.
    """

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

    @cached_property
    def progress(self) -> Progress:
        return measure_progress(self.snapshot, self.needs, self.work, self.fits, self.hours, self.blockers)

    @cached_property
    def machines(self) -> Machines:
        return look_at_machines(self.snapshot, self.now, self.accounts, self.needs, self.hours)

    @cached_property
    def doable(self) -> tuple[Doable, ...]:
        return what_can_be_done(self.snapshot, self.now, self.fits, self.blockers)

    @cached_property
    def outlook(self) -> Outlook:
        return look_ahead(self.snapshot, self.now, self.blockers, self.progress)

    @cached_property
    def cost(self) -> Cost:
        return reckon_cost(self.snapshot, self.now, self.accounts, self.hours, self.stock)

    @cached_property
    def figures(self) -> Figures:
        return figures_to_say(self.snapshot, self.now)

    @cached_property
    def alerts(self) -> tuple[Alert, ...]:
        return alerts(self.snapshot, self.now, self.accounts, self.stock)


def take_stock(snapshot: Snapshot, now: Moment) -> Status:
    """Answer every question of the snapshot as of ``now``; quick and pure."""
    with no_collection():
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
    return Status(now, snapshot, accounts, learning, work, fits, needs, hours, stock, sides, blockers)
