"""What a form needs to know of a field. `buildlog.proposals.field.Field` fits it as it is."""

from __future__ import annotations

from typing import Any, Protocol


class FieldLike(Protocol):
    """One thing asked. `kind` is a word such as «choice», «yes or no», «moment», «grams»."""

    @property
    def name(self) -> str: ...
    @property
    def label(self) -> str: ...
    @property
    def kind(self) -> str: ...
    @property
    def unit(self) -> str: ...
    @property
    def required(self) -> bool: ...
    @property
    def default(self) -> Any: ...
    @property
    def choices(self) -> tuple[str, ...]: ...
    @property
    def help(self) -> str: ...
    @property
    def caution(self) -> str: ...

    def parse(self, text: str) -> Any:
        """The value behind a text, None for an empty one; ValueError says what was expected."""

    def offered(self, value: Any) -> str:
        """The value as it stands in the form, as a person would type it."""
