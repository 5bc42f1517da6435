"""Change the settings of the file: how a comma is read, which rule judges, who signs."""

from __future__ import annotations

from rebuild.store.store import Store
from rebuild.trade.limits.verdict import Rule


def set_decimal_comma(store: Store, decimal: bool | None) -> None:
    """Decide how a comma before three digits is read from now on."""
    store.set_setting("comma", "ask" if decimal is None else "decimal" if decimal else "thousands")


def set_verdict_rule(store: Store, rule: Rule) -> None:
    """Choose the decision rule of this file."""
    store.set_setting("verdict rule", rule.name)


def set_owner(store: Store, name: str) -> None:
    """Set who signs in this file."""
    store.set_setting("owner", name.strip())
