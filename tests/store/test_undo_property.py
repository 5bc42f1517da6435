"""Any run of acts, all undone, gives the file as it was at each step; all redone, the same end.

The machine does real acts (with what a user might type, right or wrong), and besides them plain
inserts, changes and removals on every journaled table there is, so a table added later is in it too.
The file is closed and opened again in between.
"""

from __future__ import annotations

import datetime as dt
import shutil
import sqlite3
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, Phase, settings, strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)
from sqlalchemy import Boolean, Enum, Float, Integer, LargeBinary, Table, insert, select, update

from rebuild.errors import RebuildError
from rebuild.model.shadows import journaled
from rebuild.model.stored import Moment
from rebuild.model.tables.every import whole
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.trade.results.cautions import topics
from rebuild.words.decisions import Decision
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.checks.check import check
from rebuild.work.controls import acts as controls
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit
from rebuild.work.log import acts as notes
from rebuild.work.machines import acts as identify
from rebuild.work.means import acts as means
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.records.fields import FIELDS
from rebuild.work.steps import acts as tasks, acts_again
from tests.depth import examples
from tests.support import Contents, contents_of

TABLES = [table for table in journaled(whole()) if "id" in table.columns]
TYPED = st.sampled_from(
    ["12.7", "1-1/4 in", "3 thou", "", "0,02", "wrong", "7", "mm", "in", "yes", "2026-03-14", "open", "done",
     "remake", "30 min", "20 C", "spindle", "25 ±0.01", "-5", "1,250", "as found", "lathe", "😀 Ä"]
)  # fmt: skip
SPECS = st.sampled_from(["25 +0.021/0", "max 0.0004", "1.7495-1.7500", "25 H7", "", "wrong", "±0.01"])
READINGS = st.sampled_from(["24.98", "24.98; 24.99", "0.9835 in", "rubbish", "2498", ".3", "1-1/4 in"])
PICK = st.integers(0, 10_000)
FLOATS = st.floats(allow_nan=False, allow_infinity=False)
template: list[Path] = []


