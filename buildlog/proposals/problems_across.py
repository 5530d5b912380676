"""Rules between the fields of one form: what two of them say together."""

import re
from collections.abc import Callable, Iterable, Iterator
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from buildlog.proposals.lines import Line
from buildlog.terms import BoughtAccount, GoalKind, Level, MilestoneKind, Origin, Side, Wanted

Found = Iterator[tuple[str, str]]


def _both(form: Any, first: str, second: str, message: str) -> Found:
    """Two fields that go together: the one that is empty is named."""
    given = {name: getattr(form, name) not in (None, "") for name in (first, second)}
    if given[first] != given[second]:
        yield (second if given[first] else first), message


def _heads(form: Any) -> Found:
    """Materials and grams of the first and second head."""
    yield from _both(form, "material", "grams", "material and grams go together")
    yield from _both(form, "material_2", "grams_2", "second material and second grams go together")
    if form.material_2 is not None and form.material is None:
        yield "material", "there is a second material and no first one"
    if form.material is None and (form.support or form.purge):
        yield "material", "there are grams of support or purge and no material"
    if form.material_2 is None and form.purge_2:
        yield "material_2", "there are grams of second purge and no second material"


def _twice(codes: Iterable[Any], field: str) -> Found:
    seen: set[Any] = set()
    for code in codes:
        if code in seen:
            yield field, f"{code} is named twice"
        seen.add(code)


