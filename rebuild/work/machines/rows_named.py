"""Subassemblies as pages name them: with their code, and with what is inside them."""

from __future__ import annotations

from sqlalchemy import Connection

from rebuild.work.machines.rows_tree import subassemblies

#: The tables the lookups here ask.
READS = frozenset({"subassembly", "task"})


def subassembly_named(connection: Connection, machine_id: int, subassembly_id: int | None) -> str:
    """Code and name of a subassembly; empty for the machine as a whole."""
    rows = subassemblies(connection, machine_id)
    return next((f"{row.code} {row.name}".strip() for row in rows if row.id == subassembly_id), "")


def with_inner(connection: Connection, machine_id: int, subassembly_id: int | None) -> frozenset[int] | None:
    """A subassembly and all inside it; None, which is no bound, for the machine as a whole."""
    if subassembly_id is None:
        return None
    found = {subassembly_id}
    rows = subassemblies(connection, machine_id)
    while more := {row.id for row in rows if row.parent_id in found} - found:
        found |= more
    return frozenset(found)