class Shop(RuleBasedStateMachine):
    """The file, and every state it was in: ``states[at]`` is the present one."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp())
        self.path = Path(shutil.copy(template[0], self.folder / "shop.rebuild"))
        _seal(self.path)
        self.store = Store.open(self.path)
        self.beside = sqlite3.connect(self.path)  # looks on: the table of contents is read once
        self.states: list[Contents] = [contents_of(self.beside)]
        self.labels: list[str] = []
        self.at = 0

    def teardown(self) -> None:
        try:
            self.all_the_way_back_and_forth()
        finally:
            self.beside.close()
            self.store.close()
            shutil.rmtree(self.folder)

    # What keeps the books

    def do(self, act: Callable[[], object]) -> None:
        """Do an act; a refusal must leave everything as it was."""
        try:
            act()
        except RebuildError:
            assert contents_of(self.beside) == self.states[self.at]
            return
        now = contents_of(self.beside)
        if now == self.states[self.at]:
            return
        del self.states[self.at + 1 :], self.labels[self.at :]
        self.states.append(now)
        self.labels.append(str(self.store.undo_label()))
        self.at += 1

    def ids(self, table: str) -> list[int]:
        with self.store.read() as connection:
            return list(connection.execute(select(whole().tables[table].c.id)).scalars())

    def one(self, table: str, pick: int) -> int:
        """The id of some row; one that is not there when there is none."""
        found = self.ids(table)
        return found[pick % len(found)] if found else 999

    def some(self, table: str, pick: int) -> list[int]:
        found = self.ids(table)
        start = pick % (len(found) or 1)
        return found[start : start + 1 + pick % 3]

    # Acts

    @rule(name=TYPED, unit=st.sampled_from(["mm", "in"]))
    def add_machine(self, name: str, unit: str) -> None:
        self.do(lambda: identify.add_machine(self.store, name, {"unit": unit}))

    @rule(pick=PICK, nested=st.booleans())
    def add_subassembly(self, pick: int, nested: bool) -> None:
        parent = self.one("subassembly", pick) if nested else None
        self.do(
            lambda: identify.add_subassembly(self.store, self.one("machine", pick), "Group", parent_id=parent)
        )

    @rule(pick=PICK, code=TYPED, loose=st.booleans())
    def add_part(self, pick: int, code: str, loose: bool) -> None:
        group = None if loose else self.one("subassembly", pick)
        self.do(lambda: identify.add_part(self.store, self.one("machine", pick), group, "part", code))

    @rule(pick=PICK, text=SPECS, stations=st.lists(TYPED, max_size=3))
    def add_feature(self, pick: int, text: str, stations: list[str]) -> None:
        part = self.one("part", pick)
        self.do(
            lambda: spec.add_feature(self.store, part, "bore", FeatureKind.BORE, spec=text, stations=stations)
        )

    @rule(pick=PICK, text=SPECS)
    def set_spec(self, pick: int, text: str) -> None:
        self.do(lambda: spec.set_spec(self.store, self.some("feature", pick), text))

    @rule(pick=PICK, typed=READINGS, stage=st.sampled_from(Stage), sure=st.booleans())
    def record_reading(self, pick: int, typed: str, stage: Stage, sure: bool) -> None:
        entry = measure.Entry(self.one("feature", pick), stage=stage, temperature="20 C")
        self.do(lambda: measure.record_reading(self.store, typed, entry, confirmed=sure))

    @rule(pick=PICK, typed=st.lists(READINGS, max_size=6))
    def paste(self, pick: int, typed: list[str]) -> None:
        cells = [
            measure.Pasted(text, measure.Entry(self.one("feature", pick + at)))
            for at, text in enumerate(typed)
        ]
        self.do(lambda: measure.paste_readings(self.store, cells, confirmed=True))

    @rule(pick=PICK, why=TYPED)
    def strike(self, pick: int, why: str) -> None:
        self.do(lambda: measure.strike_reading(self.store, self.one("reading", pick), why))

    @rule(pick=PICK, after=st.booleans())
    def add_task(self, pick: int, after: bool) -> None:
        machine = self.one("machine", pick)
        first = self.some("task", pick) if after else []
        self.do(lambda: tasks.add_task(self.store, machine, None, "step", after=first))

    @rule(first=PICK, second=PICK)
    def add_link(self, first: int, second: int) -> None:
        self.do(lambda: tasks.add_link(self.store, self.one("task", first), self.one("task", second)))

    @rule(pick=PICK, sure=st.booleans(), measured=TYPED, done=st.booleans())
    def tick(self, pick: int, sure: bool, measured: str, done: bool) -> None:
        step = self.one("task", pick)
        if done:
            why = "seen at the bench" if sure else ""
            self.do(lambda: tasks.tick(self.store, step, tasks.Done(measured), confirmed=sure, reason=why))
        else:
            self.do(lambda: acts_again.open_again(self.store, step, "it came off again"))

    @rule(pick=PICK, topic=st.sampled_from([*topics()[:3], "none such"]))
    def add_caution(self, pick: int, topic: str) -> None:
        self.do(lambda: tasks.add_caution(self.store, self.one("task", pick), topic))

    @rule(pick=PICK, at=st.integers(-1, 9))
    def reorder(self, pick: int, at: int) -> None:
        self.do(lambda: tasks.reorder(self.store, self.some("task", pick), at))

    @rule(pick=PICK, to=PICK, loose=st.booleans(), at=st.none() | st.integers(-1, 9))
    def move_parts(self, pick: int, to: int, loose: bool, at: int | None) -> None:
        group = None if loose else self.one("subassembly", to)
        self.do(lambda: identify.move_parts(self.store, self.some("part", pick), group, at))

    @rule(pick=PICK, to=PICK, top=st.booleans())
    def move_subassembly(self, pick: int, to: int, top: bool) -> None:
        parent = None if top else self.one("subassembly", to)
        self.do(lambda: identify.move_subassembly(self.store, self.one("subassembly", pick), parent))

    @rule(pick=PICK, to=st.none() | PICK)
    def put(self, pick: int, to: int | None) -> None:
        place = None if to is None else self.one("place", to)
        self.do(lambda: identify.put(self.store, self.some("part", pick), place))

    @rule(pick=PICK, way=st.sampled_from(["name", "have", "make", "buy", "lend", "back"]))
    def come_by(self, pick: int, way: str) -> None:
        """What a step needs is named, had, made first, bought, lent, or comes back."""
        one = self.one("means", pick)
        ways: dict[str, Callable[[], object]] = {
            "name": lambda: means.name_means(self.store, self.one("task", pick), "hoist"),
            "have": lambda: means.have(self.store, one, owned=bool(pick % 2)),
            "make": lambda: means.make(self.store, one),
            "buy": lambda: means.buy(self.store, one),
            "lend": lambda: means.lend(self.store, one, "a neighbour"),
            "back": lambda: means.back(self.store, one),
        }
        self.do(ways[way])

    @rule(pick=PICK, way=st.sampled_from(["lay out", "found", "prove", "prove again"]))
    def controls(self, pick: int, way: str) -> None:
        one = self.one("control", pick)
        ways: dict[str, Callable[[], object]] = {
            "lay out": lambda: controls.lay_out_controls(self.store, self.one("machine", pick)),
            "found": lambda: controls.found(self.store, one, "stiff"),
            "prove": lambda: controls.prove(self.store, one, "full travel both ways"),
            "prove again": lambda: controls.unprove(self.store, one),
        }
        self.do(ways[way])

    @rule(pick=PICK, decision=st.sampled_from(Decision), reason=TYPED)
    def decide(self, pick: int, decision: Decision, reason: str) -> None:
        self.do(lambda: decide.decide(self.store, self.some("part", pick), decision, reason=reason))

    @rule(pick=PICK, reason=TYPED)
    def concede(self, pick: int, reason: str) -> None:
        self.do(lambda: decide.concede(self.store, self.one("part", pick), reason))

    @rule(pick=PICK)
    def gather_a_set(self, pick: int) -> None:
        parts = self.some("part", pick)
        self.do(lambda: identify.add_matched_set(self.store, self.one("machine", pick), "set", parts))

    @rule(pick=PICK, text=TYPED, answered=st.booleans())
    def ask_or_answer(self, pick: int, text: str, answered: bool) -> None:
        if answered:
            self.do(lambda: notes.answer(self.store, self.one("question", pick), text))
        else:
            self.do(lambda: notes.ask(self.store, self.one("machine", pick), text))

    @rule(pick=PICK, record=st.sampled_from(sorted(FIELDS)), data=st.data())
    def edit(self, pick: int, record: str, data: st.DataObject) -> None:
        names = data.draw(st.lists(st.sampled_from([field.name for field in FIELDS[record]]), max_size=3))
        typed = {name: data.draw(TYPED) for name in names}
        self.do(lambda: edit.edit(self.store, record, self.some(record, pick), typed))

    @rule(pick=PICK, record=st.sampled_from(sorted(FIELDS)))
    def remove(self, pick: int, record: str) -> None:
        self.do(lambda: edit.remove(self.store, record, self.some(record, pick)))

    # Any row of any table

    @rule(data=st.data(), table=st.sampled_from(TABLES))
    def insert_a_row(self, data: st.DataObject, table: Table) -> None:
        self._write(insert(table).values(self._row(data, table)))

    @rule(data=st.data(), table=st.sampled_from(TABLES), pick=PICK)
    def change_rows(self, data: st.DataObject, table: Table, pick: int) -> None:
        column = data.draw(st.sampled_from([column.name for column in table.columns if column.name != "id"]))
        value = self._value(data, table.c[column])
        rows = self.some(table.name, pick)
        self._write(update(table).where(table.c.id.in_(rows)).values({column: value}))

    def _write(self, statement: Any) -> None:
        def act() -> None:
            with self.store.act(Act.EDIT, "anything") as tx:
                tx.connection.execute(statement)

        self.do(act)

    def _row(self, data: st.DataObject, table: Table) -> dict[str, object]:
        return {column.name: self._value(data, column) for column in table.columns if column.name != "id"}

    def _value(self, data: st.DataObject, column: Any) -> object:
        if column.nullable and data.draw(st.booleans()):
            return None
        for key in column.foreign_keys:
            return self.one(key.column.table.name, data.draw(PICK))
        if isinstance(column.type, Enum):
            return data.draw(st.sampled_from(list(column.type.enum_class)))  # type: ignore[arg-type]
        if isinstance(column.type, Moment):
            return dt.datetime(2026, 3, 14, data.draw(st.integers(0, 23)))
        if isinstance(column.type, Float):
            return data.draw(FLOATS)
        if isinstance(column.type, Boolean):
            return data.draw(st.booleans())
        if isinstance(column.type, LargeBinary):
            return data.draw(st.binary(max_size=9))
        return data.draw(st.integers(0, 1)) if isinstance(column.type, Integer) else data.draw(TYPED)

    # Back, forth and again

    @precondition(lambda self: self.at > 0)
    @rule()
    def undo(self) -> None:
        assert self.store.undo() == self.labels[self.at - 1]
        self.at -= 1
        assert contents_of(self.beside) == self.states[self.at]

    @precondition(lambda self: self.at < len(self.labels))
    @rule()
    def redo(self) -> None:
        assert self.store.redo() == self.labels[self.at]
        self.at += 1
        assert contents_of(self.beside) == self.states[self.at]

    @rule()
    def close_and_open_again(self) -> None:
        self.beside.close()  # the last one to go puts the log into the file
        self.store.close()
        self.store = Store.open(self.path)
        self.beside = sqlite3.connect(self.path)

    @invariant()
    def the_menu_tells_the_truth(self) -> None:
        assert self.store.undo_label() == (self.labels[self.at - 1] if self.at else None)
        assert self.store.redo_label() == (self.labels[self.at] if self.at < len(self.labels) else None)

    def all_the_way_back_and_forth(self) -> None:
        while self.at:
            self.undo()
        assert self.store.undo() is None
        self.close_and_open_again()
        while self.at < len(self.labels):
            self.redo()
        assert self.store.redo() is None
        # This shop has a step “Measure the journals” and a feature “front journal”, whose sizes are written
        # past the acts here; and a row put in past the acts may close a loop.
        said = [line for line in check(self.path) if not line.startswith("Steps wait")]
        journal = [
            line
            for line in said
            if "journal" in line.replace("front journal", "").replace("journals", "") or "Act no." in line
        ]
        assert journal == []


def _seal(path: Path) -> None:
    """The machine starts from a small shop whose own making is history: undo stops there."""
    raw = sqlite3.connect(path)
    raw.execute("UPDATE act SET sealed = 1")
    raw.commit()
    raw.close()


def test_any_run_of_acts_can_be_undone_and_redone(filled_template: tuple[Path, dict[str, int]]) -> None:
    template[:] = [filled_template[0]]
    run_state_machine_as_test(  # type: ignore[no-untyped-call]
        Shop,
        settings=settings(
            phases=[Phase.explicit, Phase.generate],
            max_examples=examples(6),
            stateful_step_count=40,
            deadline=None,
            suppress_health_check=[
                HealthCheck.too_slow,
                HealthCheck.data_too_large,
                HealthCheck.filter_too_much,
            ],
        ),
    )
