"""The helper's list names what can be ticked as it is named."""

from typing import Any

from buildlog.ledger import Ledger
from buildlog.proposals.lots import CountPart
from buildlog.proposals.steps import TickStep
from buildlog.status.more_hands import helper_steps, ticks_named
from buildlog.status.status import Status, take_stock


def status_of(ledger: Ledger) -> Status:
    return take_stock(ledger.snapshot(), ledger.now())


def test_a_step_on_a_handed_part_stands_once_for_each_side_that_is_left(ledger: Ledger, add: Any) -> None:
    add("build", code="LB", name="Beetle")
    add("assembly", code="BEETLE", name="Beetle", build="LB")
    add("assembly", code="LEG", name="Leg", build="LB", parent="BEETLE", paired="yes")
    add("part", code="SHIN", name="Shin", build="LB", handed="yes", assembly="LEG")
    add("step", code="SHIN-SAND", name="sand", part="SHIN", kind="sand", bench_time="0:05", helper_can="yes")
    for side in ("L", "R"):
        ledger.record(CountPart(part="SHIN", side=side, pieces=1))
    assert {found.name for found in helper_steps(status_of(ledger))} == {"SHIN-SAND SHIN L", "SHIN-SAND SHIN R"}
    wish = ticks_named(status_of(ledger), ["SHIN-SAND SHIN L"])
    assert isinstance(wish.ticks[0], TickStep)
    ledger.record(wish)
    assert [found.name for found in helper_steps(status_of(ledger))] == ["SHIN-SAND SHIN R"]
