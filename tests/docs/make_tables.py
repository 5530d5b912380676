"""The tables of README.md, each drawn from the code: commands, keys, lists with their headings, daily actions."""

import re
from collections.abc import Callable, Iterable

from buildlog.commands.exits import MEANINGS
from buildlog.commands.listing import Entry, all_commands
from buildlog.facts.reference_data import Usual
from buildlog.intake.daily import OF_NOUNS, daily, fields_for
from buildlog.intake.headings import heading_of
from buildlog.intake.lists import DATED, HISTORY, fields_of_list
from buildlog.intake.print_run import KIND as PRINT_HISTORY
from buildlog.intake.quick.phrases import PHRASES
from buildlog.proposals.field import Field
from buildlog.proposals.nouns import FORMS
from buildlog.reference import reference
from buildlog.screens.keys import markdown_table

UNITS = {"mg": (1000, " g"), "um": (1000, " mm"), "minutes": (60, " h"), "days": (1, " days"), "hours": (1, " h")}
"""By the end of a figure's name: what it is divided by for a person, and the unit it then has."""

ALIKE = ("change", "retire", "bring-back")
"""Groups that have the same command for each noun."""

COMMON = ("--help", "--at", "--dry-run")
"""Options that are told once, above the table."""


def commands() -> str:
    """Every command with its arguments, what it does and its options; what is alike for each noun stands once."""
    rows = [["`buildlog`", "Opens the screens.", "`--ledger` `--version`"]]
    lines = set()
    for entry in all_commands():
        line, told = _of_any_noun(entry)
        if line not in lines:
            lines.add(line)
            rows.append([f"`{line}`", _cell(told), "" if line != entry.line else _options(entry)])
    return _table(("command", "what it does", "options"), rows)


def _of_any_noun(entry: Entry) -> tuple[str, str]:
    """``buildlog change NOUN KEY`` for ``buildlog change box KEY``; any other command as it is."""
    program, group, name, *rest = [*entry.line.split(), ""]
    if group not in ALIKE or name == "settings":
        return entry.line, entry.help
    told = re.sub(rf"\ban? (retired )?{name.replace('-', ' ')}\b", r"a \1thing", entry.help)
    return " ".join(filter(None, (program, group, "NOUN", *rest))), told


def _options(entry: Entry) -> str:
    return " ".join(f"`{name}`" for name, _ in entry.options if name.startswith("-") and name not in COMMON)


def nouns() -> str:
    return ", ".join(f"`{noun.replace(' ', '-')}`" for noun in FORMS) + "."


def keys() -> str:
    return markdown_table()


def lists() -> str:
    """Every list that a file can hold, with its headings; those that must stand in it in bold."""
    kinds = [*(noun for noun in FORMS if noun != "settings"), *DATED, PRINT_HISTORY, HISTORY]
    return _table(("list", "headings"), ([kind, _headings(fields_of_list(kind))] for kind in kinds))


def actions() -> str:
    """Every daily action that a line of a history can ask for, with its fields."""
    names = [name for name in daily() if name not in OF_NOUNS]
    rows = [[name.replace("_", " "), _headings(fields_for(name))] for name in names]
    return _table(("wish", "its fields"), rows)


def lines() -> str:
    """Every way to say a fact in one line, with the fields that may be said; what may be left out in brackets."""
    rows = [[f"`{phrase.example}`", phrase.means, f"`{_shape_said(phrase.shape)}`"] for phrase in PHRASES]
    return _table(("as in", "what it says", "its words"), ([*map(_cell, row)] for row in rows))


def _shape_said(shape: str) -> str:
    """``{spool} {gross}`` as SPOOL GROSS; what may be left out in brackets."""
    left_out = re.sub(r"\{(\w+)(?::[\w ]+)?\?\}", lambda m: f"[{m[1].upper()}]", shape)
    return re.sub(r"\{(\w+)(?::[\w ]+)?\}", lambda m: m[1].upper(), left_out).replace("(", "[").replace(")", "]")


def _headings(fields: Iterable[Field]) -> str:
    named = [(heading_of(field), field.required) for field in fields]
    return _cell(", ".join(f"**{heading}**" if required else heading for heading, required in named))


def exits() -> str:
    return _table(("exit code", "meaning"), ([str(int(code)), _cell(told)] for code, told in MEANINGS.items()))


def usual() -> str:
    """Every usual number in the unit of a person, with its span, what it is used for, and what it rests on."""
    rows: dict[tuple[str, str, str], list[str]] = {}
    for figure in reference().usual.values():
        rows.setdefault((figure.subject, figure.use, figure.basis), []).append(_usual(figure))
    told = ([_cell(subject), "; ".join(said), _cell(use), basis] for (subject, use, basis), said in rows.items())
    return _table(("subject", "usual", "used for", "basis"), told)


def _usual(figure: Usual) -> str:
    name, _, ending = figure.key.rpartition("_")
    if ending not in UNITS or "_over_" in name:  # a ratio has no unit, whatever it is a ratio of
        name, ending = re.sub("_(share|factor|count)$", "", figure.key), ""
    divisor, unit = UNITS.get(ending, (1, ""))
    value, low, high = (
        f"{float(f'{amount / divisor:.3g}'):.10g}" for amount in (figure.value, figure.low, figure.high)
    )
    span = f" ({low}–{high})" if low != high else ""
    return f"{name.replace('_', ' ')} **{value}**{span}{unit}"


def _table(heads: Iterable[str], rows: Iterable[list[str]]) -> str:
    heads = tuple(heads)
    lines = ["| " + " | ".join(heads) + " |", "|" + "---|" * len(heads)]
    return "\n".join([*lines, *("| " + " | ".join(row) + " |" for row in rows)]) + "\n"


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")


TABLES: dict[str, Callable[[], str]] = {
    "commands": commands,
    "nouns": nouns,
    "exits": exits,
    "keys": keys,
    "lists": lists,
    "lines": lines,
    "actions": actions,
    "usual": usual,
}
