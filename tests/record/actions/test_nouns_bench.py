"""Steps, waits and their loops, questions, fit tests, episodes, goals and milestones."""

import pytest

from buildlog.errors import LoopRefused
from buildlog.ledger import Ledger
from buildlog.status.forms import form_of

AT = "2026-11-25T12:00:00Z"


def step(add, code: str, assembly: str, kind: str = "bond", **more: str) -> None:
    add("step", code=code, name=code.lower(), assembly=assembly, kind=kind, bench_time="10", **more)


def places(ledger: Ledger) -> dict[str, int]:
    return {s.code: s.place for s in ledger.snapshot().steps if s.retired_at is None}


def test_a_step_comes_last_or_at_its_place_where_the_others_make_room(ledger: Ledger, beetle: None, add, change):
    step(add, "CLEAN", "HEAD", "clean")
    step(add, "GLUE", "HEAD")
    step(add, "DRILL", "HEAD", "drill", place="2")
    step(add, "SAND", "LEG", "sand")
    assert places(ledger) == {"CLEAN": 1, "DRILL": 2, "GLUE": 3, "SAND": 1}
    change("step", "GLUE", place=1)
    assert sorted((place, code) for code, place in places(ledger).items() if code != "SAND") == [
        (1, "GLUE"),
        (2, "CLEAN"),
        (3, "DRILL"),
    ]


def test_a_solvent_bond_cures_as_is_usual_unless_its_hours_are_typed(ledger: Ledger, beetle: None, add) -> None:
    """A day until it is handled, three until it carries (common practice); other joints differ by their glue."""
    step(add, "WELD", "HEAD", "solvent bond")
    step(add, "WELD-2", "HEAD", "solvent bond", handle_after="6h", load_after="0")
    step(add, "GLUE", "HEAD", "bond")
    clocks = [(s.code, s.handle_after_minutes, s.load_after_minutes) for s in ledger.snapshot().steps]
    assert clocks == [("WELD", 1440, 4320), ("WELD-2", 360, 0), ("GLUE", 0, 0)]


def test_a_step_that_was_done_stays_where_it_is(beetle: None, add, change, refused, write_row) -> None:
    step(add, "GLUE", "HEAD")
    write_row("step_done", step_id=1, position_id=8, at=AT)
    assert "GLUE was done where it is" in refused(change, "step", "GLUE", assembly="LEG")
    change("step", "GLUE", bench_time=25)


def test_a_wait_names_steps_of_its_own_assemblies(beetle: None, add, refused) -> None:
    step(add, "GLUE", "HEAD")
    assert "GLUE is no step of LEG" in refused(add, "wait", assembly="LEG", step="GLUE", on_assembly="HEAD")


@pytest.mark.parametrize(
    ("wait", "loop"),
    [
        ({"assembly": "TOE", "on_assembly": "LEG"}, "TOE ready → LEG ready → TOE ready"),
        ({"assembly": "TOE", "on_assembly": "BEETLE"}, "TOE ready → BEETLE ready → LEG ready → TOE ready"),
        (
            {"assembly": "TOE", "step": "PEG", "on_assembly": "LEG", "on_step": "GLUE"},
            "TOE step PEG → LEG step GLUE → TOE ready → TOE step PEG",
        ),
        (
            {"assembly": "LEG", "step": "SAND", "on_assembly": "LEG", "on_step": "GLUE"},
            "LEG step SAND → LEG step GLUE → LEG step SAND",
        ),
    ],
)
def test_a_wait_that_closes_a_loop_over_tree_and_steps_is_refused_by_name(beetle: None, add, wait, loop) -> None:
    step(add, "PEG", "TOE", "assemble")
    step(add, "SAND", "LEG", "sand")
    step(add, "GLUE", "LEG", "bond")
    with pytest.raises(LoopRefused, match=loop):
        add("wait", **wait)


def test_waiting_for_a_step_before_what_holds_slots_is_no_loop(beetle: None, add) -> None:
    step(add, "SAND", "LEG", "sand")
    step(add, "GLUE", "LEG", "bond")
    step(add, "PEG", "TOE", "assemble")
    add("wait", assembly="TOE", step="PEG", on_assembly="LEG", on_step="SAND")


