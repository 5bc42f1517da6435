"""Geometry tests, lubrication points and run-in.

Revision: 0007, after 0006
"""

from __future__ import annotations

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Nothing yet: its tables come with the pages that need them, before the first release."""


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
