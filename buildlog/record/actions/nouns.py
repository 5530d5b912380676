"""Adding, changing and retiring any noun through its form."""

from buildlog.errors import Refused
from buildlog.proposals.nouns import Add, BringBack, Change, Retire, key_of, noun_fields, said_of_change
from buildlog.record.actions.storing.by_noun import storing_of
from buildlog.record.actions.storing.rows import named_row
from buildlog.record.writer import Work


def add(wish: Add, work: Work) -> str:
    """Add a thing; the one row of settings is set as the form says."""
    noun = wish.form.NOUN
    if not wish.form.KEY:
        values = {field.name: getattr(wish.form, field.name) for field in noun_fields(noun)}
        return change(Change(noun, "", values), work)
    storing_of(noun, work).add(wish.form)
    return f"Added {noun} {key_of(wish.form)}."


def change(wish: Change, work: Work) -> str:
    storing = storing_of(wish.noun, work)
    names = storing.change(named_row(work, wish.noun, wish.key, live=True), wish.values)
    what = f"{wish.noun} {wish.key}".strip()
    if not names:
        return f"Nothing to change at {what}: it is so already."
    fields = {field.name: field for field in noun_fields(wish.noun)}
    return f"Changed {what}: {', '.join(said_of_change(fields[name], wish.values.get(name)) for name in names)}."


def retire(wish: Retire, work: Work) -> str:
    if wish.noun == "settings":
        raise Refused("The settings can be changed, not retired: change them instead.")
    storing_of(wish.noun, work).retire(named_row(work, wish.noun, wish.key, live=True))
    return f"Retired {wish.noun} {wish.key}."


def bring_back(wish: BringBack, work: Work) -> str:
    storing_of(wish.noun, work).bring_back(named_row(work, wish.noun, wish.key, live=False))
    return f"Brought back {wish.noun} {wish.key}."
