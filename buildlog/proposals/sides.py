"""What is said of a handed part where its assembly has no side, and the rules that it may then have."""

from buildlog.terms import SideRule

WITHOUT_A_SIDE = f"{SideRule.LEFT_ONLY}, {SideRule.RIGHT_ONLY} or {SideRule.ONE_OF_EACH}"


def handed_without_side(part: str, assembly: str) -> str:
    return f"{part} is handed and {assembly} has no side"
