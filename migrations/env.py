"""Alembic's environment: the ledger's own connection, or a throw-away file named with `-x db=PATH`.

The application hands over a connection in `config.attributes["connection"]`. It has already set
foreign_keys=OFF and begun the transaction, because a batch rebuild with foreign keys on cascades
child rows away, and without an explicit BEGIN a failing migration stays half applied.
"""

from alembic import context
from sqlalchemy import Connection, create_engine

from buildlog.record.tables import metadata


def migrate(connection: Connection) -> None:
    # compare_server_default stays off: with server_default="" it reports a change for ever.
    context.configure(
        connection=connection,
        target_metadata=metadata,
        render_as_batch=True,
        compare_type=True,
    )
    with context.begin_transaction():
        context.run_migrations()


def migrate_own_file() -> None:
    """The developer's way (`alembic -x db=PATH …`): never meant for a person's ledger."""
    path = context.get_x_argument(as_dictionary=True).get("db", "dev.db")
    engine = create_engine(f"sqlite:///{path}", hide_parameters=True)
    with engine.begin() as own:
        migrate(own)
    engine.dispose()


if context.is_offline_mode():
    raise SystemExit("buildlog migrates an open ledger only: leave out --sql")

given = context.config.attributes.get("connection")
if given is None:
    migrate_own_file()
else:
    migrate(given)
