"""What can be said in a line, each way once: its shape, the wish that it becomes, and an example.

A shape is read from left to right. A word stands for itself, ``a|b`` for either, ``(word)`` for one that may be left
out. ``{field}`` is a field of the wish, ``{field?}`` one that may be left out, ``{field:noun}`` one that is found as
that noun. ``[on {printer}]`` may stand anywhere after the verb, in any order; ``[(on) {place}]`` without its word too
once all before it is said.
"""

from dataclasses import dataclass
from typing import Any

from buildlog.terms import FitOutcome, StepKind


@dataclass(frozen=True, slots=True)
class Phrase:
    """``given`` are fields that the words themselves tell; ``settle`` names what completes the fields afterwards.

    ``clearly``: a line that says more than this, or asks, stays a note.
    """

    shape: str
    wish: str
    means: str
    example: str
    given: tuple[tuple[str, Any], ...] = ()
    settle: str = ""
    kinds: tuple[StepKind, ...] = ()
    clearly: bool = False


def _worked(verb: str, example: str, *kinds: StepKind) -> Phrase:
    shape = verb + " {place} [took {real_time}]"
    return Phrase(shape, "tick_step", "tick the step of that kind", example, settle="step of a kind", kinds=kinds)


def _clearly(shape: str, wish: str, means: str, example: str, settle: str = "") -> Phrase:
    return Phrase(shape, wish, means, example, settle=settle, clearly=True)


_ORDER = ("place_order", "order packs of materials and bought items")
_FROM = " [from|at {supplier}] [expected|due|arriving {expected}]"
_LOAD = ("load_spool", "load a spool")
_SCRAP = ("scrap_pieces", "throw pieces away")
_TO_SCRAP = " scrap|scrapped|binned (because|since) {why:reason?}"
_WHERE = " [(on|in) {place}]"
_MEASURED = " [(measured|is|with) {measured}]"
_THEN = " [(then) {what_then}] [of {scrap:touched}] [because {text}]"
_FOUND = _WHERE + _MEASURED + _THEN
_FAILED = _WHERE + _MEASURED + " [(then) {what_then}] [of {scrap:touched}] [(because) {text}]"


def _fit(shape: str, means: str, example: str, outcome: FitOutcome | None = None) -> Phrase:
    given = (("outcome", outcome.value),) if outcome is not None else ()
    return Phrase(shape, "record_fit", means, example, given, "place of the test")


