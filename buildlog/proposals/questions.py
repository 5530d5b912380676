"""Asking and answering what is undecided."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks
from buildlog.proposals.lines import Target, read_targets, write_targets


@dataclass(frozen=True, slots=True)
class AskQuestion:
    """A question that holds assemblies or parts until it is answered."""

    text: str = asks("question", Kind.TEXT)
    holds: tuple[Target, ...] = asks("holds", Kind.LINES, default=(), read=read_targets, write=write_targets)
    build: str | None = asks(
        "build", Kind.REFERENCE, default=None, refers="build", help="empty: that of what it holds"
    )
    code: str | None = asks("code", Kind.CODE, default=None, help="empty: the next free one")


@dataclass(frozen=True, slots=True)
class AnswerQuestion:
    question: str = asks("question", Kind.REFERENCE, refers="question")
    answer: str = asks("answer", Kind.TEXT)


@dataclass(frozen=True, slots=True)
class ReopenQuestion:
    """The answer no longer holds; it stays readable in the journal."""

    question: str = asks("question", Kind.REFERENCE, refers="question")
