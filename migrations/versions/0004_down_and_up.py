"""Removal log, fasteners, shims, joints, attempts, clocks, orders and stock.

Revision: 0004, after 0003
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import add_journaled_column, create_shadow

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "stock_item",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("material", sa.String(), nullable=False),
        sa.Column("sizes", sa.String(), nullable=False),
        sa.Column("thread", sa.String(), nullable=False),
        sa.Column("quantity", sa.Double()),
        sa.Column("counted_in", sa.String(), nullable=False),
        sa.Column("place_id", sa.Integer()),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_stock_item"),
        sa.ForeignKeyConstraint(
            ["place_id"], ["place.id"], name="fk_stock_item_place_id_place", ondelete="SET NULL"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_stock_item_place_id", "stock_item", ["place_id"])
    op.create_table(
        "attempt",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("subassembly_id", sa.Integer()),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("began_at", sa.String(19), nullable=False),
        sa.Column("stopped_by", sa.String(), nullable=False),
        sa.Column("changed", sa.String(), nullable=False),
        sa.Column("photo", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_attempt"),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_attempt_machine_id_machine", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["subassembly_id"],
            ["subassembly.id"],
            name="fk_attempt_subassembly_id_subassembly",
            ondelete="CASCADE",
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_attempt_machine_subassembly", "attempt", ["machine_id", "subassembly_id", "number"])
    op.create_index("ix_attempt_subassembly_id", "attempt", ["subassembly_id"])
    op.create_table(
        "hours_spent",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("log_entry_id", sa.Integer(), nullable=False),
        sa.Column("subassembly_id", sa.Integer()),
        sa.Column("part_id", sa.Integer()),
        sa.Column("hours", sa.Double(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_hours_spent"),
        sa.ForeignKeyConstraint(
            ["log_entry_id"],
            ["log_entry.id"],
            name="fk_hours_spent_log_entry_id_log_entry",
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["part_id"], ["part.id"], name="fk_hours_spent_part_id_part", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["subassembly_id"],
            ["subassembly.id"],
            name="fk_hours_spent_subassembly_id_subassembly",
            ondelete="SET NULL",
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_hours_spent_log_entry_id", "hours_spent", ["log_entry_id"])
    op.create_index("ix_hours_spent_part_id", "hours_spent", ["part_id"])
    op.create_index("ix_hours_spent_subassembly_id", "hours_spent", ["subassembly_id"])
    op.create_table(
        "removal",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("attempt_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("at", sa.String(19), nullable=False),
        sa.Column("what", sa.String(), nullable=False),
        sa.Column("how", sa.String(40), nullable=False),
        sa.Column("from_end", sa.String(), nullable=False),
        sa.Column("location", sa.String(), nullable=False),
        sa.Column("orientation", sa.String(), nullable=False),
        sa.Column("match_mark", sa.String(), nullable=False),
        sa.Column("hard", sa.String(), nullable=False),
        sa.Column("found", sa.String(), nullable=False),
        sa.Column("tools", sa.String(), nullable=False),
        sa.Column("photo", sa.String(), nullable=False),
        sa.Column("place_id", sa.Integer()),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_removal"),
        sa.ForeignKeyConstraint(
            ["attempt_id"], ["attempt.id"], name="fk_removal_attempt_id_attempt", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["place_id"], ["place.id"], name="fk_removal_place_id_place", ondelete="SET NULL"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_removal_attempt_position", "removal", ["attempt_id", "position"])
    op.create_index("ix_removal_place_id", "removal", ["place_id"])
    op.create_table(
        "joint",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("subassembly_id", sa.Integer()),
        sa.Column("part_id", sa.Integer()),
        sa.Column("task_id", sa.Integer()),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("location", sa.String(), nullable=False),
        sa.Column("tour", sa.Integer()),
        sa.Column("thread", sa.String(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("grade", sa.String(), nullable=False),
        sa.Column("tight", sa.String(40), nullable=False),
        sa.Column("wanted", sa.String(40), nullable=False),
        sa.Column("dress", sa.String(40)),
        sa.Column("wanted_dress", sa.String(40)),
        sa.Column("torque_wanted", sa.String(), nullable=False),
        sa.Column("torque_source", sa.String(), nullable=False),
        sa.Column("torque_done", sa.String(), nullable=False),
        sa.Column("set_at", sa.String(19)),
        sa.Column("look_again", sa.Boolean(), nullable=False),
        sa.Column("looked_again_at", sa.String(19)),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_joint"),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_joint_machine_id_machine", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(["part_id"], ["part.id"], name="fk_joint_part_id_part", ondelete="SET NULL"),
        sa.ForeignKeyConstraint(
            ["subassembly_id"],
            ["subassembly.id"],
            name="fk_joint_subassembly_id_subassembly",
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(["task_id"], ["task.id"], name="fk_joint_task_id_task", ondelete="SET NULL"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_joint_machine_subassembly", "joint", ["machine_id", "subassembly_id"])
    op.create_index("ix_joint_part_id", "joint", ["part_id"])
    op.create_index("ix_joint_subassembly_id", "joint", ["subassembly_id"])
    op.create_index("ix_joint_task_id", "joint", ["task_id"])
    op.create_table(
        "link_proposal",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("before_id", sa.Integer(), nullable=False),
        sa.Column("after_id", sa.Integer(), nullable=False),
        sa.Column("answer", sa.String(40), nullable=False),
        sa.Column("answered_at", sa.String(19), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_link_proposal"),
        sa.ForeignKeyConstraint(
            ["after_id"], ["removal.id"], name="fk_link_proposal_after_id_removal", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["before_id"], ["removal.id"], name="fk_link_proposal_before_id_removal", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_link_proposal_after_id", "link_proposal", ["after_id"])
    op.create_index("ix_link_proposal_pair", "link_proposal", ["before_id", "after_id"])
    op.create_table(
        "refit_step",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("attempt_id", sa.Integer(), nullable=False),
        sa.Column("removal_id", sa.Integer()),
        sa.Column("task_id", sa.Integer()),
        sa.Column("drafted_title", sa.String(), nullable=False),
        sa.Column("drafted_note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_refit_step"),
        sa.ForeignKeyConstraint(
            ["attempt_id"], ["attempt.id"], name="fk_refit_step_attempt_id_attempt", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["removal_id"], ["removal.id"], name="fk_refit_step_removal_id_removal", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["task_id"], ["task.id"], name="fk_refit_step_task_id_task", ondelete="SET NULL"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_refit_step_attempt_id", "refit_step", ["attempt_id"])
    op.create_index("ix_refit_step_removal_id", "refit_step", ["removal_id"])
    op.create_index("ix_refit_step_task_id", "refit_step", ["task_id"])
    op.create_table(
        "removal_part",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("removal_id", sa.Integer(), nullable=False),
        sa.Column("part_id", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_removal_part"),
        sa.ForeignKeyConstraint(
            ["part_id"], ["part.id"], name="fk_removal_part_part_id_part", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["removal_id"], ["removal.id"], name="fk_removal_part_removal_id_removal", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_removal_part_part_id", "removal_part", ["part_id"])
    op.create_index("ix_removal_part_removal", "removal_part", ["removal_id", "part_id"])
    op.create_table(
        "shim_pack",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("removal_id", sa.Integer(), nullable=False),
        sa.Column("location", sa.String(), nullable=False),
        sa.Column("side", sa.String(), nullable=False),
        sa.Column("way_round", sa.String(), nullable=False),
        sa.Column("material", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_shim_pack"),
        sa.ForeignKeyConstraint(
            ["removal_id"], ["removal.id"], name="fk_shim_pack_removal_id_removal", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_shim_pack_removal_id", "shim_pack", ["removal_id"])
    op.create_table(
        "waiting",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer()),
        sa.Column("subassembly_id", sa.Integer()),
        sa.Column("part_id", sa.Integer()),
        sa.Column("task_id", sa.Integer()),
        sa.Column("place_id", sa.Integer()),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("what", sa.String(), nullable=False),
        sa.Column("who", sa.String(), nullable=False),
        sa.Column("reference", sa.String(), nullable=False),
        sa.Column("quantity", sa.Integer(), nullable=False),
        sa.Column("sent_with", sa.String(), nullable=False),
        sa.Column("price", sa.Double()),
        sa.Column("carriage", sa.Double()),
        sa.Column("tax", sa.Double()),
        sa.Column("lead_low_days", sa.Double()),
        sa.Column("lead_likely_days", sa.Double()),
        sa.Column("lead_high_days", sa.Double()),
        sa.Column("asked_at", sa.String(19)),
        sa.Column("good_until", sa.String(19)),
        sa.Column("ordered_at", sa.String(19)),
        sa.Column("promised_at", sa.String(19)),
        sa.Column("chased_at", sa.String(19)),
        sa.Column("arrived_at", sa.String(19)),
        sa.Column("inspected_at", sa.String(19)),
        sa.Column("inspected_note", sa.String(), nullable=False),
        sa.Column("returned_at", sa.String(19)),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_waiting"),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_waiting_machine_id_machine", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["part_id"], ["part.id"], name="fk_waiting_part_id_part", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["place_id"], ["place.id"], name="fk_waiting_place_id_place", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["subassembly_id"],
            ["subassembly.id"],
            name="fk_waiting_subassembly_id_subassembly",
            ondelete="SET NULL",
        ),
        sa.ForeignKeyConstraint(
            ["task_id"], ["task.id"], name="fk_waiting_task_id_task", ondelete="SET NULL"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_waiting_machine_arrived", "waiting", ["machine_id", "arrived_at"])
    op.create_index("ix_waiting_part_id", "waiting", ["part_id"])
    op.create_index("ix_waiting_place_id", "waiting", ["place_id"])
    op.create_index("ix_waiting_subassembly_id", "waiting", ["subassembly_id"])
    op.create_index("ix_waiting_task_id", "waiting", ["task_id"])
    op.create_table(
        "clock",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("subassembly_id", sa.Integer()),
        sa.Column("part_id", sa.Integer()),
        sa.Column("task_id", sa.Integer()),
        sa.Column("joint_id", sa.Integer()),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("what", sa.String(), nullable=False),
        sa.Column("started_at", sa.String(19), nullable=False),
        sa.Column("low_min", sa.Double()),
        sa.Column("high_min", sa.Double()),
        sa.Column("source", sa.String(), nullable=False),
        sa.Column("closed_at", sa.String(19)),
        sa.Column("closed_note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_clock"),
        sa.ForeignKeyConstraint(
            ["joint_id"], ["joint.id"], name="fk_clock_joint_id_joint", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name="fk_clock_machine_id_machine", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(["part_id"], ["part.id"], name="fk_clock_part_id_part", ondelete="CASCADE"),
        sa.ForeignKeyConstraint(
            ["subassembly_id"],
            ["subassembly.id"],
            name="fk_clock_subassembly_id_subassembly",
            ondelete="SET NULL",
        ),
        sa.ForeignKeyConstraint(["task_id"], ["task.id"], name="fk_clock_task_id_task", ondelete="CASCADE"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_clock_joint_id", "clock", ["joint_id"])
    op.create_index("ix_clock_machine_closed", "clock", ["machine_id", "closed_at"])
    op.create_index("ix_clock_part_id", "clock", ["part_id"])
    op.create_index("ix_clock_subassembly_id", "clock", ["subassembly_id"])
    op.create_index("ix_clock_task_id", "clock", ["task_id"])
    op.create_table(
        "constraint_part",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("constraint_id", sa.Integer(), nullable=False),
        sa.Column("part_id", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_constraint_part"),
        sa.ForeignKeyConstraint(
            ["constraint_id"],
            ["task_constraint.id"],
            name="fk_constraint_part_constraint_id_task_constraint",
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["part_id"], ["part.id"], name="fk_constraint_part_part_id_part", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_constraint_part_constraint", "constraint_part", ["constraint_id", "part_id"])
    op.create_index("ix_constraint_part_part_id", "constraint_part", ["part_id"])
    op.create_table(
        "drafted_link",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("before_id", sa.Integer(), nullable=False),
        sa.Column("after_id", sa.Integer(), nullable=False),
        sa.Column("link_id", sa.Integer()),
        sa.PrimaryKeyConstraint("id", name="pk_drafted_link"),
        sa.ForeignKeyConstraint(
            ["after_id"], ["refit_step.id"], name="fk_drafted_link_after_id_refit_step", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["before_id"], ["refit_step.id"], name="fk_drafted_link_before_id_refit_step", ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["link_id"], ["link.id"], name="fk_drafted_link_link_id_link", ondelete="SET NULL"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_drafted_link_after_id", "drafted_link", ["after_id"])
    op.create_index("ix_drafted_link_link_id", "drafted_link", ["link_id"])
    op.create_index("ix_drafted_link_pair", "drafted_link", ["before_id", "after_id"])
    op.create_table(
        "fastener",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("removal_id", sa.Integer(), nullable=False),
        sa.Column("joint_id", sa.Integer()),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("hole", sa.String(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("thread", sa.String(), nullable=False),
        sa.Column("left_hand", sa.Boolean(), nullable=False),
        sa.Column("length_text", sa.String()),
        sa.Column("length_unit", sa.String()),
        sa.Column("length_mm", sa.Double()),
        sa.Column("head", sa.String(), nullable=False),
        sa.Column("point", sa.String(40)),
        sa.Column("grade", sa.String(), nullable=False),
        sa.Column("big_end", sa.String(), nullable=False),
        sa.Column("hidden", sa.String(), nullable=False),
        sa.Column("state", sa.String(40)),
        sa.Column("substitute", sa.Boolean(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_fastener"),
        sa.ForeignKeyConstraint(
            ["joint_id"], ["joint.id"], name="fk_fastener_joint_id_joint", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["removal_id"], ["removal.id"], name="fk_fastener_removal_id_removal", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_fastener_joint_id", "fastener", ["joint_id"])
    op.create_index("ix_fastener_removal_position", "fastener", ["removal_id", "position"])
    op.create_table(
        "shim_leaf",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("pack_id", sa.Integer(), nullable=False),
        sa.Column("thickness_text", sa.String(), nullable=False),
        sa.Column("thickness_unit", sa.String(), nullable=False),
        sa.Column("thickness_mm", sa.Double(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_shim_leaf"),
        sa.ForeignKeyConstraint(
            ["pack_id"], ["shim_pack.id"], name="fk_shim_leaf_pack_id_shim_pack", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_shim_leaf_pack_position", "shim_leaf", ["pack_id", "position"])
    create_shadow(
        "stock_item",
        (
            "id",
            "name",
            "material",
            "sizes",
            "thread",
            "quantity",
            "counted_in",
            "place_id",
            "note",
        ),
    )
    create_shadow(
        "attempt",
        (
            "id",
            "machine_id",
            "subassembly_id",
            "number",
            "began_at",
            "stopped_by",
            "changed",
            "photo",
            "note",
        ),
    )
    create_shadow(
        "hours_spent",
        (
            "id",
            "log_entry_id",
            "subassembly_id",
            "part_id",
            "hours",
        ),
    )
    create_shadow(
        "removal",
        (
            "id",
            "attempt_id",
            "position",
            "at",
            "what",
            "how",
            "from_end",
            "location",
            "orientation",
            "match_mark",
            "hard",
            "found",
            "tools",
            "photo",
            "place_id",
            "note",
        ),
    )
    create_shadow(
        "joint",
        (
            "id",
            "machine_id",
            "subassembly_id",
            "part_id",
            "task_id",
            "name",
            "location",
            "tour",
            "thread",
            "count",
            "grade",
            "tight",
            "wanted",
            "dress",
            "wanted_dress",
            "torque_wanted",
            "torque_source",
            "torque_done",
            "set_at",
            "look_again",
            "looked_again_at",
            "note",
        ),
    )
    create_shadow(
        "link_proposal",
        (
            "id",
            "before_id",
            "after_id",
            "answer",
            "answered_at",
        ),
    )
    create_shadow(
        "refit_step",
        (
            "id",
            "attempt_id",
            "removal_id",
            "task_id",
            "drafted_title",
            "drafted_note",
        ),
    )
    create_shadow(
        "removal_part",
        (
            "id",
            "removal_id",
            "part_id",
        ),
    )
    create_shadow(
        "shim_pack",
        (
            "id",
            "removal_id",
            "location",
            "side",
            "way_round",
            "material",
            "note",
        ),
    )
    create_shadow(
        "waiting",
        (
            "id",
            "machine_id",
            "subassembly_id",
            "part_id",
            "task_id",
            "place_id",
            "kind",
            "what",
            "who",
            "reference",
            "quantity",
            "sent_with",
            "price",
            "carriage",
            "tax",
            "lead_low_days",
            "lead_likely_days",
            "lead_high_days",
            "asked_at",
            "good_until",
            "ordered_at",
            "promised_at",
            "chased_at",
            "arrived_at",
            "inspected_at",
            "inspected_note",
            "returned_at",
            "note",
        ),
    )
    create_shadow(
        "clock",
        (
            "id",
            "machine_id",
            "subassembly_id",
            "part_id",
            "task_id",
            "joint_id",
            "kind",
            "what",
            "started_at",
            "low_min",
            "high_min",
            "source",
            "closed_at",
            "closed_note",
        ),
    )
    create_shadow(
        "constraint_part",
        (
            "id",
            "constraint_id",
            "part_id",
        ),
    )
    create_shadow(
        "drafted_link",
        (
            "id",
            "before_id",
            "after_id",
            "link_id",
        ),
    )
    create_shadow(
        "fastener",
        (
            "id",
            "removal_id",
            "joint_id",
            "kind",
            "hole",
            "count",
            "thread",
            "left_hand",
            "length_text",
            "length_unit",
            "length_mm",
            "head",
            "point",
            "grade",
            "big_end",
            "hidden",
            "state",
            "substitute",
            "note",
            "position",
        ),
    )
    create_shadow(
        "shim_leaf",
        (
            "id",
            "pack_id",
            "thickness_text",
            "thickness_unit",
            "thickness_mm",
            "note",
            "position",
        ),
    )
    for column in (
        sa.Column("rest_min", sa.Double()),
        sa.Column("proved_at", sa.String(19)),
        sa.Column("proved_note", sa.String()),
    ):
        add_journaled_column("task_constraint", column)


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
