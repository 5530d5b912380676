"""The outlook of one material: planned-requirements netting, week by week."""

from dataclasses import dataclass

from buildlog.terms import Moment


@dataclass(frozen=True, slots=True)
class WeekNeed:
    """What a week takes of a material, and what is left at its end with what is on order, nothing new ordered."""

    week_start: Moment
    need_mg: int
    left_mg: int


@dataclass(frozen=True, slots=True)
class MaterialOutlook:
    """``on_hand_mg`` is on usable spools, give or take ``pm_mg``; the need is ``running_mg`` still to be drawn +
    ``queued_mg`` + ``to_print_mg`` + ``waste_mg`` (failures on top; purge is in the figures). ``short_mg`` is need less
    on hand and on order, 0 when it lasts. ``order_by`` is the last moment of an order whose parcel is there before the
    stock falls below ``safety_mg``; then ``packs_to_order`` of them. ``reason`` says it in a sentence.
    """

    material_id: int
    on_hand_mg: int
    pm_mg: int
    sealed_spools: int
    running_mg: int
    queued_mg: int
    to_print_mg: int
    waste_mg: int
    short_mg: int
    safety_mg: int
    weeks: tuple[WeekNeed, ...]
    runs_out_at: Moment | None
    order_by: Moment | None
    packs_to_order: int
    on_order_mg: int
    due_at: Moment | None
    usual_pace: bool
    reason: str

    @property
    def need_mg(self) -> int:
        return self.running_mg + self.queued_mg + self.to_print_mg + self.waste_mg
