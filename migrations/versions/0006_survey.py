"""Way and geometry surveys: set-up, lines, readings.

Revision: 0006, after 0005
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import create_shadow

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "survey",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("part_id", sa.Integer()),
        sa.Column("before_id", sa.Integer()),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("method", sa.String(40), nullable=False),
        sa.Column("stage", sa.String(40), nullable=False),
        sa.Column("unit", sa.String(), nullable=False),
        sa.Column("division_um_per_m", sa.Double()),
        sa.Column("step_text", sa.String()),
        sa.Column("step_unit", sa.String()),
        sa.Column("step_mm", sa.Double()),
        sa.Column("allowed_text", sa.String()),
        sa.Column("allowed_unit", sa.String()),
        sa.Column("allowed_mm", sa.Double()),
        sa.Column("closure_text", sa.String()),
        sa.Column("closure_unit", sa.String()),
        sa.Column("closure_mm", sa.Double()),
        sa.Column("height_text", sa.String()),
        sa.Column("height_unit", sa.String()),
        sa.Column("height_mm", sa.Double()),
        sa.Column("spacing_text", sa.String()),
        sa.Column("spacing_unit", sa.String()),
        sa.Column("spacing_mm", sa.Double()),
        sa.Column("work_text", sa.String()),
        sa.Column("work_unit", sa.String()),
        sa.Column("work_mm", sa.Double()),
        sa.Column("sense", sa.String(), nullable=False),
        sa.Column("instrument_id", sa.Integer()),
        sa.Column("temperature_c", sa.Double()),
        sa.Column("taken_at", sa.String(19)),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_survey"),
        sa.ForeignKeyConstraint(
            ["before_id"], ["survey.id"], name="fk_survey_before_id_survey", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["instrument_id"],
            ["instrument.id"],
            name="fk_survey_instrument_id_instrument",
            ondelete="SET NULL",
        ),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_survey_machine_id_machine", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(["part_id"], ["part.id"], name="fk_survey_part_id_part", ondelete="SET NULL"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_survey_before_id", "survey", ["before_id"])
    op.create_index("ix_survey_instrument_id", "survey", ["instrument_id"])
    op.create_index("ix_survey_machine_id", "survey", ["machine_id"])
    op.create_index("ix_survey_part_id", "survey", ["part_id"])
    op.create_table(
        "survey_line",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("survey_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_survey_line"),
        sa.ForeignKeyConstraint(
            ["survey_id"], ["survey.id"], name="fk_survey_line_survey_id_survey", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_survey_line_survey_position", "survey_line", ["survey_id", "position"])
    op.create_table(
        "survey_reading",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("line_id", sa.Integer(), nullable=False),
        sa.Column("run", sa.Integer(), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("typed", sa.String(), nullable=False),
        sa.Column("value", sa.Double(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_survey_reading"),
        sa.ForeignKeyConstraint(
            ["line_id"], ["survey_line.id"], name="fk_survey_reading_line_id_survey_line", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_survey_reading_line_run", "survey_reading", ["line_id", "run", "place"])
    create_shadow(
        "survey",
        (
            "id",
            "machine_id",
            "part_id",
            "before_id",
            "name",
            "method",
            "stage",
            "unit",
            "division_um_per_m",
            "step_text",
            "step_unit",
            "step_mm",
            "allowed_text",
            "allowed_unit",
            "allowed_mm",
            "closure_text",
            "closure_unit",
            "closure_mm",
            "height_text",
            "height_unit",
            "height_mm",
            "spacing_text",
            "spacing_unit",
            "spacing_mm",
            "work_text",
            "work_unit",
            "work_mm",
            "sense",
            "instrument_id",
            "temperature_c",
            "taken_at",
            "note",
            "position",
        ),
    )
    create_shadow(
        "survey_line",
        (
            "id",
            "survey_id",
            "name",
            "position",
        ),
    )
    create_shadow(
        "survey_reading",
        (
            "id",
            "line_id",
            "run",
            "place",
            "typed",
            "value",
        ),
    )


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
