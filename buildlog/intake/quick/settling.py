"""What the words of a phrase leave to the record: which step «glued» means, in which position, which slot."""

import re
from collections.abc import Callable
from dataclasses import replace
from typing import Any, NamedTuple

from buildlog.facts.bench import Step
from buildlog.facts.naming import position_name
from buildlog.intake.quick.known import Known
from buildlog.intake.quick.names_read import fits
from buildlog.intake.quick.phrases import Phrase
from buildlog.proposals.outcomes import ways_out
from buildlog.proposals.places import PiecesNamed, Place, SlotPlace, read_place
from buildlog.terms import FitOutcome, WhatThen


class Open(NamedTuple):
    """What is still open of a wish: which of several, or that there is none."""

    what: str
    choices: tuple[str, ...] = ()


Values = dict[str, Any]
Settled = tuple[Values, Open | None]


class Left(NamedTuple):
    """What the words told, and what else is known."""

    phrase: Phrase
    values: Values
    known: Known


def settled(phrase: Phrase, values: Values, known: Known) -> Settled:
    """The fields of the wish, and what is still open of them."""
    if not phrase.settle:
        return values, None
    return _SETTLERS[phrase.settle](Left(phrase, values, known))


def _part_and_side(left: Left) -> Settled:
    values, known = left.values, left.known
    pieces = values["part"]
    if pieces.lot_id is not None or pieces.code in known.marks.values():
        return values, Open("the part, not one piece of it")
    return {**values, "part": pieces.code, "side": pieces.side}, None


def _one_of_it(left: Left) -> Settled:
    """Who says that a part is something speaks of one piece of it."""
    values, what = left.values, left.values["what"]
    is_part = any(row.code == what.code for row in left.known.snapshot.parts)
    return ({**values, "pieces": 1} if is_part and values.get("pieces") is None else values), None


def _pieces_kept(left: Left) -> Settled:
    """A cause that names a part as kept would keep nothing: how it came out is to be said."""
    named = re.search(r"\bkept (?:the )?(\S*[A-Z0-9]\S*)(?: ([LR])\b)?", left.values.get("cause", ""))
    parts = left.known.find("part", named[1].casefold()) if named is not None else ()
    if named is None or not parts:
        return left.values, None
    pieces = " ".join(filter(None, (parts[0], named[2])))
    return left.values, Open(f"how {pieces} came out", ways_out(pieces))


def _slot(left: Left) -> Settled:
    values, known = left.values, left.known
    piece, place = values["piece"], values["slot"]
    part = piece.code
    lots = [
        lot
        for lot in known.snapshot.lots
        if lot.id == piece.lot_id or (lot.mark is not None and lot.mark == piece.code and piece.side is None)
    ]
    if lots:
        part = known.snapshot.part[lots[0].part_id].code
    elif piece.lot_id is not None:
        return values, Open(f"a piece: there is no lot {piece}")
    return {"piece": piece, "slot": SlotPlace(place, part)}, None


def _of_a_kind(left: Left) -> Settled:
    values, known = left.values, left.known
    place, phrase = values["place"], left.phrase
    steps = [
        step
        for step in _steps_of(known, place.assembly)
        if step.kind in phrase.kinds and place not in _done(known, step)
    ]
    if not steps:
        kinds = " or ".join(kind.value for kind in phrase.kinds)
        return values, Open(f"a step: no step «{kinds}» is open on {place}")
    return {**values, "step": steps[0].code}, None  # steps are done in order: the first one that is not


def _place_of_step(left: Left) -> Settled:
    values, known = left.values, left.known
    step = known.step(values["step"])
    given = values.get("place")
    if (given is not None and given.assembly) or step.assembly_id is None:
        return values, None
    done = _done(known, step)
    places = known.places.get(known.snapshot.assembly[step.assembly_id].code, ())
    return _with_place(values, _on_side(tuple(p for p in places if p not in done), given))


