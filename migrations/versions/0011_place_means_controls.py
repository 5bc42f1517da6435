"""Where each part lay from when to when; the means steps need; the machine's controls.

What removals, parts and their places said is carried over as stays: each put-in of a removal, then where the part
lies now. A part that lies at a shop or is lent gets its line in what is waited for. Acts made before can be read but
no longer undone: undoing one would move a part without its stay.

Revision: 0011, after 0010
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import create_shadow, journal_new_rows, seal_history

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None

_LENGTHS = ("per_turn", "found_turn", "proved_turn")


def upgrade() -> None:
    _stays()
    _means()
    _controls()
    _send_out()
    _carry_over()
    seal_history()
    journal_new_rows("UPGRADE", "places carried over", ("waiting", "stay"))


def _key(table: str) -> list[sa.Column[object] | sa.PrimaryKeyConstraint]:
    return [
        sa.Column("id", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=f"pk_{table}"),
    ]


def _refers(table: str, column: str, other: str, gone: str = "SET NULL") -> sa.ForeignKeyConstraint:
    name = f"fk_{table}_{column}_{other}"
    return sa.ForeignKeyConstraint([column], [f"{other}.id"], name=name, ondelete=gone)


def _stays() -> None:
    columns = ("id", "part_id", "place_id", "removal_id", "waiting_id", "came_at", "left_at")
    op.create_table(
        "stay",
        *_key("stay"),
        sa.Column("part_id", sa.Integer(), nullable=False),
        sa.Column("place_id", sa.Integer()),
        sa.Column("removal_id", sa.Integer()),
        sa.Column("waiting_id", sa.Integer()),
        sa.Column("came_at", sa.String(19)),
        sa.Column("left_at", sa.String(19)),
        _refers("stay", "part_id", "part", "CASCADE"),
        *(_refers("stay", f"{other}_id", other) for other in ("place", "removal", "waiting")),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_stay_part_left", "stay", ["part_id", "left_at"])
    op.create_index("ix_stay_place_left", "stay", ["place_id", "left_at"])
    op.create_index("ix_stay_removal_id", "stay", ["removal_id"])
    op.create_index("ix_stay_waiting_id", "stay", ["waiting_id"])
    create_shadow("stay", columns)


def _means() -> None:
    op.create_table(
        "means",
        *_key("means"),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("owned", sa.Boolean(), nullable=False),
        sa.Column("place_id", sa.Integer()),
        sa.Column("task_id", sa.Integer()),
        sa.Column("waiting_id", sa.Integer()),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        *(_refers("means", f"{other}_id", other) for other in ("place", "task", "waiting")),
        sqlite_autoincrement=True,
    )
    for other in ("place", "task", "waiting"):
        op.create_index(f"ix_means_{other}_id", "means", [f"{other}_id"])
    create_shadow(
        "means", ("id", "kind", "name", "owned", "place_id", "task_id", "waiting_id", "note", "position")
    )
    op.create_table(
        "step_means",
        *_key("step_means"),
        sa.Column("task_id", sa.Integer(), nullable=False),
        sa.Column("means_id", sa.Integer(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        *(_refers("step_means", f"{other}_id", other, "CASCADE") for other in ("task", "means")),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_step_means_task_means", "step_means", ["task_id", "means_id"])
    op.create_index("ix_step_means_means_id", "step_means", ["means_id"])
    create_shadow("step_means", ("id", "task_id", "means_id", "note"))


def _controls() -> None:
    texts = (
        "name", "location", "does", "unit", "dial", "engages", "retracts", "trapped", "handed", "found",
        "proved", "proved_by", "note",
    )  # fmt: skip
    refers = {
        "subassembly_id": "subassembly", "part_id": "part", "doubles_id": "control", "photo_id": "photo",
    }  # fmt: skip
    columns = [
        sa.Column("machine_id", sa.Integer(), nullable=False),
        *(sa.Column(name, sa.Integer()) for name in refers),
        *(sa.Column(name, sa.String(), nullable=False) for name in texts),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("due", sa.String(40), nullable=False),
        sa.Column("found_at", sa.String(19)),
        sa.Column("proved_at", sa.String(19)),
        sa.Column("position", sa.Integer(), nullable=False),
    ]
    for stem in _LENGTHS:
        columns += [sa.Column(f"{stem}_{end}", sa.String()) for end in ("text", "unit")]
        columns.append(sa.Column(f"{stem}_mm", sa.Double()))
    op.create_table(
        "control",
        *_key("control"),
        *columns,
        _refers("control", "machine_id", "machine", "CASCADE"),
        *(_refers("control", name, other) for name, other in refers.items()),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_control_machine_position", "control", ["machine_id", "position"])
    for name in refers:
        op.create_index(f"ix_control_{name}", "control", [name])
    create_shadow("control", ("id", *(str(column.name) for column in columns)))


#: A part that lies at a shop or is lent, with no open line that says so.
_AWAY = """
FROM part JOIN place ON place.id = part.place_id
WHERE place.kind IN ('at a shop', 'lent') AND NOT EXISTS (
  SELECT 1 FROM waiting WHERE waiting.part_id = part.id AND waiting.arrived_at IS NULL
  AND waiting.returned_at IS NULL
  AND waiting.kind = CASE place.kind WHEN 'lent' THEN 'lent out' ELSE 'sent out' END)
