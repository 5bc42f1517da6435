"""How the chosen joints are now: said by a key, or by the line that takes a torque, and stored through the gate."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from PySide6.QtWidgets import QLineEdit

from rebuild.window.desk.desk import Desk
from rebuild.window.joints.duty_lines import read_back, takes_no_torque
from rebuild.window.joints.table import JointTable
from rebuild.window.steps.gate_row import GateRow
from rebuild.words.joints import Dressing, Tightness
from rebuild.work.editing.acts import edit
from rebuild.work.joints import acts
from rebuild.work.joints.acts import JointState
from rebuild.work.joints.rows import JointRow
from rebuild.work.records.rows_settings import owner
from rebuild.work.steps.acts_joint_apart import take_joints_apart


class JointStates:
    """States of the joints chosen in a table; ``rows`` gives all joints as they were last read.

    ``came_apart`` hears of joints taken apart again.
    """

    def __init__(
        self,
        desk: Desk,
        table: JointTable,
        torque: QLineEdit,
        row: GateRow,
        rows: Callable[[], Sequence[JointRow]],
        came_apart: Callable[[list[int]], None],
    ) -> None:
        self._desk = desk
        self._table = table
        self._torque = torque
        self._row = row
        self._rows = rows
        self._came_apart = came_apart

    def say(self, state: Tightness | Dressing) -> None:
        """Say how the chosen joints are now; torqued turns to its torque first."""
        if state is Tightness.TORQUED:
            self._torque.setFocus()
            return
        tight = state if isinstance(state, Tightness) else None
        dress = state if isinstance(state, Dressing) else None
        self._set(JointState(tight, dress))

    def store_torque(self) -> None:
        """Store what the line says: a torque, or how a joint that takes none was set."""
        text = self._torque.text().strip()
        if not text:
            return
        chosen = self._table.chosen_ids()
        rows = [row for row in self._rows() if row.id in chosen]
        if rows and all(takes_no_torque(row) for row in rows):
            stored = self._desk.attempt(lambda: self._store_setting(chosen, text), "Written down.")
            if stored:
                self._stored_torque("")
            return
        self._set(JointState(Tightness.TORQUED, torque=text), lambda: self._stored_torque(text))

    def _store_setting(self, chosen: list[int], text: str) -> bool:
        edit(self._desk.store, "joint", chosen, {"how_set": text})
        return True

    def _stored_torque(self, text: str) -> None:
        if text:
            self._desk.say(f"Torqued to {read_back(text)}.")
        self._torque.clear()
        self._table.setFocus()

    def _set(self, state: JointState, after: Callable[[], None] | None = None) -> None:
        chosen = self._table.chosen_ids()
        at = self._table.plain.ids.index(chosen[0]) if chosen else 0

        def act(reason: str) -> None:
            if reason and state.tight is Tightness.APART:
                take_joints_apart(self._desk.store, chosen, reason)
                self._came_apart(chosen)
                return
            by = owner(self._desk.store) if reason else ""
            acts.set_joints(self._desk.store, chosen, replace(state, reason=reason, by=by))

        def done() -> None:
            if not self._table.chosen_ids() and self._table.plain.ids:
                self._table.selectRow(min(at, len(self._table.plain.ids) - 1))
            if after is not None:
                after()

        self._row.attempt(act, done)
