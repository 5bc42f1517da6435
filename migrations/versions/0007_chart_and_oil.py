"""Geometry tests, lubrication points and run-in.

Revision: 0007, after 0006
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import create_shadow

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "chart_test",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("after_id", sa.Integer()),
        sa.Column("key", sa.String(), nullable=False),
        sa.Column("number", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("sketch", sa.String(), nullable=False),
        sa.Column("set_up", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_chart_test"),
        sa.ForeignKeyConstraint(
            ["after_id"], ["chart_test.id"], name="fk_chart_test_after_id_chart_test", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_chart_test_machine_id_machine", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_chart_test_after_id", "chart_test", ["after_id"])
    op.create_index("ix_chart_test_machine_position", "chart_test", ["machine_id", "position"])
    op.create_table(
        "cut_test",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("stage", sa.String(40), nullable=False),
        sa.Column("unit", sa.String(), nullable=False),
        sa.Column("first_text", sa.String()),
        sa.Column("first_unit", sa.String()),
        sa.Column("first_mm", sa.Double()),
        sa.Column("second_text", sa.String()),
        sa.Column("second_unit", sa.String()),
        sa.Column("second_mm", sa.Double()),
        sa.Column("apart_text", sa.String()),
        sa.Column("apart_unit", sa.String()),
        sa.Column("apart_mm", sa.Double()),
        sa.Column("allowed_text", sa.String()),
        sa.Column("allowed_unit", sa.String()),
        sa.Column("allowed_mm", sa.Double()),
        sa.Column("allowed_over_text", sa.String()),
        sa.Column("allowed_over_unit", sa.String()),
        sa.Column("allowed_over_mm", sa.Double()),
        sa.Column("allowed_origin", sa.String(), nullable=False),
        sa.Column("allowed_status", sa.String(40), nullable=False),
        sa.Column("instrument_id", sa.Integer()),
        sa.Column("temperature_c", sa.Double()),
        sa.Column("taken_at", sa.String(19), nullable=False),
        sa.Column("adjusted", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_cut_test"),
        sa.ForeignKeyConstraint(
            ["instrument_id"],
            ["instrument.id"],
            name="fk_cut_test_instrument_id_instrument",
            ondelete="SET NULL",
        ),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_cut_test_machine_id_machine", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_cut_test_instrument_id", "cut_test", ["instrument_id"])
    op.create_index("ix_cut_test_machine_at", "cut_test", ["machine_id", "taken_at"])
    op.create_table(
        "level_reading",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("place", sa.String(), nullable=False),
        sa.Column("at_text", sa.String()),
        sa.Column("at_unit", sa.String()),
        sa.Column("at_mm", sa.Double()),
        sa.Column("way", sa.String(40), nullable=False),
        sa.Column("typed", sa.String(), nullable=False),
        sa.Column("slope_um_per_m", sa.Double(), nullable=False),
        sa.Column("division", sa.String(), nullable=False),
        sa.Column("instrument_id", sa.Integer()),
        sa.Column("temperature_c", sa.Double()),
        sa.Column("taken_at", sa.String(19), nullable=False),
        sa.Column("adjusted", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_level_reading"),
        sa.ForeignKeyConstraint(
            ["instrument_id"],
            ["instrument.id"],
            name="fk_level_reading_instrument_id_instrument",
            ondelete="SET NULL",
        ),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_level_reading_machine_id_machine", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_level_reading_instrument_id", "level_reading", ["instrument_id"])
    op.create_index("ix_level_reading_machine_at", "level_reading", ["machine_id", "taken_at"])
    op.create_table(
        "run_look",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("due", sa.String(40), nullable=False),
        sa.Column("text", sa.String(), nullable=False),
        sa.Column("topic", sa.String(), nullable=False),
        sa.Column("licensed", sa.Boolean(), nullable=False),
        sa.Column("done_at", sa.String(19)),
        sa.Column("done_by", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_run_look"),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_run_look_machine_id_machine", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_run_look_machine_position", "run_look", ["machine_id", "position"])
    op.create_table(
        "run_step",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("speed_rpm", sa.Double()),
        sa.Column("planned_min", sa.Double()),
        sa.Column("limit_c", sa.Double()),
        sa.Column("limit_origin", sa.String(), nullable=False),
        sa.Column("limit_status", sa.String(40), nullable=False),
        sa.Column("state", sa.String(40), nullable=False),
        sa.Column("ambient_c", sa.Double()),
        sa.Column("started_at", sa.String(19)),
        sa.Column("noise", sa.String(), nullable=False),
        sa.Column("oil_seen", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_run_step"),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_run_step_machine_id_machine", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_run_step_machine_position", "run_step", ["machine_id", "position"])
    op.create_table(
        "chart_line",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("test_id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("unit", sa.String(), nullable=False),
        sa.Column("sign", sa.String(40), nullable=False),
        sa.Column("plus_means", sa.String(), nullable=False),
        sa.Column("minus_means", sa.String(), nullable=False),
        sa.Column("allowed_text", sa.String()),
        sa.Column("allowed_unit", sa.String()),
        sa.Column("allowed_mm", sa.Double()),
        sa.Column("per_text", sa.String()),
        sa.Column("per_unit", sa.String()),
        sa.Column("per_mm", sa.Double()),
        sa.Column("along", sa.String(40), nullable=False),
        sa.Column("origin", sa.String(), nullable=False),
        sa.Column("status", sa.String(40), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_chart_line"),
        sa.ForeignKeyConstraint(
            ["test_id"], ["chart_test.id"], name="fk_chart_line_test_id_chart_test", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_chart_line_test_position", "chart_line", ["test_id", "position"])
    op.create_table(
        "run_reading",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("step_id", sa.Integer(), nullable=False),
        sa.Column("bearing", sa.String(), nullable=False),
        sa.Column("minute", sa.Double(), nullable=False),
        sa.Column("celsius", sa.Double(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_run_reading"),
        sa.ForeignKeyConstraint(
            ["step_id"], ["run_step.id"], name="fk_run_reading_step_id_run_step", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_run_reading_step_bearing", "run_reading", ["step_id", "bearing", "minute"])
    op.create_table(
        "chart_reading",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("line_id", sa.Integer(), nullable=False),
        sa.Column("stage", sa.String(40), nullable=False),
        sa.Column("typed", sa.String(), nullable=False),
        sa.Column("value_mm", sa.Double(), nullable=False),
        sa.Column("over_text", sa.String()),
        sa.Column("over_unit", sa.String()),
        sa.Column("over_mm", sa.Double()),
        sa.Column("instrument_id", sa.Integer()),
        sa.Column("temperature_c", sa.Double()),
        sa.Column("taken_at", sa.String(19), nullable=False),
        sa.Column("adjusted", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_chart_reading"),
        sa.ForeignKeyConstraint(
            ["instrument_id"],
            ["instrument.id"],
            name="fk_chart_reading_instrument_id_instrument",
            ondelete="SET NULL",
        ),
        sa.ForeignKeyConstraint(
            ["line_id"], ["chart_line.id"], name="fk_chart_reading_line_id_chart_line", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_chart_reading_instrument_id", "chart_reading", ["instrument_id"])
    op.create_index("ix_chart_reading_line_stage", "chart_reading", ["line_id", "stage", "id"])
    op.create_table(
        "oil_point",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("fed_by_id", sa.Integer()),
        sa.Column("part_id", sa.Integer()),
        sa.Column("task_id", sa.Integer()),
        sa.Column("number", sa.String(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("feeds", sa.String(), nullable=False),
        sa.Column("path", sa.String(), nullable=False),
        sa.Column("old_oil", sa.String(), nullable=False),
        sa.Column("duty", sa.String(), nullable=False),
        sa.Column("oil", sa.String(), nullable=False),
        sa.Column("quantity", sa.String(), nullable=False),
        sa.Column("interval", sa.String(), nullable=False),
        sa.Column("dose_ml", sa.Double()),
        sa.Column("delivery_ml", sa.Double()),
        sa.Column("first_fill_at", sa.String(19)),
        sa.Column("proof", sa.String(40), nullable=False),
        sa.Column("proved_at", sa.String(19)),
        sa.Column("proved_note", sa.String(), nullable=False),
        sa.Column("x", sa.Double()),
        sa.Column("y", sa.Double()),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_oil_point"),
        sa.ForeignKeyConstraint(
            ["fed_by_id"], ["oil_point.id"], name="fk_oil_point_fed_by_id_oil_point", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_oil_point_machine_id_machine", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["part_id"], ["part.id"], name="fk_oil_point_part_id_part", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["task_id"], ["task.id"], name="fk_oil_point_task_id_task", ondelete="SET NULL"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_oil_point_fed_by_id", "oil_point", ["fed_by_id"])
    op.create_index("ix_oil_point_machine_position", "oil_point", ["machine_id", "position"])
    op.create_index("ix_oil_point_part_id", "oil_point", ["part_id"])
    op.create_index("ix_oil_point_task_id", "oil_point", ["task_id"])
    create_shadow(
        "chart_test",
        (
            "id",
            "machine_id",
            "after_id",
            "key",
            "number",
            "name",
            "sketch",
            "set_up",
            "note",
            "position",
        ),
    )
    create_shadow(
        "cut_test",
        (
            "id",
            "machine_id",
            "kind",
            "stage",
            "unit",
            "first_text",
            "first_unit",
            "first_mm",
            "second_text",
            "second_unit",
            "second_mm",
            "apart_text",
            "apart_unit",
            "apart_mm",
            "allowed_text",
            "allowed_unit",
            "allowed_mm",
            "allowed_over_text",
            "allowed_over_unit",
            "allowed_over_mm",
            "allowed_origin",
            "allowed_status",
            "instrument_id",
            "temperature_c",
            "taken_at",
            "adjusted",
            "note",
        ),
    )
    create_shadow(
        "level_reading",
        (
            "id",
            "machine_id",
            "place",
            "at_text",
            "at_unit",
            "at_mm",
            "way",
            "typed",
            "slope_um_per_m",
            "division",
            "instrument_id",
            "temperature_c",
            "taken_at",
            "adjusted",
            "note",
        ),
    )
    create_shadow(
        "run_look",
        (
            "id",
            "machine_id",
            "due",
            "text",
            "topic",
            "licensed",
            "done_at",
            "done_by",
            "note",
            "position",
        ),
    )
    create_shadow(
        "run_step",
        (
            "id",
            "machine_id",
            "name",
            "speed_rpm",
            "planned_min",
            "limit_c",
            "limit_origin",
            "limit_status",
            "state",
            "ambient_c",
            "started_at",
            "noise",
            "oil_seen",
            "note",
            "position",
        ),
    )
    create_shadow(
        "chart_line",
        (
            "id",
            "test_id",
            "key",
            "name",
            "unit",
            "sign",
            "plus_means",
            "minus_means",
            "allowed_text",
            "allowed_unit",
            "allowed_mm",
            "per_text",
            "per_unit",
            "per_mm",
            "along",
            "origin",
            "status",
            "position",
        ),
    )
    create_shadow(
        "run_reading",
        (
            "id",
            "step_id",
            "bearing",
            "minute",
            "celsius",
            "note",
        ),
    )
    create_shadow(
        "chart_reading",
        (
            "id",
            "line_id",
            "stage",
            "typed",
            "value_mm",
            "over_text",
            "over_unit",
            "over_mm",
            "instrument_id",
            "temperature_c",
            "taken_at",
            "adjusted",
            "note",
        ),
    )
    create_shadow(
        "oil_point",
        (
            "id",
            "machine_id",
            "fed_by_id",
            "part_id",
            "task_id",
            "number",
            "kind",
            "feeds",
            "path",
            "old_oil",
            "duty",
            "oil",
            "quantity",
            "interval",
            "dose_ml",
            "delivery_ml",
            "first_fill_at",
            "proof",
            "proved_at",
            "proved_note",
            "x",
            "y",
            "note",
            "position",
        ),
    )


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
