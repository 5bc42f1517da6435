"""What a part's finish is to be, and which cleaning or painting of its part a step is.

Revision: 0016, after 0015
"""

from __future__ import annotations

import sqlalchemy as sa

from rebuild.store.migrating import add_journaled_column

revision = "0016"
down_revision = "0015"
branch_labels = None
depends_on = None


def upgrade() -> None:
    add_journaled_column("task", sa.Column("treatment", sa.String(40)))
    add_journaled_column("part", sa.Column("finish", sa.String()))
