"""What was gone on with all the same; attempts at a step; a joint's duty; when a caution was read.

Revision: 0010, after 0009
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import add_journaled_column, create_shadow

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None

_OVERRIDE = (
    "id", "machine_id", "gate", "task_id", "run_step_id", "joint_id", "what", "against", "covers", "reason",
    "said_by", "at", "closed_at", "closed_note",
)  # fmt: skip
_ATTEMPT = (
    "id", "task_id", "number", "done_at", "measured", "torque", "note", "joints", "opened_at", "reason",
)  # fmt: skip


def upgrade() -> None:
    add_journaled_column("joint", sa.Column("duty", sa.String(40)))
    add_journaled_column("joint", sa.Column("how_set", sa.String()))
    add_journaled_column("joint", sa.Column("torque_reason", sa.String()))
    add_journaled_column("task_caution", sa.Column("read_at", sa.String(19)))
    _overrides()
    _attempts()


def _overrides() -> None:
    points = [
        sa.ForeignKeyConstraint(
            [f"{table}_id"], [f"{table}.id"], name=f"fk_override_{table}_id_{table}", ondelete=gone
        )
        for table, gone in (
            ("machine", "CASCADE"),
            ("task", "SET NULL"),
            ("run_step", "SET NULL"),
            ("joint", "SET NULL"),
        )
    ]
    op.create_table(
        "override",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("gate", sa.String(40), nullable=False),
        sa.Column("task_id", sa.Integer()),
        sa.Column("run_step_id", sa.Integer()),
        sa.Column("joint_id", sa.Integer()),
        sa.Column("what", sa.String(), nullable=False),
        sa.Column("against", sa.String(), nullable=False),
        sa.Column("covers", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("said_by", sa.String(), nullable=False),
        sa.Column("at", sa.String(19), nullable=False),
        sa.Column("closed_at", sa.String(19)),
        sa.Column("closed_note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_override"),
        *points,
        sqlite_autoincrement=True,
    )
    op.create_index("ix_override_machine_closed", "override", ["machine_id", "closed_at"])
    for table in ("task", "run_step", "joint"):
        op.create_index(f"ix_override_{table}_id", "override", [f"{table}_id"])
    create_shadow("override", _OVERRIDE)


def _attempts() -> None:
    op.create_table(
        "step_attempt",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("task_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("done_at", sa.String(19)),
        sa.Column("measured", sa.String(), nullable=False),
        sa.Column("torque", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("joints", sa.String(), nullable=False),
        sa.Column("opened_at", sa.String(19), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_step_attempt"),
        sa.ForeignKeyConstraint(
            ["task_id"], ["task.id"], name="fk_step_attempt_task_id_task", ondelete="CASCADE"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_step_attempt_task_number", "step_attempt", ["task_id", "number"])
    create_shadow("step_attempt", _ATTEMPT)


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
