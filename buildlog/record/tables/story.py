"""What the week's story needs: shots, questions of viewers, promises."""

from sqlalchemy import CheckConstraint
from sqlmodel import Field

from buildlog.record.tables.columns import Row, choice, maybe_ref, ref
from buildlog.terms import Side


class Shot(Row, table=True):
    """Something to film; without an episode it may be filmed in any. ``step_id``: it comes before that step."""

    __tablename__ = "shot"
    __table_args__ = (
        CheckConstraint("safe_at IS NULL OR (filmed_at IS NOT NULL AND safe_at >= filmed_at)", name="safe_filmed"),
    )

    code: str = Field(unique=True)
    build_id: int = ref("build")
    episode_id: int | None = maybe_ref("episode")
    what: str
    step_id: int | None = maybe_ref("step")
    side: Side | None = choice(Side, "side", default=None)
    filmed_at: str | None = None
    safe_at: str | None = None
    overruled_at: str | None = None
    overruled_why: str = ""
    retired_at: str | None = None


class ViewerQuestion(Row, table=True):
    """What somebody who watches asked: it holds nothing. Asked under one episode, answered in another."""

    __tablename__ = "viewer_question"

    code: str = Field(unique=True)
    build_id: int = ref("build")
    text: str
    who: str = ""
    asked_episode_id: int | None = maybe_ref("episode")
    asked_at: str
    answer: str = ""
    answered_episode_id: int | None = maybe_ref("episode")
    answered_at: str | None = None
    retired_at: str | None = None


class Promise(Row, table=True):
    """Who supplied or lent what, and what was promised for it."""

    __tablename__ = "promise"

    code: str = Field(unique=True)
    build_id: int = ref("build")
    who: str
    supplied: str = ""
    promised: str
    promised_at: str
    due_at: str | None = None
    kept_at: str | None = None
    retired_at: str | None = None
