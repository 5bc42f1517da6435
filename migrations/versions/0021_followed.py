"""Every image in the journal follows from the one before, also of acts sealed by an earlier upgrade or a repair.

What 0011 changed of rows that stood, and what a repair mended, the journal was not told; the images before it say so
from now on, so that the check can compare them all.

Revision: 0021, after 0020
"""

from __future__ import annotations

from rebuild.store.migrating import let_images_follow

revision = "0021"
down_revision = "0020"
branch_labels = None
depends_on = None


def upgrade() -> None:
    let_images_follow()


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
