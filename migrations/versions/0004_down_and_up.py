"""Removal log, fasteners, shims, joints, attempts, clocks, orders and stock.

Revision: 0004, after 0003
"""

from __future__ import annotations

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Nothing yet: its tables come with the pages that need them, before the first release."""


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
