"""What all tables share: ids, references, enums by value, and the constraints that follow from a column's name.

``*_at`` and ``at`` hold a moment; ``*_mg``, ``*_minutes``, ``*_minor``, ``*_um`` are not negative;
``quantity`` and ``count`` are at least one; a ``code`` is one printable word; a boolean is 0 or 1.
"""

from enum import StrEnum
from typing import Any

from sqlalchemy import Boolean, CheckConstraint, Enum, MetaData
from sqlmodel import Field, SQLModel

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)

_MOMENT_SHAPE = "[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z"


class Row(SQLModel):
    """A table row with an id that is never used again."""

    metadata = metadata

    id: int | None = Field(default=None, primary_key=True)


def one_of(values: type[StrEnum], column: str) -> Any:
    """Column type of an enum stored by value, with a CHECK named after the column."""
    return Enum(
        values,
        values_callable=lambda members: [m.value for m in members],
        native_enum=False,
        create_constraint=True,
        name=column,
        length=24,
    )


def choice(values: type[StrEnum], column: str, **given: Any) -> Any:
    return Field(sa_type=one_of(values, column), **given)


def ref(target: str, **given: Any) -> Any:
    """A reference to another table's id; deleting what is referred to is refused."""
    return Field(foreign_key=f"{target}.id", index=True, **given)


def maybe_ref(target: str) -> Any:
    return ref(target, default=None)


def _rule(name: str, is_bool: bool) -> str | None:
    if name == "at" or name.endswith("_at"):
        return f"{name} GLOB '{_MOMENT_SHAPE}'"
    if name.endswith(("_mg", "_minutes", "_minor", "_um", "_days", "_percent")):
        return f"{name} >= 0"
    if name in ("quantity", "count", "heads"):
        return f"{name} >= 1"
    if name == "code":
        return "length(code) BETWEEN 1 AND 24 AND code NOT GLOB '*[^A-Z0-9._-]*'"
    return f"{name} IN (0, 1)" if is_bool else None


def constrain(whole: MetaData) -> None:
    """Add to every table what its column names promise, and AUTOINCREMENT."""
    for table in whole.tables.values():
        table.dialect_options["sqlite"]["autoincrement"] = True
        for column in table.columns:
            rule = _rule(column.name, isinstance(column.type, Boolean))
            if rule:
                table.append_constraint(CheckConstraint(rule, name=column.name))