"""


def _send_out() -> None:
    """What is away is waited for: a line for each part that has none."""
    op.execute(
        "INSERT INTO waiting (machine_id, subassembly_id, part_id, kind, what, who, reference, quantity, sent_with, "
        "ordered_at, inspected_note, note) "
        "SELECT part.machine_id, part.subassembly_id, part.id, "
        "CASE place.kind WHEN 'lent' THEN 'lent out' ELSE 'sent out' END, "
        "trim(part.code || ' ' || part.name), place.name, '', max(part.quantity, 1), '', part.placed_at, '', '' "
        + _AWAY
    )
    op.execute(
        "UPDATE waiting SET ordered_at = (SELECT part.placed_at FROM part WHERE part.id = waiting.part_id) "
        "WHERE ordered_at IS NULL AND arrived_at IS NULL AND returned_at IS NULL AND part_id IN "
        "(SELECT part.id FROM part JOIN place ON place.id = part.place_id WHERE waiting.kind = "
        "CASE place.kind WHEN 'lent' THEN 'lent out' WHEN 'at a shop' THEN 'sent out' END)"
    )


def _carry_over() -> None:
    """Stays of every part: its put-ins in order of time, then where it lies now."""
    connection = op.get_bind()
    listed: dict[int, list[tuple[str | None, int | None, int | None, int | None]]] = {}
    put_in = connection.exec_driver_sql(
        "SELECT removal_part.part_id, removal.at, removal.place_id, removal.id FROM removal "
        "JOIN removal_part ON removal_part.removal_id = removal.id WHERE removal.place_id IS NOT NULL "
        "ORDER BY removal.at, removal.id"
    )
    for part_id, at, place_id, removal_id in put_in:
        listed.setdefault(part_id, []).append((at, place_id, removal_id, None))
    now = connection.exec_driver_sql(
        "SELECT part.id, part.placed_at, part.place_id, (SELECT max(waiting.id) FROM waiting "
        "WHERE waiting.part_id = part.id AND waiting.arrived_at IS NULL AND waiting.returned_at IS NULL "
        "AND waiting.kind = CASE place.kind WHEN 'lent' THEN 'lent out' ELSE 'sent out' END) "
        "FROM part LEFT JOIN place ON place.id = part.place_id AND place.kind IN ('at a shop', 'lent') "
        "WHERE part.place_id IS NOT NULL OR part.placed_at IS NOT NULL"
    )
    for part_id, at, place_id, waiting_id in now:
        stays = listed.setdefault(part_id, [])
        waited = waiting_id if place_id is not None else None
        removal_id = None
        if stays and stays[-1][:2] == (at, place_id):
            removal_id = stays.pop()[2]
        stays.append((at, place_id, removal_id, waited))
    lies = {row[0]: row[1] for row in connection.exec_driver_sql("SELECT id, place_id FROM part")}
    for part_id, stays in listed.items():
        if lies[part_id] is None and stays[-1][1] is not None:
            stays.append((None, None, None, None))
        for number, stay in enumerate(stays):
            left = None
            if number + 1 < len(stays):
                came, follows = stay[0] or "", stays[number + 1][0] or stay[0]
                left = max(came, follows or "") or None
            if left is None and number + 1 < len(stays):
                continue  # neither end is known: nothing can be said of it
            connection.exec_driver_sql(
                "INSERT INTO stay (part_id, place_id, removal_id, waiting_id, came_at, left_at) "
                "VALUES (?, ?, ?, ?, ?, ?)",
                (part_id, stay[1], stay[2], stay[3], stay[0], left),
            )


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