def test_two_waits_that_close_a_loop_are_refused_at_the_second(beetle: None, add) -> None:
    add("wait", assembly="HEAD", on_assembly="LEG")
    with pytest.raises(LoopRefused, match="HEAD ready → LEG ready → TOE ready → HEAD ready"):
        add("wait", assembly="TOE", on_assembly="HEAD")


def test_a_step_or_a_move_that_closes_a_loop_is_refused_too(beetle: None, add, change) -> None:
    step(add, "GLUE", "LEG", "bond")
    add("wait", assembly="HEAD", on_assembly="LEG", on_step="GLUE")
    with pytest.raises(LoopRefused, match="HEAD ready → LEG step GLUE → HEAD ready"):
        change("assembly", "HEAD", parent="LEG")


def test_a_retired_wait_closes_no_loop_until_it_is_brought_back(beetle: None, add, retire, bring_back) -> None:
    add("wait", assembly="HEAD", on_assembly="LEG")
    retire("wait", "HEAD//LEG/")
    add("wait", assembly="LEG", on_assembly="HEAD")
    with pytest.raises(LoopRefused):
        bring_back("wait", "HEAD//LEG/")


def test_what_a_wait_names_is_kept(beetle: None, add, retire, refused) -> None:
    step(add, "GLUE", "LEG")
    add("wait", assembly="HEAD", on_assembly="LEG", on_step="GLUE")
    assert "still needed by wait of HEAD for LEG" in refused(retire, "step", "GLUE")
    assert "wait of HEAD for LEG" in refused(retire, "assembly", "HEAD")


@pytest.fixture
def parts(beetle: None, add) -> None:
    add("part", code="FEMUR", name="femur", build="LB", handed="yes", assembly="LEG")
    add("part", code="SHIN", name="shin", build="LB", handed="yes", assembly="LEG")
    add("part", code="CLAW", name="claw", build="LB", assembly="TOE")
    add("part", code="HORN", name="horn", build="LB", assembly="HEAD")


@pytest.mark.parametrize(
    ("kind", "rule"), [("motion", "new revision"), ("load", "any new piece"), ("on-person", "any new piece")]
)
def test_the_kind_of_a_fit_says_what_makes_it_stale(ledger: Ledger, parts: None, add, kind: str, rule: str) -> None:
    add("fit test", code="F1", name="fits", assembly="LEG", kind=kind)
    assert form_of(ledger.snapshot(), "fit test", "F1").rule == rule


def test_a_fit_without_parts_touches_all_that_lie_directly_in_its_assembly(ledger: Ledger, parts: None, add) -> None:
    add("fit test", code="F1", name="fits", assembly="LEG", kind="motion")
    assert form_of(ledger.snapshot(), "fit test", "F1").parts == ("FEMUR", "SHIN")


def test_a_fit_of_an_assembly_that_holds_no_part_itself_names_parts(parts: None, add, refused) -> None:
    text = refused(add, "fit test", code="F1", name="fits", assembly="BEETLE", kind="motion")
    assert text == "parts: BEETLE holds no part directly: name the parts below it"
    add("fit test", code="F1", name="fits", assembly="BEETLE", kind="motion", parts="FEMUR, HORN")


def test_a_fit_belongs_to_the_lowest_assembly_that_holds_all_it_touches(parts: None, add, change, refused) -> None:
    fit = {"code": "F1", "name": "fits", "kind": "motion"}
    text = refused(add, "fit test", **fit, assembly="BEETLE", parts="FEMUR, CLAW")
    assert "F1 belongs to LEG, the lowest assembly that holds all it touches, not to BEETLE: name LEG" in text
    add("fit test", **fit, assembly="LEG", parts="FEMUR, CLAW")
    assert "F1 belongs to TOE" in refused(change, "fit test", "F1", parts=("CLAW",))
    told = refused(change, "fit test", "F1", parts=("FEMUR", "HORN"))
    assert "parts: HORN is not used in LEG nor below it: put the test on BEETLE, the lowest that holds both" in told


