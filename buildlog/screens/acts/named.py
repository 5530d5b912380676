"""Rows of the snapshot by id, and cautions and orders in words, for lists and questions."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Protocol, TypeVar

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from buildlog.facts.printing import Job, PrintFile
    from buildlog.facts.stock import Spool
    from buildlog.status.status import Status


class _Row(Protocol):
    @property
    def id(self) -> int: ...


R = TypeVar("R", bound=_Row)


def spool_of(status: Status, spool_id: int) -> Spool:
    return _by_id(status.snapshot.spools, spool_id)


def job_of(status: Status, job_id: int) -> Job:
    return _by_id(status.snapshot.jobs, job_id)


def file_of(status: Status, file_id: int) -> PrintFile:
    return _by_id(status.snapshot.print_files, file_id)


def _by_id(rows: tuple[R, ...], row_id: int) -> R:
    return next(row for row in rows if row.id == row_id)


def said_cautions(status: Status, keys: Iterable[str]) -> str:
    """The cautions of these keys with their sources; "" where there is none."""
    from buildlog.status.cautions import in_words

    return "  ".join(in_words(status.snapshot.reference, keys))


def said_of_form(status: Status, noun: str, given: Mapping[str, Any]) -> str:
    """The cautions that go with a form as it is filled in so far, and what of it matches nothing on the record."""
    from buildlog.status.cautions import cautions_of_form
    from buildlog.status.strange_words import strange_words

    cautions = said_cautions(status, cautions_of_form(noun, given, status.snapshot.reference))
    return "  ".join(filter(None, (*strange_words(noun, given, status.snapshot), cautions)))


def told_of_order(status: Status, order_id: int) -> str:
    """``2 × ABS-BLACK, 100 × SCREW``: what has not come yet."""
    from buildlog.status.on_order import on_order, what_is_due

    due = (line for line in on_order(status.snapshot, status.now) if line.order_id == order_id)
    return ", ".join(what_is_due(status.snapshot, line) for line in due) or "nothing is due any more"
