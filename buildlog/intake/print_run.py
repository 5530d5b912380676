"""One line of a print history: what was started, how it ended, as the wishes that record it."""

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from buildlog.proposals.field import Field, Kind, fields_of
from buildlog.proposals.outcomes import CameOut, read_outcomes, write_outcomes
from buildlog.proposals.prints import FailPrint, FinishPrint, Restarted, StartPrint
from buildlog.terms import Moment

KIND = "print history"
FINISHED, FAILED, RUNNING = "finished", "failed", "running"
ENDS_FIRST, ENDS_AT_ONCE = -1, 1
"""Among facts of one moment the end of a print comes before the start of the next, and behind its own."""

Dated = tuple[Any, Moment, int]

_ESTIMATED = {"grams": "estimated_grams", "grams_2": "estimated_grams_2"}
_OF_END = ("real_time", "grams", "grams_2", "figures_from", "outcomes", "cause", "other_side")
_OF_FAILURE = ("went_wrong", "stopped", "ran_on")


def _scrapped(text: str) -> tuple[CameOut, ...]:
    return read_outcomes(", ".join(f"{piece} scrap" for piece in re.split(r"[,\n]", text) if piece.strip()))


def _fields() -> tuple[Field, ...]:
    own = (
        Field("started", "started", Kind.MOMENT, required=True),
        Field("ended", "ended", Kind.MOMENT),
        Field("outcome", "outcome", Kind.CHOICE, choices=(FINISHED, FAILED, RUNNING)),
        Field("scrapped", "scrapped", Kind.LINES, default=(), refers="part", read=_scrapped, write=write_outcomes),
        Field("restarts", "restarts", Kind.WHOLE, default=0, least=0, most=100),
    )
    start = tuple(
        replace(field, name=_ESTIMATED[field.name], label=f"estimated {field.label}")
        if field.name in _ESTIMATED
        else replace(field, required=field.name == "printer")
        for field in fields_of(StartPrint)
        if field.name not in ("job", "ended")
    )
    ends = {field.name: field for wish in (FailPrint, FinishPrint) for field in fields_of(wish)}
    return own + start + tuple(ends[name] for name in _OF_END + _OF_FAILURE)


FIELDS = _fields()
STARTS = tuple(
    field.name for field in FIELDS if field.name not in (*_OF_END, *_OF_FAILURE, "ended", "outcome", "scrapped")
)
"""Fields that say how a print began; they stay when the row is completed."""


def key_of(printer: str, started: str) -> str:
    """What a print is known by: no printer starts two at one moment."""
    return f"{printer}/{started}"


def wishes_of(values: Mapping[str, Any]) -> tuple[Dated, ...]:
    """Start, restarts and end with their moments and order; ValueError where they contradict each other."""
    started, ended = values["started"], values.get("ended")
    outcome = values.get("outcome") or (FINISHED if ended else RUNNING)
    if (outcome == RUNNING) != (ended is None):
        raise ValueError(f"it is {outcome}: " + ("leave «ended» empty" if ended else "say when it ended"))
    if ended is not None and ended < started:
        raise ValueError("it ended before it started")
    found: list[Dated] = [(_start(values), started, 0)]
    found += [(Restarted(printer=values["printer"]), started, 0)] * values.get("restarts", 0)
    return (*found, end_of(values)) if ended else tuple(found)


def end_of(values: Mapping[str, Any]) -> Dated:
    """The wish that ends the print."""
    failed = values.get("outcome") == FAILED
    wish = FailPrint if failed else FinishPrint
    known = {field.name for field in fields_of(wish)}
    given = {name: values[name] for name in _OF_END + _OF_FAILURE if name in values}
    for name in given.keys() - known:
        raise ValueError(f"«{name.replace('_', ' ')}» is said of a print that {FAILED if not failed else FINISHED}")
    if not failed:
        given["outcomes"] = given.get("outcomes", ()) + values.get("scrapped", ())
    rank = ENDS_FIRST if values["ended"] > values["started"] else ENDS_AT_ONCE
    return wish(printer=values["printer"], **given), values["ended"], rank


def _start(values: Mapping[str, Any]) -> StartPrint:
    given = {}
    for field in fields_of(StartPrint):
        name = _ESTIMATED.get(field.name, field.name)
        if field.name not in ("job", "ended") and name in values:
            given[field.name] = values[name]
    return StartPrint(**given)
