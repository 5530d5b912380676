"""Which caution of the reference data goes with a piece of bench work."""

from buildlog.terms import FitKind, StepKind

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
