"""What changes about a part."""

from buildlog.errors import AlreadyThere, BadWish, Refused
from buildlog.proposals import revisions as wishes
from buildlog.proposals.slots import SCRAP
from buildlog.record.actions.inside_bonded import answer_for, date_remake, settle, standing_bonded
from buildlog.record.actions.left_over import told_of_left_over
from buildlog.record.actions.making import letters
from buildlog.record.actions.moments import local
from buildlog.record.actions.places import by_prefix, position_at, position_name
from buildlog.record.actions.slot_spans import stands_at, take_out_of
from buildlog.record.actions.superseding import hand_over, refuse_misfit
from buildlog.record.tables.pieces import Fitting, Lot
from buildlog.record.tables.tree import Assembly, Demand, Part, Revision, Usage
from buildlog.record.writer import Work
from buildlog.terms import Joined, OldGoodFor, Origin, Side, Stage


def revise(wish: wishes.Revise, work: Work) -> str:
    part = by_prefix(work, Part, wish.part, "part")
    parts = [part, *_rest_of_set(work, part, wish.together)]
    if part.origin is Origin.BOUGHT:
        raise Refused(f"{part.code} is bought: it has no revisions. Supersede it by another part.")
    if not part.handed and wish.side is not None:
        raise BadWish((("side", f"{part.code} serves both sides: leave the side out"),))
    letter = wish.revision or _next_letter(work, part)
    said = [_revise_one(work, each, letter, wish) for each in parts]
    return " ".join(said)


def _revise_one(work: Work, part: Part, letter: str, wish: wishes.Revise) -> str:
    known = work.all(Revision, part_id=part.id, order_by=Revision.since_at)
    if any(revision.letter == letter for revision in known):
        raise AlreadyThere(f"revision of {part.code}", letter)
    left, right = _answers(part, wish) if known else (None, None)
    if len(known) == 1 and known[0].since_at > work.at:  # a first revision counts from the beginning, whenever typed
        work.change(known[0], since_at=work.at)
    before = next((r for r in reversed(known) if r.since_at <= work.at), known[0] if known else None)
    revision = work.add(
        Revision(
            part_id=part.id or 0,
            letter=letter,
            since_at=work.at,
            what_changed=wish.what_changed,
            print_minutes=before.print_minutes if before else None,
            hand_minutes=before.hand_minutes if before else None,
            figures_from=before.figures_from if before else "",
            old_left=left,
            old_right=right,
        )
    )
    if before is not None:
        _carry_demands(work, before, revision)
    if part.code == by_prefix(work, Part, wish.part, "part").code:
        _new_figures(work, revision, wish)
    if known and part.stage is Stage.PROVEN and {left, right} != {OldGoodFor.STILL_GOOD}:
        work.change(part, stage=Stage.TRIAL)
    usages = work.all(Usage, part_id=part.id)
    standing = [f for f in standing_bonded(work, usages) if _is_old(work, f, left, right)]
    answer = answer_for(work, part.code, standing, wish.bonded)
    done = settle(work, part.code, standing, answer)
    newer = (
        f" {known[-1].letter} of {local(work, known[-1].since_at)} stays current."
        if _is_older(known, work.at)
        else ""
    )
    return f"Revised {part.code} to {letter}{_told(left, right)}.{newer}{done}{told_of_left_over(work, part)}"


def supersede(wish: wishes.Supersede, work: Work) -> str:
    part, successor = (by_prefix(work, Part, code, "part") for code in (wish.part, wish.by))
    refuse_misfit(part, successor)
    usages = [u for u in work.all(Usage, part_id=part.id) if u.ended_at is None or u.ended_at > work.at]
    standing = standing_bonded(work, usages)
    answer = answer_for(work, part.code, standing, wish.bonded)
    done = settle(work, f"{successor.code} for {part.code}", standing, answer)
    for usage in usages:
        hand_over(work, usage, successor)
    work.change(part, superseded_by_id=successor.id)
    return f"{successor.code} supersedes {part.code} in {len(usages)} places.{done}"


