"""The one Status that screens, report and commands show, and the order in which it is computed."""

from dataclasses import field
from functools import cached_property
from typing import TYPE_CHECKING

from buildlog.facts.collection import no_collection
from buildlog.facts.frozen import frozen_with_late_answers
from buildlog.facts.snapshot import Snapshot
from buildlog.status.accounts import Accounts, settle
from buildlog.status.alerts import Alert, alerts
from buildlog.status.blockers import Blockers, find_blockers
from buildlog.status.doable import Doable, what_can_be_done
from buildlog.status.fits import Fits, judge_fits
from buildlog.status.fits_lying import with_pieces_lying_there
from buildlog.status.hours import Hours, count_hours
from buildlog.status.kept import Kept
from buildlog.status.learning import Learning, learn
from buildlog.status.machines import Machines, look_at_machines
from buildlog.status.milestones import Outlook, look_ahead
from buildlog.status.needs import Needs, allot
from buildlog.status.progress import Progress, measure_progress
from buildlog.status.sides import Sides, compare_sides
from buildlog.status.stock import Stock, lay_material
from buildlog.status.work import WorkDone, tick_off
from buildlog.terms import Moment

if TYPE_CHECKING:
    from buildlog.status.cost import Cost
    from buildlog.status.figures import Figures


@frozen_with_late_answers
class Status:
    """What the record means at ``now``. Everything in it is computed from the snapshot alone.

    What blockers rest on is there from the start; what no blocker asks for is answered when it is first looked at,
    from the same frozen things, and kept.
    """

    __repr__ = object.__repr__  # who writes down a fault with all that is at hand would write for minutes

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
    kept: Kept = field(compare=False, repr=False)

    @cached_property
    def progress(self) -> Progress:
        blockers = self.blockers
        own = {position_id: len(leaves) for position_id, leaves in blockers.leaves.items()}
        own = self.kept.ask("leaves counted", (), (own,), lambda: own)
        told = (own, blockers.beneath, blockers.minutes_beneath, blockers.children)
        rests_on = (self.needs, self.work, self.fits, self.hours.pieces, *told)
        return self.kept.ask("progress", PROGRESS_READ, rests_on, self._progress)

    def _progress(self) -> Progress:
        return measure_progress(self.snapshot, self.needs, self.work, self.fits, self.hours, self.blockers)

    @cached_property
    def machines(self) -> Machines:
        return look_at_machines(self.snapshot, self.now, self.accounts, self.needs, self.hours)

    @cached_property
    def doable(self) -> tuple[Doable, ...]:
        return what_can_be_done(self.snapshot, self.now, self.fits, self.blockers, self.kept)

    @cached_property
    def outlook(self) -> Outlook:
        return look_ahead(self.snapshot, self.now, self.work, self.blockers, self.progress)

    @cached_property
    def cost(self) -> "Cost":
        from buildlog.status.cost import reckon_cost  # Today does without, and every start would load it

        return reckon_cost(self.snapshot, self.now, self.accounts, self.hours, self.stock)

    @cached_property
    def figures(self) -> "Figures":
        from buildlog.status.figures import figures_to_say

        return figures_to_say(self.snapshot, self.now)

    @cached_property
    def alerts(self) -> tuple[Alert, ...]:
        return alerts(self.snapshot, self.now, self.accounts, self.stock)


PROGRESS_READ = ("builds", "assemblies", "positions", "usages", "lots", "parts", "revisions", "steps")
WORK_READ = ("positions", "steps", "steps_done", "resources", "lots", "parts")
FITS_READ = (
    "assemblies", "positions", "parts", "usages", "lots", "fittings", "fit_tests", "fit_test_usages", "fit_results",
    "fit_touches", "steps",
)  # fmt: skip
NEEDS_READ = (
    "builds", "assemblies", "positions", "parts", "revisions", "usages", "lots", "fittings", "damages", "jobs",
    "job_lines", "bought_items", "steps",
)  # fmt: skip
SIDES_READ = ("assemblies", "positions", "parts", "revisions", "usages", "lots", "steps")


def take_stock(snapshot: Snapshot, now: Moment, before: Status | None = None) -> Status:
    """Answer every question of the snapshot as of ``now``; quick and pure. What the Status ``before`` has answered
    from the same facts is taken over; the answers are the same with it and without.
    """
    kept = Kept(snapshot, now, before.kept if before else None)
    with no_collection():
        accounts = settle(snapshot, now, kept)
        learning = learn(snapshot, now, kept)
        work = kept.ask("work", WORK_READ, (), lambda: tick_off(snapshot, now), moves=True)
        fits = kept.ask("fits", FITS_READ, (work,), lambda: judge_fits(snapshot, now, work))
        needs = kept.ask(
            "needs",
            NEEDS_READ,
            (accounts.lots, accounts.bought, work, fits),
            lambda: allot(snapshot, now, accounts, work, fits),
        )
        lying = kept.ask(
            "fits lying", FITS_LYING_READ, (fits, needs), lambda: with_pieces_lying_there(snapshot, fits, needs)
        )
        hours = count_hours(snapshot, now, needs, learning, kept)
        stock = lay_material(snapshot, now, accounts, needs, hours, kept)
        sides = kept.ask("sides", SIDES_READ, (needs,), lambda: compare_sides(snapshot, needs))
        blockers = find_blockers(snapshot, now, accounts, work, lying, needs, hours, stock, sides, kept)
    return Status(now, snapshot, accounts, learning, work, lying, needs, hours, stock, sides, blockers, kept)


FITS_LYING_READ = ("usages", "lots", "steps", "fit_tests")
