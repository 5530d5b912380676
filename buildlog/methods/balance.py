"""The balance of an account that has dated entries and readings.

A reading (scale, count) is kept as read. The balance at T is the last reading at or before T plus the entries
after it; the correction that a reading makes is derived. At equal moments entries come before readings. An
entry may be spread evenly over from-to: a reading inside, or T itself, splits it in proportion to time, in
whole units. Before the first reading an account begins at nothing. Moments are fixed-width UTC text.
"""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import NamedTuple


class Entry(NamedTuple):
    """`amount` in whole units, below 0 for what is drawn; spread from `at` to `until` when that is given."""

    at: str
    amount: int
    until: str | None = None


class Reading(NamedTuple):
    at: str
    amount: int


class Balance(NamedTuple):
    """`amount` may lie below 0; then `is_negative`, and a reading is wanted.

    `last_reading_at` is None before the first reading; `drawn_since` is what left since then (0 or more).
    """

    amount: int
    last_reading_at: str | None
    drawn_since: int

    @property
    def is_negative(self) -> bool:
        return self.amount < 0


class Correction(NamedTuple):
    """What a reading showed against what the entries had left to expect."""

    at: str
    computed: int
    read: int

    @property
    def difference(self) -> int:
        return self.read - self.computed


def balance(entries: Iterable[Entry], readings: Iterable[Reading], at: str) -> Balance:
    """The balance at one moment."""
    return balances(entries, readings, (at,))[0]


def balances(entries: Iterable[Entry], readings: Iterable[Reading], moments: Iterable[str]) -> tuple[Balance, ...]:
    """The balances at several moments, in their order; entries and readings may come in any order."""
    account = _Account(entries)
    in_order = sorted(readings, key=lambda reading: reading.at)
    reading_moments = [reading.at for reading in in_order]
    return tuple(account.balance_after(_last(in_order, reading_moments, moment), moment) for moment in moments)


def corrections(entries: Iterable[Entry], readings: Iterable[Reading]) -> tuple[Correction, ...]:
    """What each reading corrected, oldest first; of readings at one moment the last given one holds."""
    account = _Account(entries)
    before: Reading | None = None
    made: list[Correction] = []
    for reading in sorted(readings, key=lambda reading: reading.at):
        computed = account.balance_after(before, reading.at).amount
        made.append(Correction(reading.at, computed, reading.amount))
        before = reading
    return tuple(made)


class _Account:
    """Entries sorted by their end, so that those after a reading are one slice."""

    def __init__(self, entries: Iterable[Entry]) -> None:
        self.entries = sorted(entries, key=_end)
        self.ends = [_end(entry) for entry in self.entries]
        for entry in self.entries:
            if entry.until is not None and entry.until < entry.at:
                raise ValueError(f"an entry cannot end at {entry.until}, before it begins at {entry.at}")

    def balance_after(self, reading: Reading | None, moment: str) -> Balance:
        read_at, amount, drawn = (None, 0, 0) if reading is None else (reading.at, reading.amount, 0)
        first = 0 if read_at is None else bisect_right(self.ends, read_at)
        for entry in self.entries[first:]:
            if entry.at <= moment:
                share = _by(entry, moment) - (0 if read_at is None else _by(entry, read_at))
                amount += share
                drawn -= min(0, share)
        return Balance(amount, read_at, drawn)


def _end(entry: Entry) -> str:
    return entry.until or entry.at


def _last(in_order: Sequence[Reading], moments: Sequence[str], moment: str) -> Reading | None:
    """The last reading at or before the moment."""
    index = bisect_right(moments, moment)
    return in_order[index - 1] if index else None


def _by(entry: Entry, moment: str) -> int:
    """What of the entry has happened by this moment, the moment itself included."""
    if moment >= _end(entry):
        return entry.amount
    if moment <= entry.at or entry.until is None:
        return 0
    start = datetime.fromisoformat(entry.at)
    elapsed = datetime.fromisoformat(moment) - start
    return round(entry.amount * (elapsed / (datetime.fromisoformat(entry.until) - start)))
