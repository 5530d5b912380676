"""Words of a form that match nothing on the record: they are taken, and what follows from them is said."""

from collections.abc import Iterable, Mapping
from typing import Any

from buildlog.facts.capabilities import words_of
from buildlog.facts.snapshot import Snapshot
from buildlog.proposals.lines import Ask
from buildlog.proposals.nouns import Add, Change, noun_fields
from buildlog.terms import Capability
from buildlog.wording import few

MAY_BE_STRANGE = frozenset({"print file", "part", "printer"})
"""Nouns whose forms have such words."""


def strange_words(noun: str, values: Mapping[str, Any], snapshot: Snapshot) -> tuple[str, ...]:
    """A sentence for each; ``values`` may be only some of the form's."""
    if noun not in MAY_BE_STRANGE:
        return ()
    told = [_polymer(values.get(name), snapshot) for name in ("material", "material_2")]
    if noun == "print file":
        told.insert(0, _class(values.get("printer_class"), snapshot))
    elif noun == "part":
        told.insert(0, _asked(values.get("needs"), snapshot))
    else:
        told[:0] = [_other_bed(values, snapshot), _offered(values.get("capabilities"), snapshot)]
    return tuple(text for text in told if text)


def strange_in(wish: Any, snapshot: Snapshot) -> tuple[str, ...]:
    """The same for a wish to add or change a thing; none for any other wish."""
    if isinstance(wish, Add):
        fields = noun_fields(wish.form.NOUN)
        return strange_words(wish.form.NOUN, {f.name: getattr(wish.form, f.name) for f in fields}, snapshot)
    return strange_words(wish.noun, wish.values, snapshot) if isinstance(wish, Change) else ()


def classes_of_printers(snapshot: Snapshot) -> tuple[str, ...]:
    """Each class that a printer in use has, once."""
    live = (printer.printer_class for printer in snapshot.printers if printer.retired_at is None)
    return tuple(dict.fromkeys(name for name in live if name))


def words_of_printers(snapshot: Snapshot) -> tuple[str, ...]:
    """What printers in use can, as typed there."""
    return _each(printer.capabilities for printer in snapshot.printers if printer.retired_at is None)


def words_of_parts(snapshot: Snapshot) -> tuple[str, ...]:
    """What parts in use ask of a printer."""
    return _each(part.needs for part in snapshot.parts if part.retired_at is None)


def polymers_kept(snapshot: Snapshot) -> tuple[str, ...]:
    """The polymers of materials in use."""
    return tuple(dict.fromkeys(m.polymer for m in snapshot.materials if m.retired_at is None))


def _each(texts: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(word for text in texts for word in sorted(words_of(text))))


def _class(name: str | None, snapshot: Snapshot) -> str:
    known = classes_of_printers(snapshot)
    if not name or name in known:
        return ""
    theirs = f"there are {few(known)}" if known else "none of them has one"
    return f"No printer is of class «{name}» ({theirs}): until one is, nothing can run this file."


def _other_bed(values: Mapping[str, Any], snapshot: Snapshot) -> str:
    """A class is for printers that run the same files: not where the beds differ."""
    name, bed = values.get("printer_class"), tuple(values.get(f"bed_{axis}") for axis in "xyz")
    if not name or None in bed:
        return ""
    for printer in snapshot.printers:
        theirs = (printer.bed_x_um, printer.bed_y_um, printer.bed_z_um)
        same = printer.printer_class == name and printer.retired_at is None and printer.code != values.get("code")
        if same and theirs != bed:
            size = " × ".join(f"{um / 1000:g}" for um in theirs)
            return (
                f"{printer.code} is of class «{name}» too, and its bed is {size} mm: files of the class are taken to "
                "run on both. Name another class unless they do."
            )
    return ""


def _asked(text: str | None, snapshot: Snapshot) -> str:
    known = words_of_printers(snapshot)
    strange = sorted(words_of(text or "") - set(known))
    if not strange:
        return ""
    theirs = f"they can {few(known)}" if known else "none of them says what it can"
    return f"No printer can «{', '.join(strange)}» ({theirs}): until one does, nothing can print this part."


def _offered(text: str | None, snapshot: Snapshot) -> str:
    usual = tuple(Capability)
    strange = sorted(words_of(text or "") - set(usual) - set(words_of_parts(snapshot)))
    return f"No part asks for «{', '.join(strange)}»; usual words are {few(usual)}." if strange else ""


def _polymer(ask: Ask | None, snapshot: Snapshot) -> str:
    known = polymers_kept(snapshot)
    if ask is None or ask.polymer is None or ask.polymer in known:
        return ""
    theirs = f"there are {few(known)}" if known else "there is none yet"
    return f"No material is of polymer {ask.polymer} ({theirs}): until one is, no spool can feed it."
