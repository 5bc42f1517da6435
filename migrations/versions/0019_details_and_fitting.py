"""Holes, flats, keyways and the like on a part to be made; what is fitted at assembly.

Revision: 0019, after 0016
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import create_shadow

revision = "0019"
down_revision = "0017"
branch_labels = None
depends_on = None

_DETAIL = ("name", "place", "size", "depth", "long", "circle", "came_out", "note")
_FITTING = ("what", "start", "allowance", "condition", "came_out", "note")


def upgrade() -> None:
    _details()
    _fittings()


def _details() -> None:
    op.create_table(
        "making_detail",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("sheet_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        *(sa.Column(name, sa.String(), nullable=False) for name in _DETAIL),
        sa.Column("around_deg", sa.Double(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("done_at", sa.String(19)),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_making_detail"),
        sa.ForeignKeyConstraint(
            ["sheet_id"],
            ["making_sheet.id"],
            name="fk_making_detail_sheet_id_making_sheet",
            ondelete="CASCADE",
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_making_detail_sheet_position", "making_detail", ["sheet_id", "position"])
    create_shadow(
        "making_detail",
        ("id", "sheet_id", "kind", *_DETAIL, "around_deg", "count", "done_at", "position"),
    )


def _fittings() -> None:
    op.create_table(
        "fitting",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("part_id", sa.Integer(), nullable=False),
        sa.Column("task_id", sa.Integer()),
        sa.Column("kind", sa.String(40), nullable=False),
        *(sa.Column(name, sa.String(), nullable=False) for name in _FITTING),
        sa.Column("done_at", sa.String(19)),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_fitting"),
        sa.ForeignKeyConstraint(["part_id"], ["part.id"], name="fk_fitting_part_id_part", ondelete="CASCADE"),
        sa.ForeignKeyConstraint(
            ["task_id"], ["task.id"], name="fk_fitting_task_id_task", ondelete="SET NULL"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_fitting_part_position", "fitting", ["part_id", "position"])
    op.create_index("ix_fitting_task_id", "fitting", ["task_id"])
    create_shadow("fitting", ("id", "part_id", "task_id", "kind", *_FITTING, "done_at", "position"))
