"""Settings of the file that change how entries are read and judged."""

from __future__ import annotations

from sqlalchemy import Connection

from rebuild.store.store import Store
from rebuild.trade.limits.verdict import Rule

#: The tables the lookups here ask.
READS = frozenset({"setting"})


def decimal_comma(store: Store) -> bool | None:
    """How ``1,250`` is read in this file: True decimal, False thousands, None asks."""
    return {"decimal": True, "thousands": False}.get(store.setting("comma", "ask"))


def verdict_rule(store: Store) -> Rule:
    """The decision rule of this file; ISO 14253-1:2017 unless chosen otherwise."""
    stored = store.setting("verdict rule", Rule.CONFORMANCE_95.name)
    return Rule[stored] if stored in Rule.__members__ else Rule.CONFORMANCE_95


def rule_of(connection: Connection) -> Rule:
    """The decision rule of the file a connection reads."""
    stored = connection.exec_driver_sql("SELECT value FROM setting WHERE key = 'verdict rule'").scalar()
    known = str(stored) if stored is not None else Rule.CONFORMANCE_95.name
    return Rule[known] if known in Rule.__members__ else Rule.CONFORMANCE_95


def owner(store: Store) -> str:
    """Who signs readings and concessions in this file."""
    return store.setting("owner", "")
