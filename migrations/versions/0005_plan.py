"""The owner's week: the hours that go to the machines, and days off.

Revision: 0005, after 0004
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import create_shadow

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "day_off",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("first", sa.String(19), nullable=False),
        sa.Column("last", sa.String(19), nullable=False),
        sa.Column("why", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_day_off"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "work_spell",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("weekday", sa.Integer(), nullable=False),
        sa.Column("start_min", sa.Integer(), nullable=False),
        sa.Column("end_min", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_work_spell"),
        sqlite_autoincrement=True,
    )
    create_shadow(
        "day_off",
        (
            "id",
            "first",
            "last",
            "why",
        ),
    )
    create_shadow(
        "work_spell",
        (
            "id",
            "weekday",
            "start_min",
            "end_min",
        ),
    )


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
