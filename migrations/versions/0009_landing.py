"""Values a gauge sent while no row was in hand; how far an instrument reaches and what it can measure.

Revision: 0009, after 0008
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import add_journaled_column, create_shadow

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None


def upgrade() -> None:
    for stem in ("least", "most"):
        add_journaled_column("instrument", sa.Column(f"{stem}_text", sa.String()))
        add_journaled_column("instrument", sa.Column(f"{stem}_unit", sa.String()))
        add_journaled_column("instrument", sa.Column(f"{stem}_mm", sa.Double()))
    add_journaled_column("instrument", sa.Column("measures", sa.String()))
    op.create_table(
        "unplaced",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("typed", sa.String(), nullable=False),
        sa.Column("sent_at", sa.String(19), nullable=False),
        sa.Column("seen_on", sa.String(), nullable=False),
        sa.Column("instrument_id", sa.Integer()),
        sa.Column("temperature_text", sa.String()),
        sa.Column("taken_by", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_unplaced"),
        sa.ForeignKeyConstraint(
            ["instrument_id"],
            ["instrument.id"],
            name="fk_unplaced_instrument_id_instrument",
            ondelete="SET NULL",
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_unplaced_instrument_id", "unplaced", ["instrument_id"])
    create_shadow(
        "unplaced",
        ("id", "typed", "sent_at", "seen_on", "instrument_id", "temperature_text", "taken_by"),
    )


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
