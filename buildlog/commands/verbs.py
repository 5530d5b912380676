"""Every daily action as a command: group, verb, wish, and which fields are typed without their names."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Verb:
    """``buildlog GROUP NAME``; a group of "" stands alone."""

    group: str
    name: str
    wish: str
    positional: tuple[str, ...] = ()


VERBS = (
    Verb("print", "queue", "queue_print", ("file",)),
    Verb("print", "start", "start_print", ("file",)),
    Verb("print", "finish", "finish_print", ("printer",)),
    Verb("print", "fail", "fail_print", ("printer",)),
    Verb("print", "cancel", "cancel_print", ("job",)),
    Verb("print", "restarted", "restarted", ("printer",)),
    Verb("print", "swap-spool", "swap_spool", ("spool",)),
    Verb("print", "correct", "correct_print", ("job",)),
    Verb("print", "move", "move_print", ("job",)),
    Verb("printer", "load", "load_spool", ("printer", "spool")),
    Verb("printer", "unload", "unload_spool", ("printer",)),
    Verb("printer", "nozzle", "set_nozzle", ("printer", "nozzle")),
    Verb("printer", "bed", "set_bed", ("printer", "surface")),
    Verb("printer", "down", "printer_down", ("printer",)),
    Verb("printer", "up", "printer_up", ("printer",)),
    Verb("spool", "receive", "receive_spool", ("material",)),
    Verb("spool", "weigh", "weigh_spool", ("spool", "gross")),
    Verb("spool", "open", "open_spool", ("spool",)),
    Verb("spool", "seal", "seal_spool", ("spool",)),
    Verb("spool", "dry", "dry_spool", ("spool",)),
    Verb("spool", "load", "load_spool", ("spool", "printer")),
    Verb("spool", "empty", "empty_spool", ("spool",)),
    Verb("spool", "draw", "draw_filament", ("spool", "grams")),
    Verb("bought", "receive", "receive_bought", ("item", "amount")),
    Verb("bought", "count", "count_bought", ("item", "amount")),
    Verb("bought", "level", "set_level", ("item", "level")),
    Verb("bought", "draw", "draw_bought", ("item", "amount")),
    Verb("bought", "return", "return_bought", ("item", "amount")),
    Verb("lot", "count", "count_part", ("part", "pieces")),
    Verb("lot", "recount", "count_lot", ("what", "pieces")),
    Verb("lot", "make", "make_pieces", ("part",)),
    Verb("lot", "fit", "fit_piece", ("slot", "piece")),
    Verb("lot", "take-out", "take_out", ("slot",)),
    Verb("lot", "clear", "clear_slot", ("slot",)),
    Verb("lot", "scrap", "scrap_pieces", ("what",)),
    Verb("lot", "move", "move_pieces", ("what", "box")),
    Verb("lot", "damage", "damage_pieces", ("what", "where")),
    Verb("lot", "repair", "repair_pieces", ("what",)),
    Verb("lot", "missing", "mark_missing", ("what",)),
    Verb("lot", "found", "found_pieces", ("what",)),
    Verb("lot", "lend", "lend_pieces", ("what",)),
    Verb("lot", "back", "pieces_back", ("what",)),
    Verb("", "stand-in", "put_stand_in", ("slot",)),
    Verb("part", "revise", "revise", ("part",)),
    Verb("part", "supersede", "supersede", ("part", "by")),
    Verb("part", "stage", "set_stage", ("part", "stage")),
    Verb("position", "remake", "remake_position", ("place",)),
    Verb("step", "done", "tick_step", ("step", "place")),
    Verb("step", "reopen", "reopen_step", ("step", "place")),
    Verb("fit", "record", "record_fit", ("test", "place", "outcome")),
    Verb("question", "ask", "ask_question", ("text",)),
    Verb("question", "answer", "answer_question", ("question", "answer")),
    Verb("question", "reopen", "reopen_question", ("question",)),
    Verb("order", "place", "place_order", ("lines",)),
    Verb("order", "receive", "receive_order", ("order",)),
    Verb("order", "close", "close_order", ("order",)),
    Verb("episode", "plan", "plan_episode", ("build", "films_at")),
    Verb("episode", "goals", "add_goals", ("build", "goals")),
    Verb("episode", "tick", "tick_goal", ("build", "goal")),
    Verb("episode", "close", "close_episode", ("build", "number")),
    Verb("", "note", "add_note", ("text",)),
    Verb("", "remove-note", "remove_note", ("note",)),
)
