"""Which act undo and redo would take, in words.

Undo walks back through standing acts; redo walks forward through those taken back. A new act after
an undo seals what was taken back: that branch stays readable in the history but is never redone. A reference that
led nowhere and was set right is passed over: the file cannot hold again what lay there.
"""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection, text

from rebuild.store.act import Act

_LAST_DONE = (
    "SELECT id, kind, subject, sealed FROM act WHERE reverses IS NULL AND NOT undone "
    "AND kind <> 'SET_REFERENCE_RIGHT' ORDER BY id DESC LIMIT 1"
)
_NEXT_UNDONE = (
    "SELECT id, kind, subject, sealed FROM act WHERE undone = 1 AND sealed = 0 AND reverses IS NULL "
    "ORDER BY id LIMIT 1"
)


@dataclass(frozen=True, slots=True)
class Step:
    """One act that can be taken back or done again."""

    act_id: int
    words: str
    kind: str


def next_step(connection: Connection, *, undo: bool) -> Step | None:
    """What undo (or redo) would take now, or None."""
    row = connection.exec_driver_sql(_LAST_DONE if undo else _NEXT_UNDONE).first()
    if row is None or row.sealed:
        return None
    return Step(row.id, label(row.kind, row.subject), row.kind)


def rows_by_table(connection: Connection, act_id: int) -> dict[str, int]:
    """How many rows of each table an act touched: what taking it back would bring, take or change."""
    rows = connection.execute(
        text(
            "SELECT tbl, COUNT(DISTINCT row_id) FROM change WHERE act_id = :act GROUP BY tbl ORDER BY 2 DESC"
        ),
        {"act": act_id},
    )
    return {str(table): int(count) for table, count in rows}


def label(kind: str, subject: str) -> str:
    """An act in words: ``reading 24.98 mm on spindle, front journal``."""
    noun = Act[kind].value if kind in Act.__members__ else kind
    return f"{noun} {subject}".strip()
