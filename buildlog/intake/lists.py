"""The lists that a file can hold, and which of them a file is."""

import re
from dataclasses import replace
from functools import cache
from pathlib import PurePath

from buildlog.errors import BadWish
from buildlog.intake import print_run
from buildlog.intake.daily import AT, fields_for, wish_named
from buildlog.intake.headings import Headings
from buildlog.proposals.field import Field, Kind
from buildlog.proposals.nouns import FORMS, noun_fields, noun_named

HISTORY = "history"
COUNTS = "counts"
DATED = {COUNTS: "count_part", "weigh-ins": "weigh_spool"}
"""Lists of one daily action that have a name of their own."""

WISH = Field("wish", "wish", Kind.TEXT, required=True)
WITH = Field("with", "with", Kind.TEXT)
_OTHER_NAMES = {"weigh ins": "weigh-ins", "weighings": "weigh-ins", "prints": print_run.KIND, "count": COUNTS}
_NAMED_AS_CODE = frozenset({"part", "assembly", "printer", "print file", "material", "spool", "box", "bought item"})
"""Lists in which a column headed by the thing itself holds its code; a «question» would rather be its text."""
NAMED = (*FORMS, *DATED, print_run.KIND, HISTORY)


def list_named(text: str) -> str | None:
    """The list that a name means: a noun, one of NAMED, or a daily action; None for no list."""
    wanted = " ".join(re.sub(r"[\s_-]+", " ", text.lower()).split())
    wanted = _OTHER_NAMES.get(wanted, wanted)
    if wanted in (*DATED, print_run.KIND, HISTORY):
        return wanted
    try:
        return noun_named(wanted)
    except BadWish:
        pass
    try:
        return wish_named(wanted)
    except ValueError:
        return None


@cache
def headings_for(kind: str, currency: str) -> Headings:
    """The headings of a list; a history has further ones, those of the wish that each line names."""
    return Headings(f"«{kind}»", fields_of_list(kind), currency, kind if kind in _NAMED_AS_CODE else "")


def fields_of_list(kind: str) -> tuple[Field, ...]:
    if kind in FORMS:
        return (*noun_fields(kind), AT)
    if kind == print_run.KIND:
        return print_run.FIELDS
    if kind == HISTORY:
        return (replace(AT, required=True), WISH, WITH)
    return (AT, *fields_for(DATED.get(kind, kind)))


def list_of_file(source: str, marker: str, headings: tuple[str, ...], currency: str) -> str:
    """Which list a CSV is: by what it says, by its name, by its headings; ValueError lists the candidates."""
    if marker:
        named = list_named(marker)
        if named is None:
            raise ValueError(f"«{marker[:60]}» is no list: it is one of {', '.join(NAMED)}, or a daily action")
        return named
    by_name = _named_in(PurePath(source).stem)
    if len(by_name) == 1:
        return by_name[0]
    fitting = [kind for kind in by_name or NAMED if _fits(kind, headings, currency)]
    if len(fitting) == 1:
        return fitting[0]
    how = "name it with --as, or in its first line, as «# list: parts»"
    if fitting:
        raise ValueError(f"its headings fit more than one list ({', '.join(fitting)}): {how}")
    raise ValueError(f"neither its name nor its headings tell which list it is: {how}; there are {', '.join(NAMED)}")


def _named_in(stem: str) -> list[str]:
    """The lists named by the longest run of words in a file's name."""
    words = [word for word in re.split(r"[^a-z]+", stem.lower()) if word]
    for length in range(min(len(words), 4), 0, -1):
        runs = (" ".join(words[start : start + length]) for start in range(len(words) - length + 1))
        found = list(dict.fromkeys(kind for run in runs if (kind := list_named(run)) is not None))
        if found:
            return found
    return []


def _fits(kind: str, headings: tuple[str, ...], currency: str) -> bool:
    known = headings_for(kind, currency)
    if kind != HISTORY and not all(known.knows(heading) for heading in headings if heading):
        return False
    found = {known.find(heading).field.name for heading in headings if heading and known.knows(heading)}
    return all(field.name in found for field in known.fields if field.required)
