"""Making sheets with their dimensions, steps and tools.

Revision: 0003, after 0002
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import create_shadow

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "making_sheet",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("part_id", sa.Integer(), nullable=False),
        sa.Column("attempt", sa.Integer(), nullable=False),
        sa.Column("shape", sa.String(40), nullable=False),
        sa.Column("progress", sa.String(40), nullable=False),
        sa.Column("unit", sa.String(), nullable=False),
        sa.Column("quantity", sa.Integer(), nullable=False),
        sa.Column("why", sa.String(), nullable=False),
        sa.Column("do_not_copy", sa.String(), nullable=False),
        sa.Column("material", sa.String(), nullable=False),
        sa.Column("bar_skin", sa.String(), nullable=False),
        sa.Column("blank", sa.String(), nullable=False),
        sa.Column("blank_at", sa.String(), nullable=False),
        sa.Column("thread", sa.String(), nullable=False),
        sa.Column("taper", sa.String(), nullable=False),
        sa.Column("gear", sa.String(), nullable=False),
        sa.Column("key", sa.String(), nullable=False),
        sa.Column("finish", sa.String(), nullable=False),
        sa.Column("allow_uncertainty", sa.Boolean(), nullable=False),
        sa.Column("started_at", sa.String(19)),
        sa.Column("begun_at", sa.String(19)),
        sa.Column("made_at", sa.String(19)),
        sa.Column("settled_at", sa.String(19)),
        sa.Column("settled_by", sa.String(), nullable=False),
        sa.Column("settled_note", sa.String(), nullable=False),
        sa.Column("trial_fit", sa.String(), nullable=False),
        sa.Column("marked", sa.String(), nullable=False),
        sa.Column("looked", sa.String(), nullable=False),
        sa.Column("looked_at", sa.String(19)),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_making_sheet"),
        sa.ForeignKeyConstraint(
            ["part_id"], ["part.id"], name="fk_making_sheet_part_id_part", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_making_sheet_part_id", "making_sheet", ["part_id"])
    op.create_table(
        "making_step",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("sheet_id", sa.Integer(), nullable=False),
        sa.Column("what", sa.String(), nullable=False),
        sa.Column("machine", sa.String(), nullable=False),
        sa.Column("hold", sa.String(), nullable=False),
        sa.Column("tool", sa.String(), nullable=False),
        sa.Column("speed", sa.String(), nullable=False),
        sa.Column("feed", sa.String(), nullable=False),
        sa.Column("leave", sa.String(), nullable=False),
        sa.Column("measure", sa.Boolean(), nullable=False),
        sa.Column("done_at", sa.String(19)),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_making_step"),
        sa.ForeignKeyConstraint(
            ["sheet_id"], ["making_sheet.id"], name="fk_making_step_sheet_id_making_sheet", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_making_step_sheet_position", "making_step", ["sheet_id", "position"])
    op.create_table(
        "making_tool",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("sheet_id", sa.Integer(), nullable=False),
        sa.Column("what", sa.String(), nullable=False),
        sa.Column("why", sa.String(), nullable=False),
        sa.Column("in_hand", sa.Boolean(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_making_tool"),
        sa.ForeignKeyConstraint(
            ["sheet_id"], ["making_sheet.id"], name="fk_making_tool_sheet_id_making_sheet", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_making_tool_sheet_position", "making_tool", ["sheet_id", "position"])
    op.create_table(
        "making_dimension",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("sheet_id", sa.Integer(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("feature_id", sa.Integer()),
        sa.Column("fit_id", sa.Integer()),
        sa.Column("limits_from", sa.String(40), nullable=False),
        sa.Column("size_text", sa.String(), nullable=False),
        sa.Column("nominal_text", sa.String()),
        sa.Column("nominal_unit", sa.String()),
        sa.Column("nominal_mm", sa.Double()),
        sa.Column("low_text", sa.String()),
        sa.Column("low_unit", sa.String()),
        sa.Column("low_mm", sa.Double()),
        sa.Column("high_text", sa.String()),
        sa.Column("high_unit", sa.String()),
        sa.Column("high_mm", sa.Double()),
        sa.Column("measured_with", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_making_dimension"),
        sa.ForeignKeyConstraint(
            ["feature_id"], ["feature.id"], name="fk_making_dimension_feature_id_feature", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["fit_id"], ["fit.id"], name="fk_making_dimension_fit_id_fit", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["sheet_id"],
            ["making_sheet.id"],
            name="fk_making_dimension_sheet_id_making_sheet",
            ondelete="CASCADE",
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_making_dimension_feature_id", "making_dimension", ["feature_id"])
    op.create_index("ix_making_dimension_fit_id", "making_dimension", ["fit_id"])
    op.create_index("ix_making_dimension_sheet_position", "making_dimension", ["sheet_id", "position"])
    create_shadow(
        "making_sheet",
        (
            "id",
            "part_id",
            "attempt",
            "shape",
            "progress",
            "unit",
            "quantity",
            "why",
            "do_not_copy",
            "material",
            "bar_skin",
            "blank",
            "blank_at",
            "thread",
            "taper",
            "gear",
            "key",
            "finish",
            "allow_uncertainty",
            "started_at",
            "begun_at",
            "made_at",
            "settled_at",
            "settled_by",
            "settled_note",
            "trial_fit",
            "marked",
            "looked",
            "looked_at",
            "note",
        ),
    )
    create_shadow(
        "making_step",
        (
            "id",
            "sheet_id",
            "what",
            "machine",
            "hold",
            "tool",
            "speed",
            "feed",
            "leave",
            "measure",
            "done_at",
            "note",
            "position",
        ),
    )
    create_shadow(
        "making_tool",
        (
            "id",
            "sheet_id",
            "what",
            "why",
            "in_hand",
            "position",
        ),
    )
    create_shadow(
        "making_dimension",
        (
            "id",
            "sheet_id",
            "role",
            "name",
            "feature_id",
            "fit_id",
            "limits_from",
            "size_text",
            "nominal_text",
            "nominal_unit",
            "nominal_mm",
            "low_text",
            "low_unit",
            "low_mm",
            "high_text",
            "high_unit",
            "high_mm",
            "measured_with",
            "note",
            "position",
        ),
    )


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