def test_a_fit_keeps_its_place_when_what_it_touches_would_move_away(parts: None, add, change, refused) -> None:
    add("fit test", code="F1", name="fits", assembly="LEG", kind="motion", parts="FEMUR, CLAW")
    assert "F1 belongs to BEETLE" in refused(change, "assembly", "TOE", parent="HEAD")


def test_a_fit_that_proves_a_lead_side_is_kept(parts: None, add, change, retire, refused) -> None:
    add("fit test", code="F1", name="fits", assembly="LEG", kind="motion")
    change("assembly", "LEG", lead_side="L", lead_test="F1")
    assert "still needed by lead side of LEG" in refused(retire, "fit test", "F1")
    change("assembly", "LEG", lead_side=None, lead_test=None)
    retire("fit test", "F1")


def test_a_question_holds_assemblies_and_parts(ledger: Ledger, parts: None, add, refused) -> None:
    add("question", code="Q1", build="LB", text="how long?", holds="LEG L, FEMUR R, HORN")
    targets = ledger.snapshot().question_targets
    assert [(t.assembly_id, t.part_id, t.side) for t in targets] == [(2, None, "L"), (None, 1, "R"), (None, 4, None)]
    question = {"code": "Q2", "build": "LB", "text": "?"}
    assert "assembly HEAD has no sides: leave out L" in refused(add, "question", **question, holds="HEAD L")
    assert "part HORN is not handed: leave out R" in refused(add, "question", **question, holds="HORN R")
    assert "no assembly or part «NONE»" in refused(add, "question", **question, holds="NONE")
    add("part", code="HEAD", name="head shell", build="LB")
    assert "«HEAD» is assembly and part" in refused(add, "question", **question, holds="HEAD")


def test_an_answer_without_a_moment_was_given_now(ledger: Ledger, parts: None, add, change) -> None:
    add("question", code="Q1", build="LB", text="how long?")
    change("question", "Q1", answer="as long as the arm")
    assert ledger.snapshot().questions[0].answered_at == AT


def test_goals_name_a_thing_by_their_kind_in_an_open_episode(ledger: Ledger, parts: None, add, refused, write_row):
    add("episode", build="LB", number="14", films_at="+3d")
    add("goal", build="LB", number="14", kind="prove", code="FEMUR")
    assert [(g.part_id, g.assembly_id) for g in ledger.snapshot().goals] == [(1, None)]
    goal = {"build": "LB", "number": "14"}
    assert "already" in refused(add, "goal", **goal, kind="prove", code="FEMUR")
    assert "no step «FEMUR»" in refused(add, "goal", **goal, kind="step", code="FEMUR")
    assert "assembly HEAD has no sides" in refused(add, "goal", **goal, kind="ready", code="HEAD", side="L")
    assert "no episode «LB/15»" in refused(add, "goal", build="LB", number="15", kind="free", text="cut cord")


def test_an_episode_with_goals_and_a_thing_with_an_open_goal_are_kept(parts: None, add, retire, refused) -> None:
    add("episode", build="LB", number="14", films_at="+3d")
    add("goal", build="LB", number="14", kind="prove", code="FEMUR")
    assert "still needed by goal prove" in refused(retire, "episode", "LB/14")
    assert "goal of episode 14" in refused(retire, "part", "FEMUR")
    retire("goal", "LB/14/prove/FEMUR//")
    retire("episode", "LB/14")


def test_a_milestone_wants_assemblies_of_its_build(ledger: Ledger, parts: None, add, refused) -> None:
    add("build", code="DC", name="Drum Cart")
    milestone = {"code": "PARADE", "name": "parade", "kind": "event", "due": "+20d"}
    assert "assembly LEG belongs to another build" in refused(
        add, "milestone", **milestone, build="DC", targets="LEG"
    )
    add("milestone", **milestone, targets="LEG L shown, HEAD")
    targets = ledger.snapshot().milestone_targets
    assert [(t.assembly_id, t.side, t.wanted) for t in targets] == [(2, "L", "shown"), (4, None, "ready")]


def test_filming_days_follow_a_recurrence_rule(add, refused) -> None:
    text = refused(add, "build", code="LB", name="Lantern Beetle", filming_rule="every Saturday")
    assert text.startswith("filming_rule: ")
