"""The lines of Fits, section by section, and what is known of one, from a Status."""

from __future__ import annotations

from typing import TYPE_CHECKING

from buildlog.facts.naming import position_name
from buildlog.screens.lines import section, soon
from buildlog.screens.widgets.facts_line import Fact
from buildlog.screens.widgets.rows import Cell, GridRow
from buildlog.screens.widgets.tones import Tone
from buildlog.status.fits import Verdict
from buildlog.wording import count, mm, span

if TYPE_CHECKING:
    from collections.abc import Sequence

    from buildlog.facts.bench import FitTest
    from buildlog.status.fits import FitState
    from buildlog.status.status import Status

ASKING = (Verdict.FAILED, Verdict.STALE, Verdict.DUE, Verdict.SPOT_CHECK)
ON_DEMAND = (Verdict.NOT_YET, Verdict.PASSED)
HEADINGS = {
    Verdict.FAILED: "Failed",
    Verdict.STALE: "Gone stale",
    Verdict.DUE: "Due",
    Verdict.SPOT_CHECK: "Look again in one spot",
    Verdict.NOT_YET: "Not yet",
    Verdict.PASSED: "Passed",
}
TONES = {
    Verdict.FAILED: Tone.BAD,
    Verdict.STALE: Tone.CAUTION,
    Verdict.PASSED: Tone.GOOD,
    Verdict.NOT_YET: Tone.FAINT,
}
CAREFUL = ("on-person", "load")
"""Kinds of test that can hurt somebody."""


def key_of_state(state: FitState) -> str:
    return f"fit:{state.test_id}-{state.position_id}"


def headline(status: Status, states: Sequence[FitState]) -> list[Fact]:
    """How many ask for something, how long that takes, and how many are passed."""
    by_verdict = {verdict: [s for s in states if s.verdict is verdict] for verdict in Verdict}
    tests = {test.id: test for test in status.snapshot.fit_tests}
    asking = [state for verdict in ASKING for state in by_verdict[verdict]]
    minutes = sum(tests[state.test_id].bench_minutes for state in asking)
    facts = [Fact("to test", f"{len(asking)}, {span(minutes)}" if asking else "nothing")]
    for verdict in (Verdict.FAILED, Verdict.STALE):
        if by_verdict[verdict]:
            facts.append(Fact(verdict.value, str(len(by_verdict[verdict])), TONES[verdict]))
    holds = sum(state.verdict.holds for state in states)
    return [*facts, Fact("passed", f"{holds} of {len(states)}")]


def fits_of_build(status: Status, build_id: int | None) -> list[FitState]:
    """Those of one build; None: of all."""
    places, assemblies = status.snapshot.position, status.snapshot.assembly
    of_state = ((state, assemblies[places[state.position_id].assembly_id].build_id) for state in status.fits.all)
    return [state for state, of in of_state if build_id in (None, of)]


def fit_rows(status: Status, states: Sequence[FitState], everything: bool) -> list[GridRow]:
    """Key ``fit:TEST-POSITION``; with `everything` passed and coming ones too."""
    tests = {test.id: test for test in status.snapshot.fit_tests}
    rows: list[GridRow] = []
    for verdict in (*ASKING, *(ON_DEMAND if everything else ())):
        here = [state for state in states if state.verdict is verdict]
        here.sort(key=lambda state: (state.position_id, state.test_id))
        minutes = sum(tests[state.test_id].bench_minutes for state in here)
        title = f"{HEADINGS[verdict]}: {count(len(here), 'fit')}, {span(minutes)}"
        rows += section(verdict.value, title, [_row(status, state, tests[state.test_id]) for state in here])
    return rows


def _row(status: Status, state: FitState, test: FitTest) -> GridRow:
    tone = TONES.get(state.verdict, Tone.PLAIN)
    cells = (
        Cell(test.name, tone),
        Cell(position_name(status.snapshot, state.position_id)),
        Cell(f"{test.bench_minutes} min", Tone.FAINT),
        Cell(why(status, state), Tone.FAINT),
    )
    return GridRow(key_of_state(state), cells)


def why(status: Status, state: FitState) -> str:
    """``a new revision stands there now``; with until when a joint may not be loaded."""
    if state.load_until is None:
        return state.why
    until = soon(state.load_until, status.now, status.snapshot.settings.home_zone)
    return f"not to be loaded before {until}; {state.why}"


def told_of(status: Status, state: FitState) -> list[Fact]:
    """What kind of test it is, what it asks, and what was found last."""
    test = next(test for test in status.snapshot.fit_tests if test.id == state.test_id)
    kind = test.kind.value
    facts = [Fact(test.code, kind, Tone.CAUTION if kind in CAREFUL else Tone.STRONG)]
    if test.low_um is not None or test.high_um is not None:
        facts.append(Fact("asks for", _limits(test)))
    last = next((r for r in status.snapshot.fit_results if r.id == state.result_id), None)
    if last is not None:
        measured = f", {mm(last.measured_um)}" if last.measured_um is not None else ""
        when = soon(last.at, status.now, status.snapshot.settings.home_zone)
        facts.append(Fact("last", f"{last.outcome.value} {when}{measured}"))
        if last.text:
            facts.append(Fact("said", last.text))
    return [*facts, Fact("goes stale by", test.rule.value)]


def _limits(test: FitTest) -> str:
    low, high = (None if um is None else f"{um / 1000:g}" for um in (test.low_um, test.high_um))
    if low is None or high is None:
        return f"at least {low} mm" if low is not None else f"at most {high} mm"
    return f"{low} to {high} mm"