def _place_of_test(left: Left) -> Settled:
    values, known = left.values, left.known
    assembly = known.snapshot.assembly[known.test(values["test"]).assembly_id].code
    places = known.places.get(assembly, ())
    given = values.get("place")
    if given is not None and given.assembly and given.assembly != assembly:
        return values, Open(f"a position of {assembly}", tuple(map(str, places)))
    if given is None or not given.assembly:
        values, open_ = _with_place(values, _on_side(places, given))
        if open_ is not None:
            return values, open_
    return _failed_if_something_follows(left, values), _what_then(left)


def _failed_if_something_follows(left: Left, values: Values) -> Values:
    """Whoever says what then has judged it, whatever was measured."""
    told = "outcome" in dict(left.phrase.given) or values.get("outcome") is not None
    judged = values.get("what_then") is not None and not told
    return {**values, "outcome": FitOutcome.FAILED.value} if judged else values


def _what_then(left: Left) -> Open | None:
    outcome = dict(left.phrase.given).get("outcome", left.values.get("outcome"))
    asked = outcome == FitOutcome.FAILED and left.values.get("what_then") is None
    return Open("what then", tuple(WhatThen)) if asked else None


def _standing_where(left: Left) -> Settled:
    """Where the piece stands: a side that a part does not have is that of the position."""
    values, known = left.values, left.known
    what, place = values["what"], values.get("stands_in")
    if what.lot_id is not None or what.code in known.marks.values():
        return values, None
    if what.side is not None and not known.is_handed(what.code):
        place, what = place or Place("", what.side), replace(what, side=None)
    if place is None:
        return values, None
    places = tuple(p for p in _places_of(known, what) if place.assembly in ("", p.assembly))
    standing = _on_side(places, place)
    if not standing:
        return values, Open(f"where it stands: no {what} stands there", tuple(map(str, places)))
    return _with_place({**values, "what": what}, standing, "stands_in")


def _places_of(known: Known, what: PiecesNamed) -> tuple[Place, ...]:
    """Positions where such a piece stands."""
    snapshot = known.snapshot
    codes = {row.id: row.code for row in snapshot.parts}
    ids = {lot.id for lot in snapshot.lots if codes[lot.part_id] == what.code and what.side in (None, lot.side)}
    standing = {f.position_id for f in snapshot.fittings if f.lot_id in ids and f.until_at is None}
    return tuple(read_place(position_name(snapshot, one)) for one in sorted(standing))


def _build_in_view(left: Left) -> Settled:
    values, build = left.values, left.known.main_build
    told = values.get("holds") or values.get("step")
    return (values if told or build is None else {**values, "build": build.code}), None


def _on_side(places: tuple[Place, ...], given: Place | None) -> tuple[Place, ...]:
    """Those on the side, or with the number, that was said without an assembly; all where none was said."""
    return places if given is None else tuple(p for p in places if fits(p, given.side, given.ordinals))


def _with_place(values: Values, places: tuple[Place, ...], name: str = "place") -> Settled:
    """The only position; which one is open where there are more."""
    if len(places) == 1:
        return {**values, name: places[0]}, None
    return values, Open("the position" if places else "a position: none is open", tuple(map(str, places)))


def _steps_of(known: Known, assembly: str) -> list[Step]:
    of = {row.id for row in known.snapshot.assemblies if row.code == assembly}
    steps = [s for s in known.snapshot.steps if s.assembly_id in of and s.retired_at is None]
    return sorted(steps, key=lambda step: step.place)


def _done(known: Known, step: Step) -> frozenset[Place]:
    """Positions where the step is done."""
    snapshot = known.snapshot
    ticks = [t for t in snapshot.steps_done if t.step_id == step.id and t.reopened_at is None]
    return frozenset(read_place(position_name(snapshot, t.position_id)) for t in ticks if t.position_id is not None)


_SETTLERS: dict[str, Callable[[Left], Settled]] = {
    "pieces kept": _pieces_kept,
    "one of it": _one_of_it,
    "part and side": _part_and_side,
    "slot": _slot,
    "standing where": _standing_where,
    "step of a kind": _of_a_kind,
    "place of the step": _place_of_step,
    "place of the test": _place_of_test,
    "build in view": _build_in_view,
}
