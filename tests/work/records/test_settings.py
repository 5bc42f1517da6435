"""Settings belong to the file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rebuild.store.store import Store
from rebuild.trade.limits.verdict import Rule
from rebuild.work.records import acts_settings as settings, rows_settings

if TYPE_CHECKING:
    pass


def test_settings_belong_to_the_file(store: Store) -> None:
    assert rows_settings.decimal_comma(store) is None
    for decimal in (True, False, None):
        settings.set_decimal_comma(store, decimal)
        assert rows_settings.decimal_comma(store) is decimal
    assert rows_settings.verdict_rule(store) is Rule.CONFORMANCE_95
    for rule in Rule:
        settings.set_verdict_rule(store, rule)
        assert rows_settings.verdict_rule(store) is rule
    settings.set_owner(store, "  the owner ")
    store.close()
    again = Store.open(store.path)
    assert rows_settings.owner(again) == "the owner"
    assert rows_settings.verdict_rule(again) is list(Rule)[-1]
    assert again.undo_label() is None
    again.set_setting("verdict rule", "a rule of another edition")
    assert rows_settings.verdict_rule(again) is Rule.CONFORMANCE_95
    again.close()
