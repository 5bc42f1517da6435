"""Fits, wear rules, decision options and non-standard sizes.

Revision: 0002, after 0001
"""

from __future__ import annotations

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Nothing yet: its tables come with the pages that need them, before the first release."""


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
