"""A making sheet has an issue: number, moment, the limits it went out with, what it replaces. Balls or pins in hand.

Revision: 0022, after 0021
"""

from __future__ import annotations

import sqlalchemy as sa

from rebuild.store.migrating import add_journaled_column

revision = "0022"
down_revision = "0021"
branch_labels = None
depends_on = None


def upgrade() -> None:
    add_journaled_column("making_sheet", sa.Column("issue", sa.Integer()))
    add_journaled_column("making_sheet", sa.Column("issued_at", sa.String(19)))
    add_journaled_column("making_sheet", sa.Column("issued", sa.String()))
    add_journaled_column("making_sheet", sa.Column("replaces", sa.String()))
    add_journaled_column("making_sheet", sa.Column("ball_text", sa.String()))
    add_journaled_column("making_sheet", sa.Column("ball_unit", sa.String()))
    add_journaled_column("making_sheet", sa.Column("ball_mm", sa.Double()))


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
