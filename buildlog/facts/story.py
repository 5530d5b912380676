"""Shots, questions of viewers, promises, as the record holds them."""

from buildlog.facts.frozen import frozen
from buildlog.terms import Moment, Side


@frozen
class Shot:
    """Something to film; without an episode it may be filmed in any. ``step_id``: it comes before that step."""

    id: int
    code: str
    build_id: int
    episode_id: int | None
    what: str
    step_id: int | None
    side: Side | None
    filmed_at: Moment | None
    safe_at: Moment | None
    overruled_at: Moment | None
    overruled_why: str
    retired_at: Moment | None


@frozen
class ViewerQuestion:
    """What somebody who watches asked: it holds nothing. Asked under one episode, answered in another."""

    id: int
    code: str
    build_id: int
    text: str
    who: str
    asked_episode_id: int | None
    asked_at: Moment
    answer: str
    answered_episode_id: int | None
    answered_at: Moment | None
    retired_at: Moment | None


@frozen
class Promise:
    """Who supplied or lent what, and what was promised for it."""

    id: int
    code: str
    build_id: int
    who: str
    supplied: str
    promised: str
    promised_at: Moment
    due_at: Moment | None
    kept_at: Moment | None
    retired_at: Moment | None
