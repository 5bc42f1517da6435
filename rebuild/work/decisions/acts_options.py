"""The ways a part could go, kept side by side until one is chosen; and the user's own wear limits."""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.decisions import DecisionOption, WearRule
from rebuild.model.records.parts import Part
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.trade.wear.rules import rules
from rebuild.words.decisions import Decision
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.rows_settings import decimal_comma


def add_option(store: Store, part_id: int, decision: Decision, typed: Mapping[str, str] | None = None) -> int:
    """A way a part could go; returns its id. ``typed``: how, cost, work, days of waiting, note. Raises BadEntry."""
    columns = read_typed("decision_option", typed or {}, comma=decimal_comma(store))
    with store.act(Act.ADD_OPTION, "") as tx:
        part = tx.get(Part, part_id, "part")
        last = tx.session.scalar(
            select(func.max(DecisionOption.position)).where(DecisionOption.part_id == part_id)
        )
        row = DecisionOption(part_id=part_id, decision=decision, position=0 if last is None else last + 1)
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        tx.subject = f"{decision.value}{', ' + row.method if row.method else ''} for {title(part)}"
        return row.id


def set_rule(
    store: Store, key: str, *, good: str = "", rework: str = "", left_out: bool = False, note: str = ""
) -> None:
    """Put the user's own limits in place of a wear rule's; empty limits and not left out: the rule's own again.

    Raises:
        BadEntry: no such rule, a limit that cannot be read, or the first above the second.
    """
    rule = next((rule for rule in rules().criteria if rule.key == key), None)
    if rule is None:
        raise BadEntry("is not a rule.", where="Rule", value=key, way_out="Choose one of the list.")
    comma = decimal_comma(store)
    sizes = [
        parse_length(text, own.size.unit, label, decimal_comma=comma) if text.strip() else None
        for text, own, label in ((good, rule.good, "Good up to"), (rework, rule.rework, "Rework up to"))
    ]
    first, second = sizes[0] or rule.good.size, sizes[1] or rule.rework.size
    if rule.good.per_size == rule.rework.per_size and first.mm > second.mm:
        raise BadEntry(
            f"is above the limit for rework, {second.text}.",
            where="Good up to",
            value=first.text,
            way_out="The first limit must be the smaller.",
        )
    with store.act(Act.SET_RULE, rule.title) as tx:
        row = tx.session.scalar(select(WearRule).where(WearRule.key == key))
        if not any((*sizes, left_out, note.strip())):
            if row is not None:
                tx.session.delete(row)
            return
        row = row or WearRule(key=key)
        for stem, size in (("good", sizes[0]), ("rework", sizes[1])):
            _put(row, stem, size)
        row.left_out, row.note = left_out, note.strip()
        tx.session.add(row)


def _put(row: WearRule, stem: str, size: Size | None) -> None:
    setattr(row, f"{stem}_text", size.text if size else None)
    setattr(row, f"{stem}_unit", size.unit if size else None)
    setattr(row, f"{stem}_mm", size.mm if size else None)