PHRASES: tuple[Phrase, ...] = (
    Phrase("weighed|weigh {spool} {gross}", "weigh_spool", "put a spool on the scale", "weighed BLACK-3 812 g"),
    Phrase("weighed|weigh {gross} (of) {spool}", "weigh_spool", "put a spool on the scale", "weighed 812 g BLACK-3"),
    Phrase("{spool} weighs|weighed {gross}", "weigh_spool", "put a spool on the scale", "BLACK-3 weighs 812 g"),
    Phrase(
        "started|start {file} [on {printer:printer}] [with {spools}]",
        "start_print",
        "start a print",
        "started PLATES-7 on BIG with BLACK-3 at 21:40",
    ),
    Phrase("queued|queue {file} [on {printer}]", "queue_print", "queue a print", "queued PLATES-7 on BIG"),
    Phrase(
        "finished|finish {printer:running print} [took {real_time}] [with|drew {grams}]"
        " [(but|except) {outcomes:outcomes}]",
        "finish_print",
        "a print came out good",
        "finished BIG",
    ),
    Phrase(
        "failed|fail {printer:running print} {cause:cause?} [ran {real_time}] [kept {outcomes:outcomes}]",
        "fail_print",
        "a print went wrong",
        "failed BIG at 14:20 stringing kept FL07 L good",
        settle="pieces kept",
    ),
    Phrase(
        "{printer:running print} (is|has) finished|done [took {real_time}] [with|drew {grams}]"
        " [(but|except) {outcomes:outcomes}]",
        "finish_print",
        "a print came out good",
        "BIG is done",
    ),
    Phrase(
        "{printer:running print} (has) failed {cause:cause?} [ran {real_time}] [kept {outcomes:outcomes}]",
        "fail_print",
        "a print went wrong",
        "BIG failed, stringing",
        settle="pieces kept",
    ),
    Phrase("restarted {printer:running print}", "restarted", "the first layer was begun again", "restarted BIG"),
    Phrase("cancelled (print) {job}", "cancel_print", "a queued print will not run", "cancelled print 12"),
    Phrase("loaded|load {spool} (on|onto|in) {printer}", "load_spool", "load a spool", "loaded BLACK-3 on BIG"),
    Phrase("loaded|load {printer} (with) {spool}", "load_spool", "load a spool", "loaded BIG with BLACK-3"),
    _clearly("{printer} (is|was|got) (now) loaded (with) {spool}", *_LOAD, "BIG loaded with BLACK-3"),
    _clearly("{printer} has|got {spool} loaded|on", *_LOAD, "BIG has BLACK-3 loaded"),
    _clearly("{spool} (is|was) (now) loaded|put (on|onto|in|into|to) {printer}", *_LOAD, "BLACK-3 loaded on BIG"),
    _clearly("{spool} is|went (now) on|onto|in|into {printer}", *_LOAD, "BLACK-3 is on BIG"),
    _clearly("put|mounted {spool} on|onto|in|into {printer}", *_LOAD, "put BLACK-3 on BIG"),
    Phrase("unloaded {printer}", "unload_spool", "take the spool off", "unloaded BIG"),
    Phrase(
        "swapped|changed {printer} to {spool} [drew {grams}]",
        "swap_spool",
        "go on with another spool",
        "swapped BIG to BLACK-4",
    ),
    Phrase("put (a) nozzle {nozzle} on|in {printer}", "set_nozzle", "another nozzle", "put nozzle 0.6 on BIG"),
    Phrase(
        "{printer} (is) down|broke|broken (down) [until {until}] [because {why}]",
        "printer_down",
        "a printer is down",
        "BIG is down because fan",
    ),
    Phrase("{printer} (is) up|back|fixed|repaired", "printer_up", "a printer is up again", "BIG is up"),
    Phrase("opened|open {spool}", "open_spool", "a spool was opened", "opened BLACK-4"),
    Phrase("sealed|seal {spool}", "seal_spool", "a spool was sealed", "sealed BLACK-4"),
    Phrase("dried {spool} [(for) {time}]", "dry_spool", "a spool came out of the dryer", "dried BLACK-4 for 6 h"),
    Phrase("{spool} (is) empty", "empty_spool", "a spool is used up", "BLACK-3 is empty"),
    Phrase("used up {spool}", "empty_spool", "a spool is used up", "used up BLACK-3"),
    Phrase(
        "drew|used {grams} of {spool} [for {why}]",
        "draw_filament",
        "filament that went elsewhere",
        "used 20 g of BLACK-3 for a test",
    ),
    Phrase("ordered|reordered {lines:ordered}" + _FROM, *_ORDER, "ordered 2 ABS-BLACK, 60 M4 screws from FIL"),
    _clearly(
        "placed (an|the|our) order (for|of) {lines:ordered}" + _FROM, *_ORDER, "placed an order for 2 ABS-BLACK"
    ),
    _clearly("order {lines:counted}" + _FROM, *_ORDER, "order 2 ABS-BLACK from FIL"),
    _clearly("{lines:counted} (is|are|was|were) (now) ordered" + _FROM, *_ORDER, "2 ABS-BLACK ordered from FIL"),
    Phrase(
        "{packs?} (spools|spool|packs|pack) (of) {material} came|arrived",
        "receive_spool",
        "spools came",
        "2 spools of ABS-BLACK came",
    ),
    Phrase("(order) {order} came|arrived", "receive_order", "all of an order came", "O1 came"),
    Phrase("received (order) {order}", "receive_order", "all of an order came", "received O1"),
    Phrase("{amount} {item} came|arrived", "receive_bought", "a bought item came", "3 M4 screws came"),
    Phrase(
        "received {packs} (spools|spool|packs|pack) (of) {material}",
        "receive_spool",
        "spools came",
        "received 2 ABS-BLACK",
    ),
    Phrase("received {amount} {item}", "receive_bought", "a bought item came", "received 3 M4 screws"),
    Phrase("counted|count {amount} {item}", "count_bought", "count a bought item", "counted 40 M4 screws"),
    Phrase("used|took {amount} {item} [for {why}]", "draw_bought", "take some", "used 2 M4 screws for the stand"),
    Phrase("{item} is|are {level}", "set_level", "what a look said", "glue is low"),
    Phrase(
        "counted|count {pieces} {part:pieces} [in {box}]",
        "count_part",
        "count pieces",
        "counted 5 FL07 L in SHELF",
        settle="part and side",
    ),
    Phrase(
        "made {pieces} {part:pieces} [in {box}]",
        "make_pieces",
        "make pieces by hand",
        "made 2 CORD",
        settle="part and side",
    ),
    Phrase(
        "fitted|put {piece} in|into {slot:position}",
        "fit_piece",
        "fit a piece",
        "fitted FL07R-C in LEG R",
        settle="slot",
    ),
    Phrase("took|taken {piece} out [because {why}]", "take_out", "take a piece out", "took FL07R-C out"),
    Phrase(
        "scrapped|scrap|binned {pieces?} {what} [because {why}]",
        "scrap_pieces",
        "throw pieces away",
        "scrapped FL07R-C",
    ),
    _clearly(
        "{pieces?} (of) {what:marked or part} is|was (now)" + _TO_SCRAP,
        *_SCRAP,
        "FL07R-C is scrap, warped",
        settle="one of it",
    ),
    _clearly(
        "(all) {pieces?} (of) {what:marked or part} (are|were) (now)" + _TO_SCRAP,
        *_SCRAP,
        "2 FL07 L are scrap, warped",
    ),
    Phrase("lost {pieces?} {what}", "mark_missing", "pieces are missing", "lost 1 FL07 L"),
    Phrase("found {pieces?} {what} [in {box}]", "found_pieces", "missing pieces were found", "found 1 FL07 L"),
    Phrase("lent {pieces?} {what} [to {to}]", "lend_pieces", "somebody has pieces", "lent 1 FL07 L to a friend"),
    Phrase("{what} came back [in {box}]", "pieces_back", "lent pieces came back", "FL07 L came back"),
    Phrase("moved {pieces?} {what} to|into {box}", "move_pieces", "into another box", "moved 2 FL07 L to SHELF"),
    Phrase("repaired {pieces?} {what}", "repair_pieces", "whole again", "repaired FL07R-C"),
    Phrase(
        "{what} (in|of|on) {stands_in?} cracked|broke|snapped|chipped|tore|split|bent at|on {where} [because {why}]",
        "damage_pieces",
        "something broke",
        "FL07R-C cracked at the tip",
        settle="standing where",
    ),
    Phrase(
        "ticked|tick|did (step) {step:step in a position} (on|in) {place?} [took {real_time}]",
        "tick_step",
        "tick a step",
        "ticked LEG-BOND on LEG L",
        settle="place of the step",
    ),
    Phrase(
        "ticked|tick|did (step) {step:step on pieces} on {pieces?} {what} [took {real_time}]",
        "tick_step",
        "tick a step on pieces",
        "ticked FL07-SAND on 2 FL07 L",
    ),
    _worked("glued|bonded", "glued LEG L", StepKind.BOND, StepKind.SOLVENT_BOND),
    _worked("sanded", "sanded HEAD", StepKind.SAND),
    _worked("painted", "painted HEAD", StepKind.PAINT),
    _worked("drilled", "drilled HEAD", StepKind.DRILL),
    _worked("wired", "wired HEAD", StepKind.WIRE),
    _worked("assembled", "assembled HEAD", StepKind.ASSEMBLE),
    _fit(
        "fit|tested|test (test) (of) {test} (on|in) {place?} {outcome}" + _FOUND,
        "what a fit test found",
        "fit JAW passed",
    ),
    _fit(
        "fit|tested|test (test) (of) {test} (on|in) {place?} (measured|is) {measured}" + _WHERE + _THEN,
        "what a fit test measured",
        "fit JAW measured 0.4 mm",
    ),
    _fit(
        "fit|tested|test (test) (of) {test} (on|in) {place?} failed" + _FAILED,
        "a fit failed",
        "fit JAW failed too tight then rework",
        FitOutcome.FAILED,
    ),
    _fit("{test} (on|in) {place?} passed|fits" + _WHERE + _MEASURED, "a fit passed", "JAW passed", FitOutcome.PASSED),
    _fit("{test} (on|in) {place?} failed" + _FAILED, "a fit failed", "JAW failed then rework", FitOutcome.FAILED),
    _fit(
        "{test} (on|in) {place?} (does) not|doesn't fit" + _FAILED,
        "a fit failed",
        "JAW does not fit, reprint",
        FitOutcome.FAILED,
    ),
    _fit(
        "{test} (on|in) {place?} measured|is {measured}" + _WHERE + _THEN,
        "what a fit test measured",
        "JAW measured 0.4 mm on HEAD",
    ),
    _fit(
        "{test} (on|in) {place?} then {what_then}" + _WHERE + _MEASURED + " [of {scrap:touched}] [because {text}]",
        "a fit failed",
        "JAW on HEAD then reprint of VISOR measured 0.8 mm",
        FitOutcome.FAILED,
    ),
    _fit("measured {test} {measured}" + _WHERE + _THEN, "what a fit test measured", "measured JAW 0.4 mm on HEAD"),
    _fit("passed {test}" + _WHERE + _MEASURED, "a fit passed", "passed JAW on HEAD", FitOutcome.PASSED),
    _fit("failed|fail {test}" + _FAILED, "a fit failed", "failed JAW 0.8 mm rework", FitOutcome.FAILED),
    Phrase(
        "question|ask|asked {text} [(holds) {holds:held}]",
        "ask_question",
        "ask what is undecided",
        "question: which visor, and who prints it? HEAD",
        settle="build in view",
    ),
    Phrase(
        "answered|answer {question} {answer}", "answer_question", "answer a question", "answered Q1 the brass one"
    ),
    Phrase("filmed|film {shot}", "film_shot", "a shot is filmed", "filmed SHOT-1"),
    Phrase(
        "filmed|film {shot} (and) (is) copied|safe (and) (looked) (at)",
        "film_shot",
        "a shot is filmed, its footage copied and looked at",
        "filmed SHOT-1 copied",
        (("safe", True),),
    ),
    Phrase("{shot} (is|was) filmed", "film_shot", "a shot is filmed", "SHOT-1 filmed"),
    Phrase(
        "{shot} (is|was) filmed (and) copied|safe (and) (looked) (at)",
        "film_shot",
        "a shot is filmed, its footage copied and looked at",
        "SHOT-1 filmed and copied",
        (("safe", True),),
    ),
    Phrase(
        "(the) (footage) (of) {shot} (footage) (is|was) copied|safe (and) (looked) (at)",
        "footage_safe",
        "its footage is copied and looked at",
        "SHOT-1 safe",
    ),
    Phrase(
        "copied (the) (footage) (of) {shot} (footage) (and) (looked) (at)",
        "footage_safe",
        "its footage is copied and looked at",
        "copied SHOT-1 and looked at",
    ),
    Phrase(
        "plan|planned shot {what} [before {step}]",
        "plan_shot",
        "something to film",
        "plan shot the left eye opens",
        settle="build in view",
    ),
)
"""The first of two that say as much is taken."""
