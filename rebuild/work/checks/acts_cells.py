"""Set one cell right that cannot be read: a journaled act, after which the row is there again."""

from __future__ import annotations

from rebuild.errors import BadEntry, Stale
from rebuild.store.act import Act
from rebuild.store.quoting import shown
from rebuild.store.store import Store
from rebuild.store.unreadable import BadCell
from rebuild.work.checks.bad_cells import lies_there, names_nothing, still_bad, value_of


def set_right(store: Store, cell: BadCell, typed: str) -> None:
    """Put what was typed into a cell that cannot be read.

    Undo puts back what lay there, but for a reference that led nowhere: that stays right, undo goes on before it.

    Raises:
        BadEntry, Ambiguous: the text cannot stand there; nothing is stored.
        Stale: the cell holds something else by now; nothing is stored.
    """
    value = value_of(cell, typed)
    kind = Act.SET_REFERENCE_RIGHT if cell.dangles else Act.SET_CELL_RIGHT
    with store.act(kind, f"{cell.table.replace('_', ' ')} no. {cell.row}, {cell.column}") as tx:
        now = lies_there(tx.connection, cell)
        if cell.value != ("nothing" if now is None else shown(now)):
            raise Stale(
                f"{cell.table.replace('_', ' ').capitalize()} no. {cell.row} holds something else by now.",
                way_out="Look at the list again.",
            )
        refused = BadEntry(
            f"cannot stand there: it would be {cell.what}.",
            where=f"{cell.table.replace('_', ' ')} no. {cell.row}, {cell.column}",
            value=typed.strip(),
            way_out="Choose one that may.",
        )
        if names_nothing(tx.connection, cell, value):
            raise refused
        tx.connection.exec_driver_sql(
            f'UPDATE "{cell.table}" SET "{cell.column}" = ? WHERE rowid = ?', (value, cell.row)
        )
        if still_bad(tx.connection, cell):
            raise refused
    store.look_over()
