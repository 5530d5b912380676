"""Boxes, the repair kit, and what a helper can do."""

from functools import partial
from pathlib import Path
from typing import Annotated, Any

import typer

from buildlog.commands.actions import verb_command
from buildlog.commands.files import give
from buildlog.commands.from_fields import AT_HELP, at_of
from buildlog.commands.lazy import LazyGroup, lazy_group, single_command
from buildlog.commands.questions import AsJson, show
from buildlog.commands.recording import record
from buildlog.commands.session import open_ledger, status_of
from buildlog.proposals.verbs import GROUP_HELP, VERBS
from buildlog.report.answers.boxes import boxes_tables
from buildlog.report.boxes_out import box_label, repair_kit
from buildlog.report.more_hands import helper_page
from buildlog.status.more_hands import ticks_named

Out = Annotated[Path | None, typer.Option("--out", help="Write to this file instead of standard output.")]


def boxes(as_json: AsJson = False) -> None:
    """Where each box stands, how much lies in it; what is missing, lent, damaged, and which spares are wanted."""
    with open_ledger() as ledger:
        show(boxes_tables(status_of(ledger)), as_json)


def label(
    code: Annotated[str, typer.Argument(help="The code of the box.")],
    out: Out = None,
) -> None:
    """The list to stick on a box, as one page of Markdown."""
    with open_ledger() as ledger:
        give(box_label(status_of(ledger), code), out)


def kit(out: Out = None) -> None:
    """What to take in the van, in Markdown: spares wanted, what is damaged, what repairs use."""
    with open_ledger() as ledger:
        give(repair_kit(status_of(ledger)), out)


def helper_list(out: Out = None) -> None:
    """What a helper can do now, and what needs two, as one page of Markdown."""
    with open_ledger() as ledger:
        give(helper_page(status_of(ledger)), out)


def helper_done(
    names: Annotated[list[str], typer.Argument(help="As the list says in its last column: HEAD-SAND HEAD.")],
    at: Annotated[str | None, typer.Option("--at", help=AT_HELP, metavar="WHEN")] = None,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Show what would be written, write nothing.")] = False,
) -> None:
    """Tick several steps of the helper's list as done, all of them or none."""
    with open_ledger() as ledger:
        record(ledger, ticks_named(status_of(ledger), names), at_of(ledger, at), dry_run)


def group(name: str) -> LazyGroup:
    """What can be done with a box."""
    made: dict[str, Any] = {verb.name: partial(verb_command, verb) for verb in VERBS if verb.group == name}
    return lazy_group(name, GROUP_HELP[name], {**made, "label": partial(single_command, "label", label)})
