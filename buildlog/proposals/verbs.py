"""Every daily action as a command, in the shell and on the screens: group, verb, wish, and which fields are typed
without their names."""

from dataclasses import dataclass
from typing import Any

from buildlog.proposals.wishes import wishes


@dataclass(frozen=True, slots=True)
class Verb:
    """``buildlog GROUP NAME``; a group of "" stands alone. ``help`` where the wish has no words of its own."""

    group: str
    name: str
    wish: str
    positional: tuple[str, ...] = ()
    help: str = ""

    @property
    def kind(self) -> type[Any]:
        return wishes()[self.wish]

    @property
    def called(self) -> str:
        return f"{self.group} {self.name}".strip()

    @property
    def told(self) -> str:
        """What its help says, else the wish's own first words; what its docstring says of code is left out."""
        words = (self.kind.__doc__ or "").strip()
        if self.help or words.startswith(f"{self.kind.__name__}("):  # without a docstring it is given its signature
            return self.help
        return words.split("\n\n")[0].replace("``", "")


VERBS = (
    Verb("print", "queue", "queue_print", ("file",)),
    Verb("print", "start", "start_print", ("file",)),
    Verb("print", "ran", "print_ran", ("file",)),
    Verb("print", "finish", "finish_print", ("printer",)),
    Verb("print", "fail", "fail_print", ("printer",)),
    Verb("print", "cancel", "cancel_print", ("job",), "Take a print off the queue."),
    Verb("print", "restarted", "restarted", ("printer",)),
    Verb("print", "swap-spool", "swap_spool", ("spool",)),
    Verb("print", "correct", "correct_print", ("job",)),
    Verb("print", "move", "move_print", ("job",)),
    Verb("printer", "load", "load_spool", ("printer", "spool")),
    Verb("printer", "unload", "unload_spool", ("printer",), "Take the spool off a head."),
    Verb("printer", "nozzle", "set_nozzle", ("printer", "nozzle"), "Put another nozzle in."),
    Verb("printer", "bed", "set_bed", ("printer", "surface"), "Put another bed surface on."),
    Verb("printer", "down", "printer_down", ("printer",), "The printer is down until it is up again."),
    Verb("printer", "up", "printer_up", ("printer",), "The printer is up again."),
    Verb("spool", "receive", "receive_spool", ("material",)),
    Verb("spool", "weigh", "weigh_spool", ("spool", "gross")),
    Verb("spool", "open", "open_spool", ("spool",), "The spool was opened: from now on it draws moisture."),
    Verb("spool", "seal", "seal_spool", ("spool",), "The spool was sealed again."),
    Verb("spool", "dry", "dry_spool", ("spool",)),
    Verb("spool", "load", "load_spool", ("spool", "printer")),
    Verb("spool", "empty", "empty_spool", ("spool",)),
    Verb("spool", "draw", "draw_filament", ("spool", "grams")),
    Verb("bought", "receive", "receive_bought", ("item", "amount"), "A bought item has come, ordered or not."),
    Verb("bought", "count", "count_bought", ("item", "amount")),
    Verb("bought", "level", "set_level", ("item", "level")),
    Verb("bought", "draw", "draw_bought", ("item", "amount")),
    Verb("bought", "return", "return_bought", ("item", "amount")),
    Verb("lot", "count", "count_part", ("part", "pieces")),
    Verb("lot", "recount", "count_lot", ("what", "pieces")),
    Verb("lot", "make", "make_pieces", ("part",)),
    Verb("lot", "fit", "fit_piece", ("slot", "piece"), "Fit a piece in a slot."),
    Verb("lot", "take-out", "take_out", ("slot",)),
    Verb("lot", "clear", "clear_slot", ("slot",)),
    Verb("lot", "scrap", "scrap_pieces", ("what",), "Throw pieces away."),
    Verb("lot", "move", "move_pieces", ("what", "box"), "Put pieces in another box."),
    Verb("lot", "damage", "damage_pieces", ("what", "where")),
    Verb("lot", "repair", "repair_pieces", ("what",), "Damaged pieces are whole again."),
    Verb("lot", "missing", "mark_missing", ("what",), "Pieces are not where they should be."),
    Verb("lot", "found", "found_pieces", ("what",), "Missing pieces were found."),
    Verb("lot", "lend", "lend_pieces", ("what",), "Somebody has pieces for a while."),
    Verb("lot", "back", "pieces_back", ("what",), "Lent pieces came back."),
    Verb("box", "count", "count_box", ("box", "counted")),
    Verb("box", "empty", "move_contents", ("box", "to")),
    Verb("", "stand-in", "put_stand_in", ("slot",)),
    Verb("part", "revise", "revise", ("part",)),
    Verb("part", "supersede", "supersede", ("part", "by")),
    Verb("part", "stage", "set_stage", ("part", "stage"), "Set how far a part is: idea, drawn, trial or proven."),
    Verb("position", "remake", "remake_position", ("place",)),
    Verb("step", "done", "tick_step", ("step", "place")),
    Verb("step", "reopen", "reopen_step", ("step", "place")),
    Verb("fit", "record", "record_fit", ("test", "place", "outcome"), "Record what a fit test found."),
    Verb("question", "ask", "ask_question", ("text",)),
    Verb("question", "answer", "answer_question", ("question", "answer"), "Answer a question: what it held goes on."),
    Verb("question", "reopen", "reopen_question", ("question",)),
    Verb("order", "place", "place_order", ("lines",)),
    Verb("order", "receive", "receive_order", ("order",)),
    Verb("order", "expect", "expect_order", ("order", "expected")),
    Verb("order", "close", "close_order", ("order",)),
    Verb(
        "episode", "plan", "plan_episode", ("build", "films_at"), "Plan an episode with its filming moment and goals."
    ),
    Verb("episode", "goals", "add_goals", ("build", "goals")),
    Verb("episode", "tick", "tick_goal", ("build", "goal")),
    Verb("episode", "close", "close_episode", ("build", "number")),
    Verb("shot", "plan", "plan_shot", ("what",)),
    Verb("shot", "filmed", "film_shot", ("shot",)),
    Verb("shot", "safe", "footage_safe", ("shot",)),
    Verb("shot", "lost", "footage_lost", ("shot",)),
    Verb("shot", "overrule", "overrule_shot", ("shot", "why")),
    Verb("viewer", "asks", "viewer_asks", ("text",)),
    Verb("viewer", "answer", "answer_viewer", ("question", "answer")),
    Verb("promise", "make", "make_promise", ("who", "promised")),
    Verb("promise", "keep", "keep_promise", ("promise",)),
    Verb("", "remove-note", "remove_note", ("note",), "Take a note away."),
)

GROUP_HELP = {
    "print": "Queue, start, finish, fail and correct prints.",
    "printer": "What is on a printer: spool, nozzle, bed, down and up.",
    "spool": "Receive, weigh, dry, open, seal, load and empty spools.",
    "bought": "Bought items: receive, count, draw, return.",
    "lot": "Pieces: count, make, fit, take out, move, scrap, lend, find.",
    "part": "Revise and supersede parts, set their stage.",
    "position": "Remake a bonded position.",
    "step": "Tick bench steps, open them again.",
    "fit": "Record what a fit test found.",
    "question": "Ask and answer what holds parts or assemblies.",
    "order": "Place, receive and close orders.",
    "episode": "Plan, fill and close episodes.",
    "shot": "Plan and film shots, copy their footage, go on without one.",
    "viewer": "What viewers ask, and what they are answered.",
    "promise": "Who supplied what, and was promised what.",
    "box": "Count a box, empty it into another one, print its label list.",
    "milestone": "Dated things to make.",
}
