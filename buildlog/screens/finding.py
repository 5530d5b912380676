"""`ctrl+p`: any key of the screen in view, any command, or any named thing, by typing it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from buildlog.proposals.verbs import VERBS
from buildlog.screens.acts.commands import ask_command
from buildlog.screens.acts.whole_ledger import OF_THE_LEDGER
from buildlog.screens.dialogs.choose import Choice, Choose
from buildlog.screens.dialogs.pick_list import PickList
from buildlog.screens.dialogs.ranked import Names, ranked
from buildlog.screens.keys import in_force
from buildlog.screens.own_keys import as_set, own_keys
from buildlog.screens.pressing import act

if TYPE_CHECKING:
    from buildlog.facts.snapshot import Snapshot
    from buildlog.screens.app import Buildlog

Found = tuple[str, str, int]
"""What to do with it («key», «command», «ledger», «noun» or a noun), the noun or what is done with the ledger, and
the row's id; of a key or a command its place in the table."""


class Sought(NamedTuple):
    """A choice, and what it is found by."""

    choice: Choice[Found]
    names: Names


class RankedList(PickList):
    """What is typed shows what fits it best first, with the cursor on it."""

    def rank_by(self, names: Sequence[Names]) -> None:
        """The names of the rows, in their order."""
        self._all, self._names = self.view.rows, names

    def set_filter(self, text: str) -> None:
        self.change(lambda: self._show_best(text))

    def _show_best(self, text: str) -> None:
        self.view.filter_text = text
        self.view.set_rows([self._all[place] for place in ranked(self._names, text)])
        if text:
            self.view.put(0)


class Find(Choose[Found]):
    """A choice that is filtered from the first key on; nothing is numbered away by typing."""

    LIST = RankedList

    def __init__(self, title: str, sought: Sequence[Sought]) -> None:
        super().__init__(title, [one.choice for one in sought])
        self._names = [one.names for one in sought]

    def on_mount(self) -> None:
        grid = self.query_one(RankedList)
        grid.rank_by(self._names)
        grid.enter_goes = True
        grid.action_filter()


async def find(app: Buildlog) -> None:
    """Do what was found: press its key, or go to the thing."""
    screen = app.shown
    if screen is None:
        return
    keys = [
        _sought(("key", "", index), f"{key.face}  {key.label}", key.tooltip, key.face, key.label)
        for index, key in enumerate(as_set(in_force(screen.SCOPE), own_keys(app)))
        if key.id not in ("find", "back")
    ]
    things = named_things(app.status.snapshot) if app.status else []
    found = await app.push_screen_wait(
        Find("Find what? Type a part of it.", [*keys, *_commands(), *_nouns(), *things])
    )
    if found is None:
        return
    what, action, row_id = found
    if what == "key":
        await act(app, in_force(screen.SCOPE)[row_id])
    elif what == "command":
        await ask_command(screen, VERBS[row_id])
    elif what == "ledger":
        await OF_THE_LEDGER[action].act(screen)
    elif what == "noun":
        await app.lead_to_list(action)
    else:
        await app.lead_to(what, row_id)


def _sought(what: Found, label: str, detail: str, code: str = "", name: str = "") -> Sought:
    return Sought(Choice(what, label, detail), Names.of(code, name or label, f"{label} {detail}"))


def _commands() -> list[Sought]:
    """Every daily action, by its form; and what is done with the ledger as a whole."""
    daily = [_sought(("command", "", n), verb.called, f"form: {verb.told}") for n, verb in enumerate(VERBS)]
    return [*daily, *(_sought(("ledger", name, 0), name, one.told) for name, one in OF_THE_LEDGER.items())]


def _nouns() -> list[Sought]:
    """The list of each noun, where things of it are added and changed."""
    from buildlog.screens.things_rows import MEANS

    return [_sought(("noun", noun, 0), f"{noun}: list", f"add, change: {means}") for noun, means in MEANS.items()]


def named_things(snapshot: Snapshot) -> list[Sought]:
    """Everything with a code that is in use, by noun; episodes, and pieces that carry a mark."""
    nouns: dict[str, tuple[Any, ...]] = {
        "assembly": snapshot.assemblies,
        "part": snapshot.parts,
        "printer": snapshot.printers,
        "print file": snapshot.print_files,
        "spool": snapshot.spools,
        "material": snapshot.materials,
        "bought item": snapshot.bought_items,
        "milestone": snapshot.milestones,
        "build": snapshot.builds,
        "step": snapshot.steps,
        "fit test": snapshot.fit_tests,
        "question": snapshot.questions,
        "shot": snapshot.shots,
        "viewer question": snapshot.viewer_questions,
        "promise": snapshot.promises,
        "supplier": snapshot.suppliers,
        "box": snapshot.boxes,
        "resource": snapshot.resources,
    }
    coded = [
        _thing(noun, row.id, row.code, _words_of(row))
        for noun, rows in nouns.items()
        for row in rows
        if row.retired_at is None
    ]
    builds = {build.id: build.code for build in snapshot.builds}
    episodes = [
        _thing("episode", one.id, f"{builds[one.build_id]} {one.number}", one.title)
        for one in snapshot.episodes
        if one.retired_at is None
    ]
    marked = [
        _thing("lot", lot.id, lot.mark, snapshot.part[lot.part_id].name, called="piece")
        for lot in snapshot.lots
        if lot.mark
    ]
    return [*coded, *episodes, *marked]


def _thing(noun: str, row_id: int, code: str, name: str, called: str = "") -> Sought:
    return _sought((noun, "", row_id), code, f"{called or noun}  {name}", code, name)


def _words_of(row: Any) -> str:
    """What it is called, in whichever field that stands."""
    return next((getattr(row, name) for name in ("name", "text", "what", "promised") if getattr(row, name, "")), "")
