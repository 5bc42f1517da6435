"""The first schema: machines, parts, features, readings, tasks, notes, and the journal.

Revision: 0001
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import create_shadow

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "act",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("subject", sa.String(), nullable=False),
        sa.Column("at", sa.String(19), nullable=False),
        sa.Column("window", sa.String(), nullable=False),
        sa.Column("reverses", sa.Integer()),
        sa.Column("undone", sa.Boolean(), nullable=False),
        sa.Column("sealed", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_act"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_act_undone", "act", ["undone", "sealed", "id"])
    op.create_table(
        "instrument",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("unit", sa.String(), nullable=False),
        sa.Column("resolution_text", sa.String()),
        sa.Column("resolution_unit", sa.String()),
        sa.Column("resolution_mm", sa.Double()),
        sa.Column("mpe_text", sa.String()),
        sa.Column("mpe_unit", sa.String()),
        sa.Column("mpe_mm", sa.Double()),
        sa.Column("uncertainty_text", sa.String()),
        sa.Column("uncertainty_unit", sa.String()),
        sa.Column("uncertainty_mm", sa.Double()),
        sa.Column("coverage_k", sa.Double(), nullable=False),
        sa.Column("limit_source", sa.String(), nullable=False),
        sa.Column("calibrated_on", sa.String(19)),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_instrument"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "kept_entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", sa.String(19), nullable=False),
        sa.Column("meant_for", sa.String(), nullable=False),
        sa.Column("typed", sa.String(), nullable=False),
        sa.Column("why", sa.String(), nullable=False),
        sa.Column("settled", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_kept_entry"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "machine",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("maker", sa.String(), nullable=False),
        sa.Column("model", sa.String(), nullable=False),
        sa.Column("serial", sa.String(), nullable=False),
        sa.Column("serial_where", sa.String(), nullable=False),
        sa.Column("stampings", sa.String(), nullable=False),
        sa.Column("year", sa.String(), nullable=False),
        sa.Column("year_basis", sa.String(), nullable=False),
        sa.Column("unit", sa.String(), nullable=False),
        sa.Column("capacity", sa.String(), nullable=False),
        sa.Column("weight", sa.String(), nullable=False),
        sa.Column("power_found", sa.String(), nullable=False),
        sa.Column("power_planned", sa.String(), nullable=False),
        sa.Column("scope", sa.String(40), nullable=False),
        sa.Column("location", sa.String(), nullable=False),
        sa.Column("bought", sa.String(), nullable=False),
        sa.Column("story", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_machine"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "place",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("since", sa.String(19)),
        sa.PrimaryKeyConstraint("id", name="pk_place"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "setting",
        sa.Column("key", sa.String(), nullable=False),
        sa.Column("value", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("key", name="pk_setting"),
    )
    op.create_table(
        "change",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("act_id", sa.Integer(), nullable=False),
        sa.Column("tbl", sa.String(), nullable=False),
        sa.Column("row_id", sa.Integer(), nullable=False),
        sa.Column("op", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_change"),
        sa.ForeignKeyConstraint(["act_id"], ["act.id"], name="fk_change_act_id_act", ondelete="CASCADE"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_change_act", "change", ["act_id", "id"])
    op.create_index("ix_change_row", "change", ["tbl", "row_id", "id"])
    op.create_table(
        "log_entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("at", sa.String(19), nullable=False),
        sa.Column("hours", sa.Double()),
        sa.Column("temperature_c", sa.Double()),
        sa.Column("did", sa.String(), nullable=False),
        sa.Column("found", sa.String(), nullable=False),
        sa.Column("left_on_bench", sa.String(), nullable=False),
        sa.Column("next_step", sa.String(), nullable=False),
        sa.Column("blocked_by", sa.String(), nullable=False),
        sa.Column("do_not_forget", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_log_entry"),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_log_entry_machine_id_machine", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_log_entry_machine_at", "log_entry", ["machine_id", "at"])
    op.create_table(
        "matched_set",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_matched_set"),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_matched_set_machine_id_machine", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_matched_set_machine_id", "matched_set", ["machine_id"])
    op.create_table(
        "subassembly",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("parent_id", sa.Integer()),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("scope", sa.String(40)),
        sa.Column("manual_page", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_subassembly"),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_subassembly_machine_id_machine", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["parent_id"], ["subassembly.id"], name="fk_subassembly_parent_id_subassembly", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_subassembly_machine_position", "subassembly", ["machine_id", "parent_id", "position"])
    op.create_index("ix_subassembly_parent_id", "subassembly", ["parent_id"])
    op.create_table(
        "part",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("subassembly_id", sa.Integer()),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("other_names", sa.String(), nullable=False),
        sa.Column("quantity", sa.Integer(), nullable=False),
        sa.Column("identity", sa.String(40), nullable=False),
        sa.Column("suspects", sa.String(), nullable=False),
        sa.Column("origin", sa.String(40), nullable=False),
        sa.Column("material", sa.String(), nullable=False),
        sa.Column("condition", sa.String(), nullable=False),
        sa.Column("decision", sa.String(40), nullable=False),
        sa.Column("decision_reason", sa.String(), nullable=False),
        sa.Column("decision_criterion", sa.String(), nullable=False),
        sa.Column("decision_would_change", sa.String(), nullable=False),
        sa.Column("decided_at", sa.String(19)),
        sa.Column("place_id", sa.Integer()),
        sa.Column("placed_at", sa.String(19)),
        sa.Column("match_mark", sa.String(), nullable=False),
        sa.Column("orientation", sa.String(), nullable=False),
        sa.Column("matched_set_id", sa.Integer()),
        sa.Column("figure_item", sa.String(), nullable=False),
        sa.Column("maker_number", sa.String(), nullable=False),
        sa.Column("stamped", sa.String(), nullable=False),
        sa.Column("handedness", sa.String(), nullable=False),
        sa.Column("spare_of_id", sa.Integer()),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_part"),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_part_machine_id_machine", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["matched_set_id"],
            ["matched_set.id"],
            name="fk_part_matched_set_id_matched_set",
            ondelete="SET NULL",
        ),
        sa.ForeignKeyConstraint(
            ["place_id"], ["place.id"], name="fk_part_place_id_place", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["spare_of_id"], ["part.id"], name="fk_part_spare_of_id_part", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["subassembly_id"],
            ["subassembly.id"],
            name="fk_part_subassembly_id_subassembly",
            ondelete="CASCADE",
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_part_code", "part", ["code"])
    op.create_index("ix_part_machine_subassembly", "part", ["machine_id", "subassembly_id", "position"])
    op.create_index("ix_part_matched_set_id", "part", ["matched_set_id"])
    op.create_index("ix_part_place_id", "part", ["place_id"])
    op.create_index("ix_part_spare_of_id", "part", ["spare_of_id"])
    op.create_index("ix_part_subassembly_id", "part", ["subassembly_id"])
    op.create_table(
        "feature",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("part_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("unit", sa.String(), nullable=False),
        sa.Column("thread", sa.String(), nullable=False),
        sa.Column("nominal_text", sa.String()),
        sa.Column("nominal_unit", sa.String()),
        sa.Column("nominal_mm", sa.Double()),
        sa.Column("low_text", sa.String()),
        sa.Column("low_unit", sa.String()),
        sa.Column("low_mm", sa.Double()),
        sa.Column("high_text", sa.String()),
        sa.Column("high_unit", sa.String()),
        sa.Column("high_mm", sa.Double()),
        sa.Column("spec_text", sa.String(), nullable=False),
        sa.Column("sense", sa.String(), nullable=False),
        sa.Column("spec_origin", sa.String(40)),
        sa.Column("spec_note", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_feature"),
        sa.ForeignKeyConstraint(["part_id"], ["part.id"], name="fk_feature_part_id_part", ondelete="CASCADE"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_feature_part_position", "feature", ["part_id", "position"])
    op.create_table(
        "task",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("subassembly_id", sa.Integer()),
        sa.Column("part_id", sa.Integer()),
        sa.Column("title", sa.String(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("state", sa.String(40), nullable=False),
        sa.Column("low_min", sa.Double()),
        sa.Column("likely_min", sa.Double()),
        sa.Column("high_min", sa.Double()),
        sa.Column("irreversible", sa.Boolean(), nullable=False),
        sa.Column("place", sa.String(), nullable=False),
        sa.Column("tools", sa.String(), nullable=False),
        sa.Column("torque_wanted", sa.String(), nullable=False),
        sa.Column("done_at", sa.String(19)),
        sa.Column("done_measured", sa.String(), nullable=False),
        sa.Column("done_torque", sa.String(), nullable=False),
        sa.Column("done_note", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_task"),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_task_machine_id_machine", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(["part_id"], ["part.id"], name="fk_task_part_id_part", ondelete="SET NULL"),
        sa.ForeignKeyConstraint(
            ["subassembly_id"],
            ["subassembly.id"],
            name="fk_task_subassembly_id_subassembly",
            ondelete="CASCADE",
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_task_machine_state", "task", ["machine_id", "state"])
    op.create_index("ix_task_machine_subassembly", "task", ["machine_id", "subassembly_id", "position"])
    op.create_index("ix_task_part_id", "task", ["part_id"])
    op.create_index("ix_task_subassembly_id", "task", ["subassembly_id"])
    op.create_table(
        "concession",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("part_id", sa.Integer(), nullable=False),
        sa.Column("feature_id", sa.Integer()),
        sa.Column("accepted", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("accepted_by", sa.String(), nullable=False),
        sa.Column("accepted_at", sa.String(19)),
        sa.PrimaryKeyConstraint("id", name="pk_concession"),
        sa.ForeignKeyConstraint(
            ["feature_id"], ["feature.id"], name="fk_concession_feature_id_feature", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["part_id"], ["part.id"], name="fk_concession_part_id_part", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_concession_feature_id", "concession", ["feature_id"])
    op.create_index("ix_concession_part_id", "concession", ["part_id"])
    op.create_table(
        "link",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("before_id", sa.Integer(), nullable=False),
        sa.Column("after_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_link"),
        sa.ForeignKeyConstraint(["after_id"], ["task.id"], name="fk_link_after_id_task", ondelete="CASCADE"),
        sa.ForeignKeyConstraint(
            ["before_id"], ["task.id"], name="fk_link_before_id_task", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_link_after_id", "link", ["after_id"])
    op.create_index("ix_link_before_after", "link", ["before_id", "after_id"])
    op.create_table(
        "question",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("subassembly_id", sa.Integer()),
        sa.Column("part_id", sa.Integer()),
        sa.Column("task_id", sa.Integer()),
        sa.Column("text", sa.String(), nullable=False),
        sa.Column("state", sa.String(40), nullable=False),
        sa.Column("asked_where", sa.String(), nullable=False),
        sa.Column("asked_at", sa.String(19)),
        sa.Column("answer", sa.String(), nullable=False),
        sa.Column("answered_by", sa.String(), nullable=False),
        sa.Column("answered_at", sa.String(19)),
        sa.PrimaryKeyConstraint("id", name="pk_question"),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_question_machine_id_machine", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["part_id"], ["part.id"], name="fk_question_part_id_part", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["subassembly_id"],
            ["subassembly.id"],
            name="fk_question_subassembly_id_subassembly",
            ondelete="SET NULL",
        ),
        sa.ForeignKeyConstraint(
            ["task_id"], ["task.id"], name="fk_question_task_id_task", ondelete="SET NULL"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_question_machine_id", "question", ["machine_id"])
    op.create_index("ix_question_part_id", "question", ["part_id"])
    op.create_index("ix_question_subassembly_id", "question", ["subassembly_id"])
    op.create_index("ix_question_task_id", "question", ["task_id"])
    op.create_table(
        "station",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("feature_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("at_text", sa.String()),
        sa.Column("at_unit", sa.String()),
        sa.Column("at_mm", sa.Double()),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_station"),
        sa.ForeignKeyConstraint(
            ["feature_id"], ["feature.id"], name="fk_station_feature_id_feature", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_station_feature_position", "station", ["feature_id", "position"])
    op.create_table(
        "task_caution",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("task_id", sa.Integer(), nullable=False),
        sa.Column("topic", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_task_caution"),
        sa.ForeignKeyConstraint(
            ["task_id"], ["task.id"], name="fk_task_caution_task_id_task", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_task_caution_task_id", "task_caution", ["task_id"])
    op.create_table(
        "task_constraint",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("task_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("detail", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_task_constraint"),
        sa.ForeignKeyConstraint(
            ["task_id"], ["task.id"], name="fk_task_constraint_task_id_task", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_task_constraint_task_id", "task_constraint", ["task_id"])
    op.create_table(
        "reading",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("feature_id", sa.Integer(), nullable=False),
        sa.Column("station_id", sa.Integer()),
        sa.Column("stage", sa.String(40), nullable=False),
        sa.Column("typed", sa.String(), nullable=False),
        sa.Column("unit", sa.String(), nullable=False),
        sa.Column("value_mm", sa.Double(), nullable=False),
        sa.Column("repeats", sa.Integer(), nullable=False),
        sa.Column("spread_mm", sa.Double()),
        sa.Column("instrument_id", sa.Integer()),
        sa.Column("temperature_text", sa.String()),
        sa.Column("temperature_c", sa.Double()),
        sa.Column("taken_at", sa.String(19), nullable=False),
        sa.Column("taken_by", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("struck", sa.String()),
        sa.PrimaryKeyConstraint("id", name="pk_reading"),
        sa.ForeignKeyConstraint(
            ["feature_id"], ["feature.id"], name="fk_reading_feature_id_feature", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["instrument_id"],
            ["instrument.id"],
            name="fk_reading_instrument_id_instrument",
            ondelete="SET NULL",
        ),
        sa.ForeignKeyConstraint(
            ["station_id"], ["station.id"], name="fk_reading_station_id_station", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index(
        "ix_reading_feature_station_stage", "reading", ["feature_id", "station_id", "stage", "id"]
    )
    op.create_index("ix_reading_instrument_id", "reading", ["instrument_id"])
    op.create_index("ix_reading_station_id", "reading", ["station_id"])
    op.create_index("ix_reading_taken_at", "reading", ["taken_at"])
    create_shadow(
        "instrument",
        (
            "id",
            "name",
            "kind",
            "unit",
            "resolution_text",
            "resolution_unit",
            "resolution_mm",
            "mpe_text",
            "mpe_unit",
            "mpe_mm",
            "uncertainty_text",
            "uncertainty_unit",
            "uncertainty_mm",
            "coverage_k",
            "limit_source",
            "calibrated_on",
            "note",
            "position",
        ),
    )
    create_shadow(
        "machine",
        (
            "id",
            "name",
            "kind",
            "maker",
            "model",
            "serial",
            "serial_where",
            "stampings",
            "year",
            "year_basis",
            "unit",
            "capacity",
            "weight",
            "power_found",
            "power_planned",
            "scope",
            "location",
            "bought",
            "story",
            "position",
        ),
    )
    create_shadow(
        "place",
        (
            "id",
            "kind",
            "name",
            "note",
            "since",
        ),
    )
    create_shadow(
        "log_entry",
        (
            "id",
            "machine_id",
            "at",
            "hours",
            "temperature_c",
            "did",
            "found",
            "left_on_bench",
            "next_step",
            "blocked_by",
            "do_not_forget",
        ),
    )
    create_shadow(
        "matched_set",
        (
            "id",
            "machine_id",
            "name",
            "note",
        ),
    )
    create_shadow(
        "subassembly",
        (
            "id",
            "machine_id",
            "parent_id",
            "code",
            "name",
            "scope",
            "manual_page",
            "note",
            "position",
        ),
    )
    create_shadow(
        "part",
        (
            "id",
            "machine_id",
            "subassembly_id",
            "code",
            "name",
            "other_names",
            "quantity",
            "identity",
            "suspects",
            "origin",
            "material",
            "condition",
            "decision",
            "decision_reason",
            "decision_criterion",
            "decision_would_change",
            "decided_at",
            "place_id",
            "placed_at",
            "match_mark",
            "orientation",
            "matched_set_id",
            "figure_item",
            "maker_number",
            "stamped",
            "handedness",
            "spare_of_id",
            "note",
            "position",
        ),
    )
    create_shadow(
        "feature",
        (
            "id",
            "part_id",
            "name",
            "kind",
            "unit",
            "thread",
            "nominal_text",
            "nominal_unit",
            "nominal_mm",
            "low_text",
            "low_unit",
            "low_mm",
            "high_text",
            "high_unit",
            "high_mm",
            "spec_text",
            "sense",
            "spec_origin",
            "spec_note",
            "note",
            "position",
        ),
        index="part_id",
    )
    create_shadow(
        "task",
        (
            "id",
            "machine_id",
            "subassembly_id",
            "part_id",
            "title",
            "kind",
            "state",
            "low_min",
            "likely_min",
            "high_min",
            "irreversible",
            "place",
            "tools",
            "torque_wanted",
            "done_at",
            "done_measured",
            "done_torque",
            "done_note",
            "note",
            "position",
        ),
    )
    create_shadow(
        "concession",
        (
            "id",
            "part_id",
            "feature_id",
            "accepted",
            "reason",
            "accepted_by",
            "accepted_at",
        ),
        index="part_id",
    )
    create_shadow(
        "link",
        (
            "id",
            "before_id",
            "after_id",
            "kind",
            "reason",
        ),
    )
    create_shadow(
        "question",
        (
            "id",
            "machine_id",
            "subassembly_id",
            "part_id",
            "task_id",
            "text",
            "state",
            "asked_where",
            "asked_at",
            "answer",
            "answered_by",
            "answered_at",
        ),
    )
    create_shadow(
        "station",
        (
            "id",
            "feature_id",
            "name",
            "at_text",
            "at_unit",
            "at_mm",
            "position",
        ),
    )
    create_shadow(
        "task_caution",
        (
            "id",
            "task_id",
            "topic",
        ),
    )
    create_shadow(
        "task_constraint",
        (
            "id",
            "task_id",
            "kind",
            "detail",
        ),
    )
    create_shadow(
        "reading",
        (
            "id",
            "feature_id",
            "station_id",
            "stage",
            "typed",
            "unit",
            "value_mm",
            "repeats",
            "spread_mm",
            "instrument_id",
            "temperature_text",
            "temperature_c",
            "taken_at",
            "taken_by",
            "note",
            "struck",
        ),
        index="feature_id",
    )


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
