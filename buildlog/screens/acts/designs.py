"""What a part still wants before it can be printed: its stage, its figures, a ready file."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from buildlog.facts.naming import part_name
from buildlog.proposals.lines import Ask, Line
from buildlog.proposals.nouns import FORMS, Add, Change
from buildlog.proposals.revisions import SetStage
from buildlog.screens.asking import ask_wish
from buildlog.screens.dialogs.choose import Choice
from buildlog.terms import Side, Stage

if TYPE_CHECKING:
    from buildlog.facts.tree import Demand
    from buildlog.screens.base import LiveScreen
    from buildlog.status.status import Status

FILE_ASKS = ("code", "lines", "printer_class", "print_time", "material", "grams", "support", "purge", "name")
FIGURES = ("print_time", "material", "grams", "support", "purge")


async def set_stage(screen: LiveScreen, part_id: int) -> None:
    """How far the part is: drawn, tried, proven."""
    if screen.status is None:
        return
    part = screen.status.snapshot.part[part_id]
    choices = [Choice(stage, stage.value) for stage in Stage if stage is not part.stage]
    later = sorted(choices, key=lambda choice: list(Stage).index(choice.value) < list(Stage).index(part.stage))
    stage = await screen.pick(f"{part.code} {part.name} is «{part.stage.value}»: how far is it now?", later)
    if stage is not None:
        await screen.wish(SetStage(part=part.code, stage=stage.value))


async def add_print_file(screen: LiveScreen, part_id: int, side: Side, pieces: int) -> None:
    """A ready file for so many pieces, with the figures of the part as far as they are known."""
    status = screen.status
    if status is None:
        return
    part = status.snapshot.part[part_id]
    values: dict[str, Any] = {"code": f"F-{part.code}", "lines": (Line(part.code, side, max(1, pieces)),)}
    values["printer_class"] = next((p.printer_class for p in status.snapshot.printers if p.retired_at is None), None)
    values |= _figures(status, part_id, max(1, pieces))
    title = f"A ready file for {pieces} × {part_name(status.snapshot, part_id, side)}"
    asked = await ask_wish(screen.live, FORMS["print file"], title, values=values, only=FILE_ASKS)
    if asked is not None:
        await screen.wish(Add(asked.wish), asked.at)


async def tell_figures(screen: LiveScreen, part_id: int) -> None:
    """How long it prints, and of what."""
    if screen.status is None:
        return
    code = screen.status.snapshot.part[part_id].code
    known = dict.fromkeys(("code", "name", "build"))
    values = {**known, **_figures(screen.status, part_id, 1)}
    title = f"{code}: how long, and of what?"
    asked = await ask_wish(screen.live, FORMS["part"], title, values=values, only=FIGURES)
    if asked is not None:
        told = {name: getattr(asked.wish, name) for name in FIGURES}
        await screen.wish(Change("part", code, told), asked.at)


def _figures(status: Status, part_id: int, pieces: int) -> dict[str, Any]:
    """Minutes, material and grams of the current revision for so many pieces; the first head's."""
    revision = status.snapshot.revision[status.needs.old.current[part_id]]
    demands = status.snapshot.demands_of.get(revision.id, [])
    found: dict[str, Any] = {}
    if revision.print_minutes is not None:
        found["print_time"] = revision.print_minutes * pieces
    if demands:
        first = demands[0]
        grams = {"grams": first.part_mg, "support": first.support_mg, "purge": first.purge_mg}
        found |= {"material": _ask(status, first), **{name: mg * pieces for name, mg in grams.items()}}
    return found


def _ask(status: Status, demand: Demand) -> Ask:
    if demand.material_id is not None:
        return Ask(status.snapshot.material[demand.material_id].code, None)
    return Ask(None, demand.polymer)
