"""Asking and answering what is undecided."""

import pytest

from buildlog.errors import NotFound, Refused


def test_a_question_gets_the_next_code_and_holds_what_it_names(legs, tell) -> None:
    assert tell("ask_question", text="Cord or spring?", holds="LEG L, CORD") == (
        "Asked Q1: Cord or spring? It holds LEG, CORD."
    )
    snapshot = legs.snapshot()
    assert [(q.code, q.build_id, q.answered_at) for q in snapshot.questions] == [("Q1", 1, None)]
    assert [(t.assembly_id, t.part_id, t.side) for t in snapshot.question_targets] == [
        (2, None, "L"),
        (None, 5, None),
    ]


def test_an_answer_stands_until_the_question_is_reopened(legs, tell) -> None:
    tell("ask_question", text="Cord or spring?")
    tell("answer_question", question="Q1", answer="Spring")
    with pytest.raises(Refused, match=r"was answered at .*, «Spring»"):
        tell("answer_question", question="Q1", answer="Cord")
    tell("reopen_question", question="Q1")
    (question,) = legs.snapshot().questions
    assert (question.answer, question.answered_at) == ("", None)


def test_a_question_is_not_answered_before_it_is_asked(legs, tell) -> None:
    tell("ask_question", text="Cord or spring?")
    with pytest.raises(Refused, match="was asked only at"):
        tell("answer_question", at="2026-11-20T08:00:00Z", question="Q1", answer="Spring")


def test_what_is_held_must_be_there(legs, tell) -> None:
    with pytest.raises(NotFound):
        tell("ask_question", text="Why?", holds="NOTHING")
