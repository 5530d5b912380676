"""What viewers ask, and what they are answered."""

from buildlog.errors import Refused
from buildlog.proposals import viewers as wishes
from buildlog.proposals.forms_story import ViewerQuestion as ViewerQuestionForm
from buildlog.record.actions.episodes import filmed_episodes, open_episodes
from buildlog.record.actions.moments import local
from buildlog.record.actions.new_things import build_named, next_code
from buildlog.record.actions.places import by_prefix
from buildlog.record.actions.storing.by_noun import storing_of
from buildlog.record.actions.storing.plans import episode_numbered
from buildlog.record.tables.builds import Build
from buildlog.record.tables.story import ViewerQuestion
from buildlog.record.writer import Work


def viewer_asks(wish: wishes.ViewerAsks, work: Work) -> str:
    build = build_named(work, wish.build)
    number = wish.episode
    if number is None:
        filmed = filmed_episodes(work, build)
        number = filmed[-1].number if filmed else None
    form = ViewerQuestionForm(
        code=wish.code or next_code(work, ViewerQuestion, "V"),
        build=build.code,
        text=wish.text,
        who=wish.who,
        asked_in=number,
    )
    storing_of("viewer question", work).add(form)
    where = "" if number is None else f" under episode {number}"
    return f"Wrote down {form.code}, {wish.who or 'somebody'} asked{where}: {wish.text}"


def answer_viewer(wish: wishes.AnswerViewer, work: Work) -> str:
    question = by_prefix(work, ViewerQuestion, wish.question, "viewer question")
    if question.answered_at is not None:
        since = local(work, question.answered_at)
        raise Refused(f"{question.code} was answered at {since}, «{question.answer}»: change it instead.")
    if work.at < question.asked_at:
        raise Refused(f"{question.code} was asked only at {local(work, question.asked_at)}: answer it after that.")
    build = work.get(Build, question.build_id)
    if wish.episode is not None:
        episode_id = episode_numbered(build.code, wish.episode, work).id
    else:
        episode_id = next((episode.id for episode in open_episodes(work, build)), None)
    work.change(question, answer=wish.answer, answered_at=work.at, answered_episode_id=episode_id)
    return f"Answered {question.code}: {wish.answer}"
