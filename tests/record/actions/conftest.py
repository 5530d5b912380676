"""A small build to add to, and words to say what is refused."""

from collections.abc import Callable
from typing import Any

import pytest

from buildlog.errors import BuildlogError
from buildlog.ledger import Ledger
from buildlog.proposals.nouns import Add, BringBack, Change, Retire


@pytest.fixture
def beetle(ledger: Ledger, typed: Callable[..., Any]) -> None:
    """LB with the root BEETLE, the paired LEG in it, two TOEs on each leg, and the neutral HEAD."""
    forms = (
        typed("build", code="LB", name="Lantern Beetle"),
        typed("assembly", code="BEETLE", name="beetle", build="LB"),
        typed("assembly", code="LEG", name="leg", build="LB", parent="BEETLE", paired="yes"),
        typed("assembly", code="TOE", name="toe", build="LB", parent="LEG", count="2"),
        typed("assembly", code="HEAD", name="head", build="LB", parent="BEETLE"),
    )
    ledger.record_all([(Add(form), None) for form in forms], "a small build")


@pytest.fixture
def refused(ledger: Ledger) -> Callable[..., str]:
    """``refused(add, "part", ...)``: the message, and proof that nothing was recorded."""

    def message(do: Callable[..., Any], *args: Any, **named: Any) -> str:
        before = ledger.journal(1)
        with pytest.raises(BuildlogError) as caught:
            do(*args, **named)
        assert ledger.journal(1) == before
        return str(caught.value)

    return message


@pytest.fixture
def change(ledger: Ledger) -> Callable[..., Any]:
    """``change("part", "FL01", name="femur")``: values as the record counts them."""
    return lambda noun, key, **values: ledger.record(Change(noun, key, values))


@pytest.fixture
def retire(ledger: Ledger) -> Callable[..., Any]:
    return lambda noun, key: ledger.record(Retire(noun, key))


@pytest.fixture
def bring_back(ledger: Ledger) -> Callable[..., Any]:
    return lambda noun, key: ledger.record(BringBack(noun, key))


@pytest.fixture
def write_row(ledger: Ledger) -> Callable[..., Any]:
    """Write a row that stands for what another action would have recorded."""

    def write(table: str, **values: Any) -> int:
        from buildlog.record.tables import TABLES

        with ledger.writer().work("test", "a row", ledger.now(), ledger.now()) as opened:
            row = opened.work.add(TABLES[table](**values))
        return row.id or 0

    return write
