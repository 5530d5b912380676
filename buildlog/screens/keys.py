"""Every key, declared once. Bindings, the key line, the `?` help and the README's table are drawn from KEYS.

    class Today(Screen[None]):
        BINDINGS = bindings(Scope.TODAY)      # the screen has one action_ID method for each key of its scope

A key's `id` is the name of its action unless `call` gives it, with `{key}` for the key that was pressed.
Textual finds `action_<name>` on the widget, the screen or the app. `shown` keys stand in the key line, all
stand in the help.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from textual.binding import Binding, BindingType

from buildlog.facts.frozen import frozen


class Scope(StrEnum):
    EVERYWHERE = "everywhere"
    LIST = "any list"
    TODAY = "Today"
    MIRROR = "Mirror"
    PRINTS = "Prints"
    STOCK = "Stock"
    FITS = "Fits"
    JOURNAL = "Journal"
    THINGS = "Things"
    CATCH_UP = "Catch up"
    BOXES = "Boxes"
    EPISODE = "Episode"
    DIALOG = "any question"
    CHOICE = "a choice"
    YES_NO = "a yes or no"
    FORM = "a form"
    QUICK = "one line"
    WINDOW = "leaving and back"
    HELP = "the help"


SCREENS = (
    Scope.TODAY,
    Scope.MIRROR,
    Scope.PRINTS,
    Scope.STOCK,
    Scope.FITS,
    Scope.JOURNAL,
    Scope.THINGS,
    Scope.CATCH_UP,
    Scope.BOXES,
    Scope.EPISODE,
)


@frozen
class Key:
    """One key: what it is called, what it does in a sentence, and where it works."""

    id: str
    keys: tuple[str, ...]
    label: str
    tooltip: str
    scopes: tuple[Scope, ...]
    shown: bool = True
    call: str = ""

    @property
    def action(self) -> str:
        return self.call or self.id

    @property
    def face(self) -> str:
        """The key as it is printed: `s`, `↑`, `ctrl+r`."""
        shown = [FACES.get(key, key) for key in self.keys]
        return f"{shown[0]}–{shown[-1]}" if len(shown) > 2 else " ".join(shown)


FACES = {
    "up": "↑",
    "down": "↓",
    "left": "←",
    "right": "→",
    "pageup": "pgup",
    "pagedown": "pgdn",
    "escape": "esc",
}

_ALL = (Scope.EVERYWHERE,)
_LIST = (Scope.LIST,)
_TODAY, _MIRROR, _PRINTS, _STOCK, _FITS, _JOURNAL, _THINGS, _CATCH_UP, _BOXES, _EPISODE = (
    (scope,) for scope in SCREENS
)
_NOTED = tuple(scope for scope in SCREENS if scope is not Scope.CATCH_UP)

KEYS: tuple[Key, ...] = (
    Key("go_today", ("1",), "Today", "What runs, what to put on, what to do.", _ALL, False, "go('today')"),
    Key("go_mirror", ("2",), "Mirror", "How far each assembly is, both sides.", _ALL, False, "go('mirror')"),
    Key("go_prints", ("3",), "Prints", "What is on each printer and ready.", _ALL, False, "go('prints')"),
    Key("go_stock", ("4",), "Stock", "Whether the material will last.", _ALL, False, "go('stock')"),
    Key("go_fits", ("5",), "Fits", "What must be tested, failed, went stale.", _ALL, False, "go('fits')"),
    Key("go_episode", ("7",), "Episode", "Goals, shots, and the week's text.", _ALL, False, "go('episode')"),
    Key("go_journal", ("8",), "Journal", "What changed, when; undo and redo.", _ALL, False, "go('journal')"),
    Key("go_things", ("9",), "Things", "All that can be added and changed.", _ALL, False, "go('things')"),
    Key("go_catch_up", ("0",), "Catch up", "What should have happened since.", _ALL, False, "go('catch_up')"),
    Key("go_boxes", ("ctrl+o",), "Boxes", "What lies where, is away or broken.", _ALL, False, "go('boxes')"),
    Key("start_print", ("s",), "start", "Start one of the three likeliest ready files.", _TODAY + _PRINTS + _MIRROR),
    Key("finish_print", ("f",), "finish", "The print is off the bed; say how it came out.", _TODAY + _PRINTS),
    Key("fail_print", ("x",), "fail", "The print went wrong: when, and what can be used.", _TODAY + _PRINTS),
    Key("restart_print", ("z",), "restarted", "The first layer did not hold; begun again.", _TODAY + _PRINTS),
    Key("cancel_print", ("c",), "cancel", "Take a queued print out of the queue.", _PRINTS),
    Key("queue_print", ("p",), "queue", "Put a ready file in the queue of a printer.", _PRINTS),
    Key("correct_print", ("k",), "correct", "Correct what was booked for a finished print.", _PRINTS, False),
    Key("printer_down", ("d",), "down or up", "The printer is down for a while, or up.", _PRINTS, False),
    Key("swap_spool", ("v",), "swap", "Go on with another spool in a print that runs.", _PRINTS, False),
    Key("set_nozzle", ("o",), "nozzle", "Another nozzle was put on a head.", _PRINTS, False),
    Key("type_window", ("b",), "leaving", "Type when you leave and when you are back.", _TODAY),
    Key("load_spool", ("l",), "load", "Put a spool on a head of a printer.", _TODAY + _PRINTS + _STOCK),
    Key("weigh_spool", ("w",), "weigh", "Put a spool on the scale and enter the grams.", _TODAY + _STOCK),
    Key("receive_order", ("e",), "receive", "A parcel came: what of the order was in it.", _TODAY + _STOCK),
    Key("place_order", ("o",), "order", "Place an order of what a supplier's basket holds.", _STOCK),
    Key("dry_spool", ("d",), "dried", "The spool came out of the dryer.", _STOCK),
    Key("open_or_seal", ("p",), "open or seal", "Open a sealed spool, or seal an open one.", _STOCK),
    Key("empty_spool", ("m",), "used up", "The spool is empty; its reel can be weighed.", _STOCK),
    Key("count_item", ("k",), "count", "Count what lies there of a bought item.", _STOCK),
    Key("tick_step", ("t",), "tick", "Tick a step of the bench work as done.", _TODAY + _MIRROR),
    Key("record_fit", ("r",), "fit", "Record what a fit test found.", _TODAY + _MIRROR + _FITS),
    Key("fit_piece", ("i",), "put in", "Fit a piece into the slot.", _MIRROR),
    Key("take_out", ("o",), "take out", "Take the piece out and say what becomes of it.", _MIRROR),
    Key("put_stand_in", ("d",), "stand-in", "Put something temporary into a slot.", _MIRROR),
    Key("edit_here", ("e",), "edit", "All that can be edited here: usages, steps, waits, sides, parts.", _MIRROR),
    Key("move_here", ("m",), "move", "Move the assembly beneath another one.", _MIRROR, False),
    Key("revise_here", ("v",), "revise", "A new revision of a part, and what old ones are good for.", _MIRROR, False),
    Key("answer_question", ("a",), "answer", "Answer the open question that holds this.", _MIRROR, False),
    Key("unfold_alerts", ("a",), "all alerts", "Show all alerts, or fold them.", _TODAY + _STOCK, False),
    Key("show_all", ("p",), "passed too", "Show those passed and those to come, or hide them.", _FITS),
    Key("show_rows", ("r",), "rows", "Show the rows before and after, or hide them.", _JOURNAL),
    Key("take_back_this", ("t",), "take this back", "Take back the change under the cursor.", _JOURNAL),
    Key("add_thing", ("a",), "add", "Add one by its form, with what the last one said.", _THINGS),
    Key("add_with_parts", ("p",), "with parts", "Add an assembly and its parts by one form.", _THINGS + _MIRROR),
    Key("edit_thing", ("e",), "edit", "Change the thing under the cursor, or all that are marked.", _THINGS),
    Key("copy_thing", ("c",), "copy", "Add one like the thing under the cursor.", _THINGS),
    Key("retire_thing", ("x",), "retire", "Take it, or all that are marked, out of use.", _THINGS),
    Key("bring_back", ("b",), "bring back", "Take one that was retired into use again.", _THINGS),
    Key("add_goal", ("a",), "goal", "Add a goal: an assembly, a step, a part, a question or free words.", _EPISODE),
    Key("tick_goal", ("t",), "tick", "The goal is reached; once more, it is open again.", _EPISODE),
    Key("plan_shot", ("s",), "shot", "Plan a shot, and say which step it comes before.", _EPISODE),
    Key("film_shot", ("f",), "filmed", "The shot is filmed: when, and whether it is copied.", _EPISODE),
    Key("footage_safe", ("c",), "copied", "The footage is copied and looked at.", _EPISODE),
    Key("close_episode", ("x",), "close", "Close it with its text; what is open goes on to the next.", _EPISODE),
    Key("write_week", ("w",), "write", "Write the week's text to a file.", _EPISODE),
    Key("show_text", ("p",), "text", "Read and scroll the week's text, or go back to the list.", _EPISODE),
    Key("other_episode", ("e",), "episode", "Show another episode, or plan the next one.", _EPISODE),
    Key("footage_lost", ("l",), "lost", "There is no footage after all: film it again.", _EPISODE, False),
    Key("overrule_shot", ("o",), "without", "Go on without the shot: its step is held no longer.", _EPISODE, False),
    Key("viewer_asks", ("v",), "viewer", "Write down what a viewer asked.", _EPISODE, False),
    Key("make_promise", ("m",), "promise", "Write down what was promised to somebody who helped.", _EPISODE, False),
    Key("count_box", ("c",), "count", "Count what lies in the box, against the book.", _BOXES),
    Key("empty_box", ("e",), "empty", "Put all that lies in the box into another one.", _BOXES),
    Key("place_box", ("s",), "stands", "Say where the box stands, with all in it.", _BOXES),
    Key("move_pieces", ("m",), "move", "Put all marked into another box, or this.", _BOXES, True, "piece('move')"),
    Key("damage_piece", ("d",), "damage", "It broke: where and why, in use or not.", _BOXES, True, "piece('damage')"),
    Key("tick_helped", ("t",), "tick", "Tick the marked steps of a helper as done.", _BOXES),
    Key("write_page", ("p",), "page", "Write the label, helper's list or repair kit.", _BOXES),
    Key("miss_piece", ("x",), "missing", "It is not where it should be.", _BOXES, False, "piece('missing')"),
    Key("find_piece", ("f",), "found", "Missing pieces were found.", _BOXES, False, "piece('found')"),
    Key("lend_piece", ("l",), "lend", "Somebody has it for a while.", _BOXES, False, "piece('lend')"),
    Key("get_back", ("b",), "back", "Lent pieces came back.", _BOXES, False, "piece('back')"),
    Key("repair_piece", ("r",), "repaired", "Damaged pieces are whole again.", _BOXES, False, "piece('repair')"),
    Key("scrap_piece", ("k",), "scrap", "Throw it away.", _BOXES, False, "piece('scrap')"),
    Key("add_note", ("n",), "note", "Write a dated note on the thing under the cursor.", _NOTED, False),
    Key("as_planned", ("y",), "as planned", "It happened as it stands there, at that moment.", _CATCH_UP),
    Key("went_wrong", ("x",), "failed", "It went wrong, or only in part: asks how.", _CATCH_UP),
    Key("not_done", ("n",), "not done", "It has not happened.", _CATCH_UP),
    Key("ask_later", ("l",), "later", "Leave it out for this sitting; asked again next time.", _CATCH_UP),
    Key("tell_more", ("a",), "something else", "Tell what nobody expected, with when it was.", _CATCH_UP),
    Key("cursor_up", ("up",), "up", "One line up.", _LIST, False),
    Key("cursor_down", ("down",), "down", "One line down.", _LIST, False),
    Key("page_up", ("pageup",), "page up", "One page up.", _LIST, False),
    Key("page_down", ("pagedown",), "page down", "One page down.", _LIST, False),
    Key("first_row", ("home",), "first", "To the first line.", _LIST, False),
    Key("last_row", ("end",), "last", "To the last line.", _LIST, False),
    Key("fold", ("left",), "fold", "Fold what is beneath away, or go to the line above it.", _LIST, False),
    Key("unfold", ("right",), "unfold", "Show what is beneath again.", _LIST, False),
    Key("choose", ("enter",), "open", "Go to the thing under the cursor.", _LIST, False),
    Key("mark", ("space",), "mark", "Mark the line, to do one thing to several.", _LIST, False),
    Key("filter", ("/",), "filter", "Show only lines that hold a text; esc shows all again.", _LIST),
    Key("leave", ("escape",), "leave", "Leave the question; nothing is recorded.", (Scope.DIALOG,)),
    Key("pick", tuple("123456789"), "pick", "Pick that line at once.", (Scope.CHOICE,), call="pick('{key}')"),
    Key("yes", ("y",), "yes", "Do it.", (Scope.YES_NO,)),
    Key("no", ("n",), "no", "Leave everything as it is.", (Scope.YES_NO,)),
    Key("record", ("enter",), "record", "Record it, or go to what is still wrong.", (Scope.FORM,)),
    Key("next_field", ("down",), "next", "To the next field; tab does too.", (Scope.FORM,)),
    Key("previous_field", ("up",), "back", "To the field before; shift+tab does too.", (Scope.FORM,), False),
    Key("take_name", ("tab",), "take", "Take the name that is lit; else to the next field.", (Scope.FORM,), False),
    Key("next_name", ("pagedown",), "names", "Show the names, light the next.", (Scope.FORM,), False, "light(1)"),
    Key("name_before", ("pageup",), "name before", "Light the name before.", (Scope.FORM,), False, "light(-1)"),
    Key("settle", ("enter",), "next", "To the other field, or done.", (Scope.WINDOW,)),
    Key("back_to_list", ("escape",), "done", "Back to the list.", (Scope.WINDOW,)),
    Key("close_help", ("?",), "close", "Close the help.", (Scope.HELP,), call="leave"),
    Key("record", ("enter",), "record", "Record what the line says.", (Scope.QUICK,)),
    Key("take_offer", ("tab",), "take it", "Put what is lit into the line.", (Scope.QUICK,)),
    Key("light", ("down",), "next", "Light the next of what fits.", (Scope.QUICK,), call="light(1)"),
    Key("light_before", ("up",), "before", "Light the one before.", (Scope.QUICK,), False, "light(-1)"),
    Key("quick_entry", (":",), "say it", "Say in one line what happened: a fact, or a note.", _ALL),
    Key("undo", ("u",), "undo", "Take back the newest change made here; it says which.", _ALL),
    Key("redo", ("ctrl+r",), "redo", "Do again what was taken back.", _ALL, False),
    Key("help", ("?",), "help", "This screen's question, its keys and its words.", _ALL),
    Key("find", ("ctrl+p",), "find", "Any command or named thing, by typing it.", _ALL, False),
    Key("switch_build", ("ctrl+b",), "build", "Show one build on every screen, or all.", _ALL, False),
    Key("switch_theme", ("ctrl+t",), "light or dark", "Paper by daylight, or a lantern in the dark.", _ALL, False),
    Key("back", ("escape",), "back", "Back to where you came from.", _ALL, False),
    Key("quit", ("q",), "quit", "Leave; everything is already saved.", _ALL, False),
)


def keys_of(scope: Scope) -> tuple[Key, ...]:
    """The keys that belong to this scope itself."""
    return tuple(key for key in KEYS if scope in key.scopes)


def in_force(scope: Scope) -> tuple[Key, ...]:
    """All keys that work while the screen of this scope is in view: its own, a list's, those everywhere."""
    scopes = [scope, *(s for s in (Scope.LIST, Scope.EVERYWHERE) if s is not scope)]
    return tuple(key for s in scopes for key in keys_of(s))


def bindings(scope: Scope) -> list[BindingType]:
    """Textual bindings of the scope itself, for a widget's, a screen's or the app's BINDINGS."""
    return [
        Binding(
            name,
            key.action.format(key=name),
            key.label,
            show=key.shown,
            key_display=key.face,
            tooltip=key.tooltip,
            id=f"{scope.name.lower()}.{key.id}.{name}",
        )
        for key in keys_of(scope)
        for name in key.keys
    ]


def clashes(keys: Iterable[Key]) -> list[str]:
    """The key names that more than one of these keys claims."""
    names = [name for key in keys for name in key.keys]
    return sorted({name for name in names if names.count(name) > 1})


def markdown_table() -> str:
    """All keys as the Markdown table of the README, by scope; by the id a settings file names them."""
    lines = ["| where | key | what | | id |", "|---|---|---|---|---|"]
    for scope in Scope:
        lines += [f"| {scope.value} | `{k.face}` | {k.label} | {k.tooltip} | {k.id} |" for k in keys_of(scope)]
    return "\n".join(lines) + "\n"
