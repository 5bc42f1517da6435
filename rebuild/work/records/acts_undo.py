"""Undo and redo of the newest act."""

from __future__ import annotations

from rebuild.store.store import Store


def undo(store: Store) -> str | None:
    """Take back the newest act; returns its words or None. Raises Stale."""
    return store.undo()


def redo(store: Store) -> str | None:
    """Do again the act taken back last; returns its words or None. Raises Stale."""
    return store.redo()
