"""Fits, wear rules, decision options and non-standard sizes.

Revision: 0002, after 0001
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import add_journaled_column, create_shadow

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "wear_rule",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(), nullable=False),
        sa.Column("good_text", sa.String()),
        sa.Column("good_unit", sa.String()),
        sa.Column("good_mm", sa.Double()),
        sa.Column("rework_text", sa.String()),
        sa.Column("rework_unit", sa.String()),
        sa.Column("rework_mm", sa.Double()),
        sa.Column("left_out", sa.Boolean(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_wear_rule"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_wear_rule_key", "wear_rule", ["key"])
    op.create_table(
        "decision_option",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("part_id", sa.Integer(), nullable=False),
        sa.Column("decision", sa.String(40), nullable=False),
        sa.Column("method", sa.String(), nullable=False),
        sa.Column("cost", sa.Double()),
        sa.Column("work_min", sa.Double()),
        sa.Column("wait_days", sa.Double()),
        sa.Column("reversible", sa.Boolean(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_decision_option"),
        sa.ForeignKeyConstraint(
            ["part_id"], ["part.id"], name="fk_decision_option_part_id_part", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_decision_option_part_id", "decision_option", ["part_id"])
    op.create_table(
        "odd_size",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("part_id", sa.Integer(), nullable=False),
        sa.Column("feature_id", sa.Integer()),
        sa.Column("what", sa.String(), nullable=False),
        sa.Column("size_text", sa.String()),
        sa.Column("size_unit", sa.String()),
        sa.Column("size_mm", sa.Double()),
        sa.Column("instead_of", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("since", sa.String(19)),
        sa.PrimaryKeyConstraint("id", name="pk_odd_size"),
        sa.ForeignKeyConstraint(
            ["feature_id"], ["feature.id"], name="fk_odd_size_feature_id_feature", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["part_id"], ["part.id"], name="fk_odd_size_part_id_part", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_odd_size_feature_id", "odd_size", ["feature_id"])
    op.create_index("ix_odd_size_part_id", "odd_size", ["part_id"])
    op.create_table(
        "fit",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("joint", sa.String(40), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("outer_id", sa.Integer(), nullable=False),
        sa.Column("inner_id", sa.Integer(), nullable=False),
        sa.Column("gap_id", sa.Integer()),
        sa.Column("outer_station_id", sa.Integer()),
        sa.Column("inner_station_id", sa.Integer()),
        sa.Column("outer_stage", sa.String(40)),
        sa.Column("inner_stage", sa.String(40)),
        sa.Column("unit", sa.String(), nullable=False),
        sa.Column("wanted_text", sa.String(), nullable=False),
        sa.Column("low_text", sa.String()),
        sa.Column("low_unit", sa.String()),
        sa.Column("low_mm", sa.Double()),
        sa.Column("high_text", sa.String()),
        sa.Column("high_unit", sa.String()),
        sa.Column("high_mm", sa.Double()),
        sa.Column("wanted_origin", sa.String(40)),
        sa.Column("wanted_note", sa.String(), nullable=False),
        sa.Column("master", sa.String(40)),
        sa.Column("adjuster", sa.String(40), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("looked_at", sa.String(19)),
        sa.Column("looked", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_fit"),
        sa.ForeignKeyConstraint(
            ["gap_id"], ["feature.id"], name="fk_fit_gap_id_feature", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["inner_id"], ["feature.id"], name="fk_fit_inner_id_feature", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["inner_station_id"], ["station.id"], name="fk_fit_inner_station_id_station", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_fit_machine_id_machine", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["outer_id"], ["feature.id"], name="fk_fit_outer_id_feature", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["outer_station_id"], ["station.id"], name="fk_fit_outer_station_id_station", ondelete="SET NULL"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_fit_gap_id", "fit", ["gap_id"])
    op.create_index("ix_fit_inner_id", "fit", ["inner_id"])
    op.create_index("ix_fit_inner_station_id", "fit", ["inner_station_id"])
    op.create_index("ix_fit_machine_position", "fit", ["machine_id", "position"])
    op.create_index("ix_fit_outer_id", "fit", ["outer_id"])
    op.create_index("ix_fit_outer_station_id", "fit", ["outer_station_id"])
    create_shadow(
        "wear_rule",
        (
            "id",
            "key",
            "good_text",
            "good_unit",
            "good_mm",
            "rework_text",
            "rework_unit",
            "rework_mm",
            "left_out",
            "note",
        ),
    )
    create_shadow(
        "decision_option",
        (
            "id",
            "part_id",
            "decision",
            "method",
            "cost",
            "work_min",
            "wait_days",
            "reversible",
            "note",
            "position",
        ),
    )
    create_shadow(
        "odd_size",
        (
            "id",
            "part_id",
            "feature_id",
            "what",
            "size_text",
            "size_unit",
            "size_mm",
            "instead_of",
            "reason",
            "since",
        ),
    )
    create_shadow(
        "fit",
        (
            "id",
            "machine_id",
            "name",
            "joint",
            "kind",
            "outer_id",
            "inner_id",
            "gap_id",
            "outer_station_id",
            "inner_station_id",
            "outer_stage",
            "inner_stage",
            "unit",
            "wanted_text",
            "low_text",
            "low_unit",
            "low_mm",
            "high_text",
            "high_unit",
            "high_mm",
            "wanted_origin",
            "wanted_note",
            "master",
            "adjuster",
            "note",
            "looked_at",
            "looked",
            "position",
        ),
    )
    for column in (
        sa.Column("decision_method", sa.String()),
        sa.Column("decision_value", sa.String()),
        sa.Column("decision_cost", sa.Double()),
        sa.Column("decision_work_min", sa.Double()),
        sa.Column("decision_wait_days", sa.Double()),
    ):
        add_journaled_column("part", column)


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
