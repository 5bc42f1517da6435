"""A checksum beside each act of the history, each setting and each kept entry; what stands is confirmed as it is.

Revision: 0020, after 0019
"""

from __future__ import annotations

from rebuild.store.migrating import add_checksums

revision = "0020"
down_revision = "0019"
branch_labels = None
depends_on = None


def upgrade() -> None:
    add_checksums()


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
