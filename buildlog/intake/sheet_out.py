"""Things as a build sheet that reads back as the very same forms."""

import json
import re
from collections.abc import Iterable
from typing import Any

from buildlog.proposals.field import Field, Kind
from buildlog.proposals.nouns import noun_fields

_AS_NUMBER = (Kind.WHOLE, Kind.DECIMAL, Kind.GRAMS, Kind.MONEY, Kind.MM, Kind.DENSITY, Kind.PERCENT)
_NUMBER = re.compile(r"-?(0|[1-9]\d*)(\.\d+)?")


def build_sheet(forms: Iterable[Any]) -> str:
    """A table for each form, in their order, with the fields that are not as they are when left out."""
    return "\n".join(_table(form) for form in forms)


def _table(form: Any) -> str:
    lines = [f"[[{form.NOUN.replace(' ', '-')}]]"]
    for field in noun_fields(form.NOUN):
        value = getattr(form, field.name)
        if field.required or value != field.default:
            lines.append(f"{field.name} = {_value(field, value)}")
    return "\n".join(lines) + "\n"


def _value(field: Field, value: Any) -> str:
    text = field.show(value)
    if field.kind is Kind.YES_NO:
        return "true" if value else "false"
    if field.kind is Kind.MOMENT and text:
        return text
    if field.kind in _AS_NUMBER and field.read is None and _NUMBER.fullmatch(text):
        return text
    # a text of JSON is one of TOML, but for the one control character that JSON leaves as it is
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
