"""Hands usages of a part over to its successor, with what stands in their slots."""

from buildlog.errors import Refused
from buildlog.record.actions.places import slot_name
from buildlog.record.tables.bench import FitTestUsage
from buildlog.record.tables.pieces import Fitting
from buildlog.record.tables.stock import BoughtEntry
from buildlog.record.tables.tree import Part, Usage
from buildlog.record.writer import Work


def refuse_misfit(part: Part, successor: Part) -> None:
    """A successor is another part of the build, handed alike, and no part is superseded twice."""
    if part.id == successor.id or successor.superseded_by_id is not None:
        raise Refused(f"{part.code} cannot be superseded by {successor.code}: name another successor.")
    if part.superseded_by_id is not None:
        raise Refused(f"{part.code} is superseded already: supersede its successor instead.")
    if part.build_id != successor.build_id:
        raise Refused(f"{successor.code} belongs to another build: add it to this one first.")
    if part.handed != successor.handed:
        raise Refused(
            f"{part.code} and {successor.code} differ in being handed: end the usages of the one and add those of "
            "the other by themselves."
        )


def hand_over(work: Work, usage: Usage, successor: Part) -> Usage:
    """End a usage and open the same for the successor; what stands there stands in from then on."""
    new = work.first(
        Usage, assembly_id=usage.assembly_id, part_id=successor.id, side_rule=usage.side_rule, ended_at=None
    )
    if new is None:
        kept = usage.model_dump(exclude={"id", "part_id", "since_at", "ended_at"})
        new = work.add(Usage(**kept, part_id=successor.id or 0, since_at=work.at))
    work.change(usage, ended_at=work.at)
    for link in work.all(FitTestUsage, usage_id=usage.id):
        same = FitTestUsage.fit_test_id == link.fit_test_id
        if work.first(FitTestUsage, same, usage_id=new.id) is None:
            work.add(FitTestUsage(fit_test_id=link.fit_test_id, usage_id=new.id or 0))
    for fitting in work.all(Fitting, usage_id=usage.id):
        if fitting.until_at is None or fitting.until_at > work.at:
            _stand_in_from_now(work, fitting, usage, new)
    return new


def _stand_in_from_now(work: Work, fitting: Fitting, usage: Usage, new: Usage) -> None:
    """A fitting goes on in the slot of the new usage; what it drew goes with it."""
    what = fitting.what
    if fitting.lot_id is None and not what:
        what = work.get(Part, usage.part_id).code
    _refuse_occupied(work, fitting, new)
    until = fitting.until_at
    if fitting.from_at >= work.at:
        work.change(fitting, usage_id=new.id, what=what, stand_in=True)
        return
    work.change(fitting, until_at=work.at)
    kept = fitting.model_dump(exclude={"id", "usage_id", "what", "stand_in", "from_at", "until_at"})
    going_on = work.add(
        Fitting(**kept, usage_id=new.id or 0, what=what, stand_in=True, from_at=work.at, until_at=until)
    )
    for entry in work.all(BoughtEntry, fitting_id=fitting.id):
        work.change(entry, fitting_id=going_on.id)


def _refuse_occupied(work: Work, fitting: Fitting, new: Usage) -> None:
    for other in work.all(Fitting, position_id=fitting.position_id, usage_id=new.id, number=fitting.number):
        before = other.until_at is not None and other.until_at <= max(work.at, fitting.from_at)
        after = fitting.until_at is not None and other.from_at >= fitting.until_at
        if not before and not after:
            old = slot_name(work, fitting.position_id, fitting.usage_id, fitting.number)
            there = slot_name(work, other.position_id, other.usage_id, other.number)
            raise Refused(f"Something stands in {old} and in {there}: take one of the two out first.")
