"""Add a test of one's own, or a position to a test."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.record_form import fields_named
from rebuild.work.charts import acts as chart
from rebuild.work.charts.rows_tests import TestRow
from rebuild.work.records.field import Field

_LINE = ("sign", "plus_means", "minus_means", "origin", "status")
_ALLOWED = Field("allowed", "Limit", help="0.02 mm per 300 mm; empty: no figure known")


def ask_for_test(desk: Desk, parent: QWidget, after: Callable[[int], None]) -> AddDialog | None:
    """Add a test of the owner's own with one or more positions."""
    machine = desk.machine_id
    if machine is None:
        desk.say("There is no machine yet. Add one first (Ctrl+M).")
        return None
    positions = Field("positions", "Positions", help="One or more, with / between: vertical / horizontal")
    fields = [
        *fields_named("chart_test", ("number", "name")),
        positions,
        _ALLOWED,
        *fields_named("chart_line", _LINE),
        *fields_named("chart_test", ("sketch", "set_up", "after_id")),
    ]

    def act(typed: dict[str, str]) -> int:
        name = typed.pop("name", "")
        names = [part.strip() for part in typed.pop("positions", "").split("/")]
        limit = {key: typed.pop(key) for key in ("allowed", *_LINE) if key in typed}
        return chart.add_test(desk.store, machine, name, names, typed=typed, limit=limit)

    return _open(
        desk,
        parent,
        Adding(
            "New test",
            "Say where its limit comes from; it is shown wherever the limit is.",
            fields,
            act=act,
            after=after,
            prefill=lambda: {"sign": "size only", "status": "the owner's own"},
        ),
    )


def new_position(desk: Desk, parent: QWidget, test: TestRow, after: Callable[[int], None]) -> AddDialog:
    """Add a position to a test."""

    def act(typed: dict[str, str]) -> int:
        return chart.add_position(desk.store, test.id, typed.pop("name", ""), typed)

    fields = [*fields_named("chart_line", ("name",)), _ALLOWED, *fields_named("chart_line", _LINE)]
    return _open(
        desk,
        parent,
        Adding(
            "New position",
            f"Of {test.called}",
            fields,
            act=act,
            after=after,
            prefill=partial(dict, {"sign": "size only", "status": "the owner's own"}),
        ),
    )


def _open(desk: Desk, parent: QWidget, adding: Adding) -> AddDialog:
    dialog = AddDialog(desk, adding, parent)
    dialog.open()
    return dialog
