"""Asking and answering questions."""

from buildlog.errors import Refused
from buildlog.proposals.forms_bench import Question as QuestionForm
from buildlog.proposals.questions import AnswerQuestion, AskQuestion, ReopenQuestion
from buildlog.record.actions.moments import local
from buildlog.record.actions.new_things import build_named, next_code
from buildlog.record.actions.places import by_prefix
from buildlog.record.actions.storing.by_noun import storing_of
from buildlog.record.actions.storing.targets import target_of
from buildlog.record.tables.bench import Question
from buildlog.record.tables.builds import Build
from buildlog.record.writer import Work


def ask_question(wish: AskQuestion, work: Work) -> str:
    form = QuestionForm(
        code=wish.code or next_code(work, Question, "Q"),
        build=_build_of(wish, work),
        text=wish.text,
        holds=wish.holds,
    )
    storing_of("question", work).add(form)
    held = f" It holds {', '.join(target.code for target in wish.holds)}." if wish.holds else ""
    return f"Asked {form.code}: {wish.text}{'' if wish.text[-1:] in ('?', '!', '.') else '.'}{held}"


def answer_question(wish: AnswerQuestion, work: Work) -> str:
    question = by_prefix(work, Question, wish.question, "question")
    if question.answered_at is not None:
        since = local(work, question.answered_at)
        raise Refused(f"{question.code} was answered at {since}, «{question.answer}»: reopen it first.")
    if work.at < question.asked_at:
        raise Refused(f"{question.code} was asked only at {local(work, question.asked_at)}: answer it after that.")
    work.change(question, answer=wish.answer, answered_at=work.at)
    return f"Answered {question.code}: {wish.answer}"


def reopen_question(wish: ReopenQuestion, work: Work) -> str:
    question = by_prefix(work, Question, wish.question, "question")
    if question.answered_at is None:
        raise Refused(f"{question.code} is open: there is no answer to take back. Answer it first.")
    was = question.answer
    work.change(question, answer="", answered_at=None)
    return f"{question.code} is open again, the answer was «{was}»."


def _build_of(wish: AskQuestion, work: Work) -> str:
    """The build named, that of the first thing held, or the only open one."""
    if wish.build is None and wish.holds:
        _, row = target_of(wish.holds[0].code, ("assembly", "part"), work)
        return work.get(Build, row.build_id).code
    return build_named(work, wish.build).code