def _settings(form: Any) -> Found:
    try:
        ZoneInfo(form.home_zone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        yield "home_zone", f"«{form.home_zone}» is no time zone: write one as Europe/Berlin"
    if not re.fullmatch(r"[A-Z]{3}", form.currency):
        yield "currency", f"«{form.currency}» is no currency: write its three letters, as EUR (ISO 4217)"
    if form.day_ends <= form.day_starts:
        yield "day_ends", "the day ends before it starts"


def _supplier(form: Any) -> Found:
    yield from _both(form, "cutoff_day", "cutoff_time", "cut-off day and cut-off time go together")


def _assembly(form: Any) -> Found:
    if form.parent == form.code:
        yield "parent", f"{form.code} cannot be in itself"
    yield from _both(form, "lead_side", "lead_test", "a lead side goes with the fit that proves it")
    if form.lead_side is not None and not form.paired:
        yield "lead_side", f"{form.code} is not paired: only a paired assembly has a side that goes first"


def _part(form: Any) -> Found:
    bought = form.origin == Origin.BOUGHT
    if bought and form.bought_item is None:
        yield "bought_item", "a bought part names the bought item that it takes"
    if not bought and form.bought_item is not None:
        yield "bought_item", f"{form.code} is {form.origin}: only a bought part names a bought item"
    if not bought and form.bought_quantity is not None:
        yield "bought_quantity", "only a bought part takes a quantity of a bought item"
    if form.origin != Origin.PRINTED and form.print_time is not None:
        yield "print_time", f"{form.code} is {form.origin}: it has no print time"
    if form.origin != Origin.PRINTED and form.material is not None:
        yield "material", f"{form.code} is {form.origin}: it takes no material of a printer"
    if form.origin != Origin.MADE and form.hand_time is not None:
        yield "hand_time", f"{form.code} is {form.origin}: it has no making time"
    yield from _heads(form)
    if form.lead_side is not None and not form.handed:
        yield "lead_side", f"{form.code} is not handed: only a handed part has a side that goes first"
    yield from _both(form, "variant_of", "scale", "a variant goes with the scale in percent")
    if form.variant_of == form.code:
        yield "variant_of", f"{form.code} cannot be a variant of itself"
    if form.scale is not None and not 1 <= form.scale <= 10_000:
        yield "scale", "a scale is from 1 to 10000 percent"
    usual = {"quantity": 1, "side_rule": "as the position", "spares": 0, "second_will_do": False}
    if form.assembly is None:
        for name, value in usual.items():
            if getattr(form, name) != value:
                yield "assembly", f"{name.replace('_', ' ')} is of a usage: say in which assembly"


def _goal(form: Any) -> Found:
    if form.kind == GoalKind.FREE:
        if form.code is not None:
            yield "code", "a free goal is said in words, it names no thing"
        if not form.text:
            yield "text", "a free goal is said in words"
    elif form.code is None:
        yield "code", f"say what is to be reached by «{form.kind}»"
    if form.side is not None and form.kind not in (GoalKind.READY, GoalKind.SHOWN):
        yield "side", "only an assembly that is to be ready or shown has a side"


def _milestone(form: Any) -> Found:
    if form.build is None and form.kind != MilestoneKind.EVENT:
        yield "build", "builds share events only: name the build that it is of"
    yield from _twice((f"{t.code} {t.side or ''}".strip() for t in form.targets), "targets")


def _question(form: Any) -> Found:
    yield from _twice((f"{t.code} {t.side or ''}".strip() for t in form.holds), "holds")
    if any(target.wanted is not Wanted.READY for target in form.holds):
        yield "holds", "a question holds assemblies and parts: leave out «shown»"
    if form.answered is not None and not form.answer:
        yield "answer", "it was answered, the answer is missing"
    if form.answered is not None and form.asked is not None and form.answered < form.asked:
        yield "answered", "it was answered before it was asked"


def _shot(form: Any) -> Found:
    if form.safe is not None and form.filmed is None:
        yield "safe", "there is footage only of what was filmed: say when that was"
    if form.safe is not None and form.filmed is not None and form.safe < form.filmed:
        yield "safe", "the footage was copied before it was filmed"
    if form.overruled is None and form.overruled_why:
        yield "overruled", "there is a reason to go on without the shot: say since when"


def _viewer_question(form: Any) -> Found:
    if form.answered is not None and not form.answer:
        yield "answer", "it was answered, the answer is missing"
    if form.answered is not None and form.asked is not None and form.answered < form.asked:
        yield "answered", "it was answered before it was asked"
    if form.answered_in is not None and not form.answer:
        yield "answer", f"it was answered in episode {form.answered_in}, the answer is missing"


def _promise(form: Any) -> Found:
    if form.kept is not None and form.made is not None and form.kept < form.made:
        yield "kept", "it was kept before it was made"


def _step(form: Any) -> Found:
    if (form.assembly is None) == (form.part is None):
        yield "assembly", "a step is of exactly one: an assembly or a part"
    yield from _twice((line.code for line in form.uses), "uses")
    if any(line.side is not Side.NONE for line in form.uses):
        yield "uses", "a bought item has no side"


def _wait(form: Any) -> Found:
    if (form.assembly, form.step) == (form.on_assembly, form.on_step):
        yield "on_assembly", f"{form.assembly} cannot wait for itself"


def _fit_test(form: Any) -> Found:
    if form.low is not None and form.high is not None and form.low > form.high:
        yield "high", "the most is less than the least"
    yield from _twice(form.parts, "parts")


def _spool(form: Any) -> Found:
    if form.weighed is not None and form.tare is not None and form.weighed < form.tare:
        yield "weighed", "weighs less than its empty reel"
    if form.opened is not None and form.received is not None and form.opened < form.received:
        yield "opened", "it was opened before it was received"


def _bought_item(form: Any) -> Found:
    stock = form.stock
    if stock is None:
        return
    if form.account == BoughtAccount.COUNTED and not re.fullmatch(r"\d{1,9}", stock):
        yield "stock", f"«{stock}» is no amount in whole {form.unit}"
    if form.account == BoughtAccount.ROUGH and stock not in tuple(Level):
        yield "stock", f"«{stock}» is none of: {', '.join(Level)}"


def _print_file(form: Any) -> Found:
    if not form.lines:
        yield "lines", "a print file lays down something: write it as FL07 L x2, FL08 R"
    lines: tuple[Line, ...] = form.lines
    yield from _twice((f"{line.code} {line.side}".strip(" -") for line in lines), "lines")
    yield from _heads(form)


ACROSS: dict[str, Callable[[Any], Found]] = {
    "settings": _settings,
    "supplier": _supplier,
    "assembly": _assembly,
    "part": _part,
    "goal": _goal,
    "milestone": _milestone,
    "question": _question,
    "shot": _shot,
    "viewer question": _viewer_question,
    "promise": _promise,
    "step": _step,
    "wait": _wait,
    "fit test": _fit_test,
    "spool": _spool,
    "bought item": _bought_item,
    "print file": _print_file,
}
"""By noun."""
