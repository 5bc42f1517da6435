"""How a thread was measured; the mate that comes later; the piece a part is really made from, the tool as ground.

Revision: 0012, after 0011
"""

from __future__ import annotations

import sqlalchemy as sa

from rebuild.store.migrating import add_journaled_column

revision = "0012"
down_revision = "0011"
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
    # No reference: SQLite would have the table rebuilt for one, and old acts sealed. A number is never used twice.
    add_journaled_column("fit", sa.Column("later_id", sa.Integer()))
    add_journaled_column("fit", sa.Column("limits_to", sa.String(40)))


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
