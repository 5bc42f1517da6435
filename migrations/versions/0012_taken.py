"""How a thread was measured; the mate that comes later; the piece a part is really made from, the tool as ground.

Revision: 0012, after 0009
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import add_journaled_column, create_shadow

revision = "0012"
down_revision = "0009"
branch_labels = None
depends_on = None


def upgrade() -> None:
    add_journaled_column("reading", sa.Column("how", sa.String()))
    add_journaled_column("reading", sa.Column("thread", sa.String()))
    add_journaled_column("reading", sa.Column("read_mm", sa.Double()))
    for name in ("tool_nose", "stock_ends"):
        add_journaled_column("making_sheet", sa.Column(name, sa.String()))
    for stem in ("stock_across", "stock_long"):
        add_journaled_column("making_sheet", sa.Column(f"{stem}_text", sa.String()))
        add_journaled_column("making_sheet", sa.Column(f"{stem}_unit", sa.String()))
        add_journaled_column("making_sheet", sa.Column(f"{stem}_mm", sa.Double()))
    op.create_table(
        "later_mate",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("fit_id", sa.Integer(), nullable=False),
        sa.Column("feature_id", sa.Integer(), nullable=False),
        sa.Column("limits_to", sa.String(40), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_later_mate"),
        sa.ForeignKeyConstraint(["fit_id"], ["fit.id"], name="fk_later_mate_fit_id_fit", ondelete="CASCADE"),
        sa.ForeignKeyConstraint(
            ["feature_id"], ["feature.id"], name="fk_later_mate_feature_id_feature", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    for column in ("fit_id", "feature_id"):
        op.create_index(f"ix_later_mate_{column}", "later_mate", [column])
    create_shadow("later_mate", ("id", "fit_id", "feature_id", "limits_to", "note"))


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