def set_stage(wish: wishes.SetStage, work: Work) -> str:
    part = by_prefix(work, Part, wish.part, "part")
    before = part.stage
    work.change(part, stage=Stage(wish.stage))
    return f"{part.code} is {wish.stage}, it was {before}."


def remake_position(wish: wishes.RemakePosition, work: Work) -> str:
    position = position_at(work, wish.place)
    name = position_name(work, position.id or 0)
    if work.get(Assembly, position.assembly_id).joined is not Joined.BONDED:
        raise Refused(f"{name} comes apart: take out what is wrong, and fit another.")
    date_remake(work, position)
    if wish.old != wishes.STANDS_IN:
        for fitting in work.all(Fitting, position_id=position.id, until_at=None):
            if stands_at(fitting, work.at):
                take_out_of(work, fitting, wish.old == SCRAP, work.at, wish.why, keep_steps=True)
    return f"{name} is made anew from {local(work, work.at)} on; the old one: {wish.old}."


def _rest_of_set(work: Work, part: Part, together: tuple[str, ...]) -> list[Part]:
    """A matched set changes whole or not at all."""
    given = [by_prefix(work, Part, code, "part") for code in together]
    if not part.matched_set:
        if given:
            raise BadWish((("together", f"{part.code} is in no matched set: revise the others by themselves"),))
        return []
    rest = [
        other
        for other in work.all(Part, build_id=part.build_id, matched_set=part.matched_set)
        if other.id != part.id and other.retired_at is None and other.superseded_by_id is None
    ]
    missing = [other.code for other in rest if other not in given]
    if missing:
        raise Refused(
            f"{part.code} is in the matched set «{part.matched_set}», which changes whole or not at all: "
            f"revise it together with {', '.join(missing)}."
        )
    return rest


def _next_letter(work: Work, part: Part) -> str:
    taken = {revision.letter for revision in work.all(Revision, part_id=part.id)}
    return next(letter for number in range(len(taken) + 1, 9999) if (letter := letters(number)) not in taken)


def _answers(part: Part, wish: wishes.Revise) -> tuple[OldGoodFor, OldGoodFor]:
    """What old ones are good for, left and right."""
    old, other = OldGoodFor(wish.old), OldGoodFor(wish.old_other)
    if not part.handed or wish.side is None:
        return old, old
    return (old, other) if Side(wish.side) is Side.LEFT else (other, old)


def _told(left: OldGoodFor | None, right: OldGoodFor | None) -> str:
    if left is None:
        return ""
    return f"; old ones: {left}" if left == right else f"; old ones: L {left}, R {right}"


def _is_older(known: list[Revision], at: str) -> bool:
    return bool(known) and known[-1].since_at > at


def _is_old(work: Work, fitting: Fitting, left: OldGoodFor | None, right: OldGoodFor | None) -> bool:
    if fitting.lot_id is None:
        return False
    answer = right if work.get(Lot, fitting.lot_id).side is Side.RIGHT else left
    return answer is not None and answer is not OldGoodFor.STILL_GOOD


def _carry_demands(work: Work, before: Revision, revision: Revision) -> None:
    for demand in work.all(Demand, revision_id=before.id):
        work.add(Demand(**demand.model_dump(exclude={"id", "revision_id"}), revision_id=revision.id or 0))


def _new_figures(work: Work, revision: Revision, wish: wishes.Revise) -> None:
    given = {
        "print_minutes": wish.print_time,
        "hand_minutes": wish.hand_time,
        "figures_from": wish.figures_from or None,
    }
    work.change(revision, **{name: value for name, value in given.items() if value is not None})
    for demand in work.all(Demand, revision_id=revision.id, order_by=Demand.head):
        weights = (
            {"part_mg": wish.grams, "support_mg": wish.support, "purge_mg": wish.purge}
            if demand.head == 1
            else {"part_mg": wish.grams_2, "purge_mg": wish.purge_2}
        )
        work.change(demand, **{name: value for name, value in weights.items() if value is not None})
