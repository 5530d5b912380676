"""How a command is written that was typed wrongly: what goes without its name, what needs it, what must be said."""

from typing import Any

from buildlog.commands.lazy import LazyGroup
from buildlog.wording import few

LEFT_OVER = "unexpected extra argument"
OF_ALL = frozenset({"at_text", "dry_run", "help"})
"""Parameters that nearly every command has."""


def right_form(error: Any) -> str:
    """What to write instead, for an error that tells its command; empty where a group was typed wrongly."""
    context = getattr(error, "ctx", None)
    if context is None or isinstance(context.command, LazyGroup):
        return ""
    parameters = context.command.params
    told = (
        _of_value(getattr(error, "param", None)),
        _of_option(getattr(error, "option_name", ""), parameters),
        _of_rest(parameters) if LEFT_OVER in error.format_message() else "",
    )
    return "\n".join(filter(None, (*told, f"Write `{context.command_path} {_shape(context)}`.")))


def _of_value(parameter: Any) -> str:
    """What a person reads in help about what is missing or wrong, where it says more than its name."""
    help_text = getattr(parameter, "help", None) or ""
    return f"{_name(parameter)}: {help_text}" if ";" in help_text else ""


def _of_option(typed: str, parameters: list[Any]) -> str:
    """An argument that was typed as an option."""
    named = next((p for p in parameters if _is_argument(p) and f"--{p.name.replace('_', '-')}" == typed), None)
    return f"{_name(named)} is written in its place, without {typed}." if named is not None else ""


def _of_rest(parameters: list[Any]) -> str:
    """Where words that are left over may belong."""
    others = tuple(p.opts[0] for p in parameters if not _is_argument(p) and p.name not in OF_ALL)
    by_name = f" What else can be said is told by name: {few(others)}." if others else ""
    return f"Words that belong together stand in quotes.{by_name}"


def _shape(context: Any) -> str:
    """Arguments in order, and the options that must be there."""
    pieces = (piece.strip("{}") for piece in context.command.collect_usage_pieces(context))
    needed = [f"{_name(p)} {p.metavar}" for p in context.command.params if p.required and not _is_argument(p)]
    return " ".join((*(piece for piece in pieces if piece != "[OPTIONS]"), *needed, "[OPTIONS]"))


def _is_argument(parameter: Any) -> bool:
    return bool(parameter.param_type_name == "argument")


def _name(parameter: Any) -> str:
    return str(parameter.metavar or parameter.name.upper() if _is_argument(parameter) else parameter.opts[0])
