"""What broke is a field of a removal; every word of the file has an index, and readings one by their size.

The index of words is derived from the rows: it is no part of the journal, and is filled when the file is first
searched (``rebuild/store/find``), so that a file of any older version is searched whole.

Revision: 0013, after 0012
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import add_journaled_column

revision = "0013"
down_revision = "0012"
branch_labels = None
depends_on = None


def upgrade() -> None:
    add_journaled_column("removal", sa.Column("broke", sa.String()))
    op.create_index("ix_reading_value_mm", "reading", ["value_mm"])
    for stem in ("nominal", "low", "high"):
        op.create_index(f"ix_feature_{stem}_mm", "feature", [f"{stem}_mm"])
    op.create_table(
        "find_mark",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("upto", sa.Integer(), nullable=False),
        sa.Column("made_of", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_find_mark"),
        sqlite_autoincrement=True,
    )
    op.execute(
        "CREATE VIRTUAL TABLE find_words USING fts5(words, tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2')"
    )


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
