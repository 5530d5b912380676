"""How names are spelled on the command line."""


def spelled(field: str) -> str:
    """``--went-wrong`` for the field ``went_wrong``."""
    return "--" + field.replace("_", "-")
