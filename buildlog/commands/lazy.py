"""A group that lists every command, makes the one that is called, and knows the nearest to one that is not there."""

from collections.abc import Callable, Mapping
from difflib import get_close_matches
from types import MappingProxyType
from typing import Any

import typer
from typer.core import TyperGroup

Makers = Mapping[str, Callable[[], Any]]
LONGEST_SENTENCE = 200
FEW = 3
"""Our choice: so many commands of a group are told in full to who types one that is not there."""


class LazyGroup(TyperGroup):
    """``makers`` makes each command (or group) by its name; starting must not pay for the others."""

    makers: Makers = MappingProxyType({})

    def list_commands(self, ctx: Any) -> list[str]:  # noqa: ARG002 - the base class passes it
        return list(self.makers)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:  # noqa: ARG002
        make = self.makers.get(cmd_name)
        return make() if make else None

    def format_commands(self, ctx: Any, formatter: Any) -> None:
        """Each command with its whole first sentence; the base class cuts it off."""
        rows = [(name, self.get_command(ctx, name).get_short_help_str(LONGEST_SENTENCE)) for name in self.makers]
        with formatter.section("Commands"):
            formatter.write_dl(rows)

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        wanted = args[0]
        if wanted not in self.makers and not wanted.startswith("-"):
            ctx.fail(f"there is no command «{wanted}».{self._instead(ctx, wanted)}")
        return super().resolve_command(ctx, args)

    def _instead(self, ctx: Any, wanted: str) -> str:
        """The nearest commands, here or in other groups; where none is near, how each of a few is written."""
        near = get_close_matches(wanted, self.makers) or _in_groups(wanted)
        if near:
            return f" Did you mean {' or '.join(near)}?"
        if len(self.makers) > FEW:
            return ""
        shapes = [f"`{ctx.command_path} {name} {self._arguments(ctx, name)}`" for name in self.makers]
        return f" Write {' or '.join(shapes)}."

    def _arguments(self, ctx: Any, name: str) -> str:
        command = self.get_command(ctx, name)
        pieces = command.collect_usage_pieces(ctx.__class__(command, info_name=name, parent=ctx))
        return " ".join(piece.strip("{}") for piece in pieces if piece != "[OPTIONS]")


def _in_groups(wanted: str) -> list[str]:
    """Daily actions of that name, as `print start` for `start`."""
    from buildlog.proposals.verbs import VERBS  # only for who has mistyped

    return [f"{verb.group} {verb.name}" for verb in VERBS if verb.group and verb.name == wanted]


def lazy_group(name: str, help_text: str, makers: Makers) -> LazyGroup:
    """A group whose commands are made when they are called; without one it shows its help."""
    group = LazyGroup(name=name, help=help_text, no_args_is_help=True, rich_markup_mode=None)
    group.makers = makers
    return group


def single_command(name: str, function: Callable[..., None]) -> Any:
    """The command that Typer makes of a function."""
    app = typer.Typer(rich_markup_mode=None, add_completion=False, pretty_exceptions_enable=False)
    app.command(name)(function)
    command: Any = typer.main.get_command(app)
    command.name = name
    return command
