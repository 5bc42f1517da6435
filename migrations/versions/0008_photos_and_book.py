"""Photos with their marks.

Revision: 0008, after 0007
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import create_shadow

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "photo",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("subassembly_id", sa.Integer()),
        sa.Column("part_id", sa.Integer()),
        sa.Column("task_id", sa.Integer()),
        sa.Column("sha256", sa.String(), nullable=False),
        sa.Column("ending", sa.String(), nullable=False),
        sa.Column("file_name", sa.String(), nullable=False),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
        sa.Column("taken_at", sa.String(19)),
        sa.Column("phase", sa.String(40), nullable=False),
        sa.Column("view", sa.String(), nullable=False),
        sa.Column("proves", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_photo"),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_photo_machine_id_machine", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(["part_id"], ["part.id"], name="fk_photo_part_id_part", ondelete="SET NULL"),
        sa.ForeignKeyConstraint(
            ["subassembly_id"],
            ["subassembly.id"],
            name="fk_photo_subassembly_id_subassembly",
            ondelete="SET NULL",
        ),
        sa.ForeignKeyConstraint(["task_id"], ["task.id"], name="fk_photo_task_id_task", ondelete="SET NULL"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_photo_machine_taken", "photo", ["machine_id", "taken_at"])
    op.create_index("ix_photo_part_id", "photo", ["part_id"])
    op.create_index("ix_photo_sha256", "photo", ["sha256"])
    op.create_index("ix_photo_subassembly_id", "photo", ["subassembly_id"])
    op.create_index("ix_photo_task_id", "photo", ["task_id"])
    op.create_table(
        "photo_mark",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("photo_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("x", sa.Double(), nullable=False),
        sa.Column("y", sa.Double(), nullable=False),
        sa.Column("x2", sa.Double(), nullable=False),
        sa.Column("y2", sa.Double(), nullable=False),
        sa.Column("text", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_photo_mark"),
        sa.ForeignKeyConstraint(
            ["photo_id"], ["photo.id"], name="fk_photo_mark_photo_id_photo", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_photo_mark_photo_id", "photo_mark", ["photo_id"])
    create_shadow(
        "photo",
        (
            "id",
            "machine_id",
            "subassembly_id",
            "part_id",
            "task_id",
            "sha256",
            "ending",
            "file_name",
            "width",
            "height",
            "taken_at",
            "phase",
            "view",
            "proves",
            "note",
        ),
    )
    create_shadow(
        "photo_mark",
        (
            "id",
            "photo_id",
            "kind",
            "x",
            "y",
            "x2",
            "y2",
            "text",
        ),
    )


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
