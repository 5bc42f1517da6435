"""Making sheets with their dimensions, steps and drawing sizes.

Revision: 0003, after 0002
"""

from __future__ import annotations

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Nothing yet: its tables come with the pages that need them, before the first release."""


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
