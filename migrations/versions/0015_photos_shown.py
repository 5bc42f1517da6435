"""A photo may show several things; the camera it came from, and how far that camera's clock is off.

Revision: 0015, after 0013
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import add_journaled_column, create_shadow

revision = "0015"
down_revision = "0013"
branch_labels = None
depends_on = None

_SHOWN = ("part", "removal", "task", "joint", "survey", "question")


def upgrade() -> None:
    add_journaled_column("photo", sa.Column("camera", sa.String()))
    _subjects()
    _cameras()


def _subjects() -> None:
    points = [
        sa.ForeignKeyConstraint(
            [f"{table}_id"], [f"{table}.id"], name=f"fk_photo_subject_{table}_id_{table}", ondelete="CASCADE"
        )
        for table in ("photo", *_SHOWN)
    ]
    op.create_table(
        "photo_subject",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("photo_id", sa.Integer(), nullable=False),
        *(sa.Column(f"{table}_id", sa.Integer()) for table in _SHOWN),
        sa.PrimaryKeyConstraint("id", name="pk_photo_subject"),
        *points,
        sqlite_autoincrement=True,
    )
    for table in ("photo", *_SHOWN):
        op.create_index(f"ix_photo_subject_{table}_id", "photo_subject", [f"{table}_id"])
    create_shadow("photo_subject", ("id", "photo_id", *(f"{table}_id" for table in _SHOWN)))


def _cameras() -> None:
    op.create_table(
        "camera",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("fast_s", sa.Double(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_camera"),
        sqlite_autoincrement=True,
    )
    create_shadow("camera", ("id", "name", "fast_s", "note"))
