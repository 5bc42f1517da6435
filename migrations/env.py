"""Alembic's environment. The program hands over its own connection and owns the transaction.

By hand: ``alembic -x file=PATH upgrade head`` (configuration in pyproject.toml).
"""

from __future__ import annotations

from alembic import context
from sqlalchemy import create_engine, event

from rebuild.model.shadows import add_shadows
from rebuild.model.tables.every import whole

metadata = whole()
add_shadows(metadata)


def run(connection) -> None:
    """Run the migrations on ``connection`` inside whatever transaction it is in."""
    context.configure(connection=connection, target_metadata=metadata, render_as_batch=True)
    with context.begin_transaction():
        context.run_migrations()


given = context.config.attributes.get("connection")
if given is not None:
    run(given)
else:
    engine = create_engine(
        f"sqlite:///{context.get_x_argument(as_dictionary=True)['file']}",
        connect_args={"isolation_level": None},
    )
    event.listen(engine, "connect", lambda raw, _record: raw.execute("PRAGMA foreign_keys = OFF"))
    event.listen(engine, "begin", lambda connection: connection.exec_driver_sql("BEGIN IMMEDIATE"))
    with engine.begin() as own:
        run(own)
