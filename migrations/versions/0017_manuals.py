"""Manuals with their pages and call-outs; the part a mark names; unknown things, their clues, what became of them.

Revision: 0017, after 0015
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from rebuild.store.migrating import create_shadow

revision = "0017"
down_revision = "0016"
branch_labels = None
depends_on = None

_CASCADE, _SET_NULL = "CASCADE", "SET NULL"


def upgrade() -> None:
    _documents()
    _call_outs()
    _marks()
    _boxes()


def _table(
    name: str,
    columns: list[sa.Column[object]],
    refers: tuple[tuple[str, str, str], ...],
    indexes: dict[str, list[str]],
) -> None:
    keys = [
        sa.ForeignKeyConstraint([column], [f"{other}.id"], name=f"fk_{name}_{column}_{other}", ondelete=gone)
        for column, other, gone in refers
    ]
    op.create_table(
        name,
        sa.Column("id", sa.Integer(), nullable=False),
        *columns,
        sa.PrimaryKeyConstraint("id", name=f"pk_{name}"),
        *keys,
        sqlite_autoincrement=True,
    )
    for index, over in indexes.items():
        op.create_index(f"ix_{name}_{index}", name, over)
    create_shadow(name, ("id", *(str(column.name) for column in columns)))


def _text(name: str) -> sa.Column[object]:
    return sa.Column(name, sa.String(), nullable=False)


def _count(name: str) -> sa.Column[object]:
    return sa.Column(name, sa.Integer(), nullable=False)


def _number(name: str) -> sa.Column[object]:
    return sa.Column(name, sa.Double(), nullable=False)


def _documents() -> None:
    _table(
        "document",
        [_count("machine_id"), _text("name"), _text("file_name"), _text("note")],
        (("machine_id", "machine", _CASCADE),),
        {"machine_id": ["machine_id"]},
    )
    _table(
        "document_page",
        [
            _count("document_id"),
            _count("number"),
            _text("label"),
            _text("sha256"),
            _text("ending"),
            _count("inner"),
            _number("width"),
            _number("height"),
            _text("words"),
        ],
        (("document_id", "document", _CASCADE),),
        {"document_number": ["document_id", "number"], "sha256": ["sha256"]},
    )


def _call_outs() -> None:
    named = ("part", "feature", "oil_point")
    _table(
        "call_out",
        [
            _count("page_id"),
            *(sa.Column(f"{other}_id", sa.Integer()) for other in named),
            *(_number(name) for name in ("x", "y", "x2", "y2")),
            _text("text"),
            _text("differs"),
        ],
        (("page_id", "document_page", _CASCADE), *((f"{other}_id", other, _SET_NULL) for other in named)),
        {name: [name] for name in ("page_id", *(f"{other}_id" for other in named))},
    )


def _marks() -> None:
    _table(
        "mark_part",
        [_count("mark_id"), _count("part_id")],
        (("mark_id", "photo_mark", _CASCADE), ("part_id", "part", _CASCADE)),
        {name: [name] for name in ("mark_id", "part_id")},
    )


def _boxes() -> None:
    to_part = (("part_id", "part", _CASCADE),)
    by_part = {"part_id": ["part_id"]}
    _table(
        "box_thing",
        [_count("part_id"), _text("came_in"), _text("went_to"), sa.Column("went_at", sa.String(19))],
        to_part,
        by_part,
    )
    _table(
        "clue",
        [
            _count("part_id"),
            sa.Column("kind", sa.String(40), nullable=False),
            _text("text"),
            sa.Column("size_text", sa.String()),
            sa.Column("size_unit", sa.String()),
            sa.Column("size_mm", sa.Double()),
        ],
        to_part,
        by_part,
    )
    _table(
        "merged_part",
        [
            _count("part_id"),
            _count("was_number"),
            _text("was_code"),
            _text("was_name"),
            sa.Column("at", sa.String(19), nullable=False),
        ],
        to_part,
        by_part,
    )


def downgrade() -> None:
    raise NotImplementedError("a project file is never taken back to an older schema; open its backup")
