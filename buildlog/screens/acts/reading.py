"""Takes build sheets and lists into the ledger: what would change is shown first, what is wrong is told in full."""

from __future__ import annotations

import shlex
from pathlib import Path
from typing import TYPE_CHECKING, Any

from buildlog.errors import BuildlogError
from buildlog.files import ReadReport, read_into, told
from buildlog.proposals.field import Field, Kind
from buildlog.screens.acts.files import path_of
from buildlog.screens.dialogs.ask_fields import AskFields
from buildlog.screens.dialogs.choose import Choice
from buildlog.screens.dialogs.read_through import ReadThrough
from buildlog.screens.widgets.tones import Tone
from buildlog.terms import HeldBy
from buildlog.wording import few

if TYPE_CHECKING:
    from buildlog.screens.base import LiveScreen

FILES = Field(
    "files", "files", Kind.LONG_TEXT, True, help="build sheets (TOML), lists (CSV); in quotes what has blanks"
)
HOLD = Field(
    "as_list",
    "lists hold",
    Kind.TEXT,
    help="a noun, as parts or spools, where neither they nor their names say so (`--as` in the shell)",
)


async def read_files(screen: LiveScreen) -> None:
    """Where they are refused, the form comes back as it was filled in."""
    values: dict[str, Any] = {}
    while True:
        form = AskFields("Read files", (FILES, HOLD), values=values, alone={"files": _wrong_paths})
        answer = await screen.app.push_screen_wait(form)
        if answer is None:
            return
        try:
            await _read(screen, _paths(answer["files"]), answer["as_list"])
        except BuildlogError as error:
            wrong = ReadThrough("Nothing was taken", str(error).splitlines(), "to the form")
            await screen.app.push_screen_wait(wrong)
            values = answer
        else:
            return


def _paths(typed: str) -> list[Path]:
    """A file of that very name, else several with blanks between; ValueError where a quote is not closed."""
    whole = path_of(typed)
    return [whole] if whole.is_file() else [path_of(text) for text in shlex.split(typed)]


def _wrong_paths(typed: str) -> str:
    try:
        missing = [path for path in _paths(typed) if not path.is_file()]
    except ValueError:
        return "a quote is not closed"
    return f"there is no file {missing[0]}" if missing else ""


async def _read(screen: LiveScreen, paths: list[Path], as_list: str | None) -> None:
    live, prefer = screen.live, None

    async def reading(words: str, dry_run: bool) -> ReadReport:
        return await live.carry_out(words, lambda: read_into(live.ledger, paths, as_list, prefer, dry_run))

    would = await reading("Reading", dry_run=True)
    if would.plan.conflicts:
        prefer = await screen.pick(
            f"File and ledger both changed. Which wins? {few([str(one) for one in would.plan.conflicts])}",
            [
                Choice(HeldBy.LEDGER, "the ledger", "what stands there stays"),
                Choice(HeldBy.FILE, "the file", "what it says is taken"),
            ],
        )
        if prefer is None:
            return
        would = await reading("Reading", dry_run=True)
    question = ReadThrough(*_asked(would))
    if not await live.push_screen_wait(question) or would.plan.wish is None:
        return
    report = await reading("Taking them in", dry_run=False)
    sentence = told(report)[-1]
    if report.group_id is not None:
        live.own.append((report.group_id, sentence))
    live.tell(sentence, Tone.GOOD)
    live.refresh_status()


def _asked(would: ReadReport) -> tuple[str, list[str], str]:
    """Title, lines, and what enter does; the total comes first."""
    *lines, total = told(would)
    return total, lines or ["Each row of them is as it was read before."], "takes it" if would.is_new else "closes"
