"""Which cautions of the reference data go with a piece of work, and how they are said."""

from collections.abc import Iterable, Mapping
from typing import Any

from buildlog.facts.reference_data import Reference
from buildlog.terms import FitKind, StepKind

UNATTENDED = "unattended_print"
DRYING = "drying"
FUMES = "styrene"

_OF_STEPS = {
    StepKind.SOLVENT_BOND: "solvent_bonding",
    StepKind.BOND: "adhesive_bonding",
    StepKind.SAND: "sanding_dust",
    StepKind.DRILL: "sanding_dust",
    StepKind.PAINT: "painting",
}
_OF_TESTS = {FitKind.ON_PERSON: "on_person", FitKind.LOAD: "lifting"}


def caution_of_step(kind: StepKind) -> str:
    """The key of the caution; "" where there is none."""
    return _OF_STEPS.get(kind, "")


def caution_of_test(kind: FitKind) -> str:
    return _OF_TESTS.get(kind, "")


def cautions_of_form(noun: str, values: Mapping[str, Any], reference: Reference) -> tuple[str, ...]:
    """The keys of the cautions that go with a thing as its form is filled in so far."""
    if noun == "step" and values.get("kind"):
        return (caution_of_step(StepKind(values["kind"])),)
    if noun == "fit test" and values.get("kind"):
        return (caution_of_test(FitKind(values["kind"])),)
    if noun == "printer" and values.get("runs_unattended"):
        return (UNATTENDED,)
    if noun == "material":
        known = any(p.key == values.get("polymer") and p.smelly for p in reference.polymers.values())
        smelly = known if values.get("smelly") is None else values["smelly"]
        dried = values.get("dry_celsius") or values.get("dry_time")
        return tuple(key for key, holds in ((FUMES, smelly), (DRYING, dried)) if holds)
    return ()


def in_words(reference: Reference, keys: Iterable[str]) -> tuple[str, ...]:
    """Each caution once with its source, and to whom it defers."""
    known = reference.cautions
    return tuple(f"{known[key].text} ({known[key].source})" for key in dict.fromkeys(keys) if key)
