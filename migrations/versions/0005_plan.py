"""The owner's week and the plan.

Revision: 0005, after 0004
"""

from __future__ import annotations

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Nothing yet: its tables come with the pages that need them, before the first release."""


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
