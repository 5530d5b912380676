"""What viewers ask, and what they are answered. It holds nothing, unlike a question of the build."""

from dataclasses import dataclass

from buildlog.proposals.field import Kind, asks


@dataclass(frozen=True, slots=True)
class ViewerAsks:
    """Write down what a viewer asked, under the episode that was filmed last unless a number is given."""

    text: str = asks("question", Kind.TEXT)
    who: str = asks("who asked", Kind.TEXT, default="a viewer")
    build: str | None = asks("build", Kind.REFERENCE, default=None, refers="build", help="empty: the only open one")
    episode: int | None = asks("under episode", Kind.WHOLE, default=None, help="empty: the one filmed last")
    code: str | None = asks("code", Kind.CODE, default=None, help="empty: the next free one")


@dataclass(frozen=True, slots=True)
class AnswerViewer:
    """Answer a viewer, in the episode that films next unless a number is given."""

    question: str = asks("viewer question", Kind.REFERENCE, refers="viewer question")
    answer: str = asks("answer", Kind.TEXT)
    episode: int | None = asks("in episode", Kind.WHOLE, default=None, help="empty: the one that films next")
