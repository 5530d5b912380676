"""Usages: parts in assemblies, and which side they take there."""

from typing import Any

from buildlog.errors import Refused
from buildlog.facts.slot_numbers import slot_sides
from buildlog.proposals.sides import WITHOUT_A_SIDE, handed_without_side
from buildlog.record.actions.places import position_name
from buildlog.record.actions.storing.rows import live_row
from buildlog.record.actions.storing.storing import Storing
from buildlog.record.actions.storing.tree import has_sides, refuse_too_many_slots
from buildlog.record.tables import Row
from buildlog.record.tables.pieces import Fitting
from buildlog.record.tables.tree import Assembly, Part, Position, Usage
from buildlog.record.writer import Work
from buildlog.terms import Side, SideRule


class UsageStoring(Storing):
    NOUN = "usage"

    def more(self, _form: Any) -> dict[str, Any]:
        return {"since_at": self.work.at}

    def check(self, form: Any, row: Row | None) -> None:
        assembly = live_row(self.work, "assembly", form.assembly)
        part = live_row(self.work, "part", form.part)
        if part.build_id != assembly.build_id:
            raise Refused(
                f"{part.code} and {assembly.code} are of two builds: a part serves its own build. "
                "Add one like it there."
            )
        refuse_side_rule(part, assembly, SideRule(form.side_rule), self.work)
        if isinstance(row, Usage):
            self._refuse_lost_slots(form, row, assembly, part)

    def added(self, row: Any, form: Any) -> None:
        refuse_too_many_slots(self.work.get(Assembly, row.assembly_id), self.work, form.quantity)

    def changed(self, row: Any, _before: Any, after: Any) -> None:
        self.added(row, after)

    def brought_back(self, row: Any, form: Any) -> None:
        self.added(row, form)

    def _refuse_lost_slots(self, form: Any, row: Usage, assembly: Assembly, part: Part) -> None:
        fitted = self.work.all(Fitting, usage_id=row.id, until_at=None)
        moved = (row.assembly_id, row.part_id) != (assembly.id, part.id)
        rules = (SideRule(row.side_rule), row.quantity), (SideRule(form.side_rule), form.quantity)
        lost = []
        for fitting in fitted:
            position_side = Side(self.work.get(Position, fitting.position_id).side)
            old, new = (slot_sides(rule, quantity, position_side, part.handed) for rule, quantity in rules)
            if moved or old[fitting.number - 1 : fitting.number] != new[fitting.number - 1 : fitting.number]:
                lost.append(fitting)
        if lost:
            places = dict.fromkeys(position_name(self.work, fitting.position_id) for fitting in lost)
            names = ", ".join(list(places)[:5])
            fitted_part = self.work.get(Part, row.part_id).code
            raise Refused(f"{fitted_part} is fitted in {names}: take out what would lose its slot first.")


def refuse_wrong_side(usage: Usage, work: Work) -> None:
    """Refuse what the usage says of sides, as tree and part are now."""
    part, assembly = work.get(Part, usage.part_id), work.get(Assembly, usage.assembly_id)
    refuse_side_rule(part, assembly, SideRule(usage.side_rule), work)


def refuse_side_rule(part: Part, assembly: Assembly, rule: SideRule, work: Work) -> None:
    sides = has_sides(assembly, work)
    if sides and rule is SideRule.ONE_OF_EACH:
        raise Refused(
            f"{assembly.code} exists left and right: «{rule}» is only for an assembly without a side. "
            f"Leave {part.code} as the position is."
        )
    if not sides and part.handed and rule is SideRule.AS_POSITION:
        raise Refused(f"{handed_without_side(part.code, assembly.code)}: say {WITHOUT_A_SIDE}.")
    if not sides and not part.handed and rule is not SideRule.AS_POSITION:
        raise Refused(f"{part.code} is not handed and {assembly.code} has no side: leave «{SideRule.AS_POSITION}».")
