"""Which cautions of the reference data go with a piece of work, and how they are said."""

from collections.abc import Iterable

from buildlog.facts.reference_data import Reference
from buildlog.terms import FitKind, StepKind

UNATTENDED = "unattended_print"
DRYING = "drying"

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


def in_words(reference: Reference, keys: Iterable[str]) -> tuple[str, ...]:
    """Each caution once with its source, and to whom it defers."""
    known = reference.cautions
    return tuple(f"{known[key].text} ({known[key].source})" for key in dict.fromkeys(keys) if key)
