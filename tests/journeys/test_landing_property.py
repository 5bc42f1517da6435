"""Any walk of choices, filters, pages, edits and gauge bursts: each value lies on the row the head named, or waits.

Keys are real key events, sent to the window as the system sends them. What the head says is read off the screen just
before the last key of a burst; afterwards the file must hold that value on just that row and stage, or among the values
without a row, or it stands in the line, asked about. Nothing else in the file may have changed. The run ends
with the counts (``REBUILD_DEPTH=20 pytest -q tests/journeys/test_landing_property.py``: so many walks).
"""

from __future__ import annotations

import random
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget

from rebuild.store.store import Store
from rebuild.window.charts.page import ChartPage
from rebuild.window.entry.field import EntryField
from rebuild.window.entry.line import EntryLine
from rebuild.window.entry.written import gives_back
from rebuild.window.making.page import MakingPage
from rebuild.window.readings.columns import STAGE_COLUMNS, Column
from rebuild.window.run_in.page import RunInPage
from rebuild.window.surveys.page import SurveyPage
from rebuild.words.readings import Stage
from rebuild.words.surveys import SurveyMethod
from rebuild.work.charts.acts import lay_out
from rebuild.work.editing.acts import edit
from rebuild.work.machines.acts import add_part
from rebuild.work.making import acts as making
from rebuild.work.making.acts_sizes import add_size, set_size
from rebuild.work.making.rows_sheet import sheet_page
from rebuild.work.readings.acts_features import add_feature
from rebuild.work.run_in.acts import lay_out_run
from rebuild.work.surveys.acts import add_survey
from tests.depth import examples
from tests.journeys.hands import CTRL, Hands

if TYPE_CHECKING:
    from tests.journeys.conftest import Start
    from tests.work.teardown.apron import Apron

#: Bursts of one walk, and walks; a longer run is one number away.
BURSTS, WALKS = 22, examples(1)


@dataclass(frozen=True)
class Told:
    """What the file holds of values: each as (where in the head's words, typed)."""

    placed: frozenset[tuple[int, str, str]]
    waiting: frozenset[tuple[int, str]]


def told(store: Store) -> Told:
    """Every value of the file with its row, in the words the head uses, by SQL of its own."""
    with store.read() as connection:
        placed = set()
        for row in connection.exec_driver_sql(
            "SELECT r.id, trim(p.code || ' ' || p.name), f.name, s.name, r.stage, r.typed FROM reading r "
            "JOIN feature f ON f.id = r.feature_id JOIN part p ON p.id = f.part_id "
            "LEFT JOIN station s ON s.id = r.station_id"
        ):
            where = "  ·  ".join(word for word in (row[1], row[2], row[3], row[4]) if word)
            placed.add((row[0], where, row[5]))
        for row in connection.exec_driver_sql(
            "SELECT r.id, v.name, l.name, r.place, v.stage, r.typed FROM survey_reading r "
            "JOIN survey_line l ON l.id = r.line_id JOIN survey v ON v.id = l.survey_id"
        ):
            placed.add((-row[0], f"{row[1]}  ·  {row[2]}  ·  step {row[3] + 1}  ·  {row[4]}", row[5]))
        for row in connection.exec_driver_sql(
            "SELECT r.id, t.number, t.name, l.name, r.stage, r.typed FROM chart_reading r "
            "JOIN chart_line l ON l.id = r.line_id JOIN chart_test t ON t.id = l.test_id"
        ):
            called = f"{row[1]} {row[2]}".strip()
            where = "  ·  ".join(word for word in (called, row[3], row[4]) if word)
            placed.add((10**6 + row[0], where, row[5]))
        for row in connection.exec_driver_sql(
            "SELECT r.id, s.name, r.bearing, r.minute, r.celsius FROM run_reading r "
            "JOIN run_step s ON s.id = r.step_id"
        ):
            placed.add((2 * 10**6 + row[0], f"{row[1]}  ·  {row[2]}  ·  at {row[3]:g} min", f"{row[4]:g}"))
        waits = connection.exec_driver_sql("SELECT id, typed FROM unplaced").all()
    return Told(frozenset(placed), frozenset((row[0], row[1]) for row in waits))


class Walk:
    """One user doing anything at all, and a gauge."""

    def __init__(self, user: Hands, seed: int) -> None:
        self.user = user
        self.dice = random.Random(seed)
        self.sent = 0
        self.in_hand: QWidget | None = None
        self.surfaces: Counter[str] = Counter()
        self.counted = {"placed": 0, "waiting": 0, "asked": 0, "typed": 0}

    # What can be done

    def step(self) -> None:
        doings = (
            self.turn, self.turn, self.choose_in_tree, self.choose_in_tree, self.choose_row, self.choose_row,
            self.choose_row, self.filter, self.focus_elsewhere, self.arrow, self.escape, self.undo,
        )  # fmt: skip
        self.dice.choice(doings)()
        QApplication.processEvents()

    def turn(self) -> None:
        self.user.frame.show_page(
            self.dice.choice(("bench", "bench", "making", "survey", "chart", "run-in", "fits", "plan"))
        )

    def choose_in_tree(self) -> None:
        self.user.frame.show_page("bench")
        tree = self.user.bench.tree.view
        tree.expandAll()
        model = tree.model()
        above = [model.index(row, 0) for row in range(model.rowCount())]
        every = above + [model.index(row, 0, one) for one in above for row in range(model.rowCount(one))]
        self.user.click_item(tree, self.dice.choice(every))

    def choose_row(self) -> None:
        page = self.user.frame.page(self.user.frame.page_shown)
        if isinstance(page, SurveyPage) and page.model.rowCount():
            at = page.model.index(self.dice.randrange(page.model.rowCount()), 0)
            self.user.click_item(page.table, at)
        elif isinstance(page, MakingPage) and page.view.sizes.isVisible():
            table = page.view.sizes.table
            if table.plain.ids:
                self.user.click_item(table, table.model().index(self.dice.randrange(len(table.plain.ids)), 0))
        elif isinstance(page, ChartPage) and page.tests.table.plain.ids:
            table = page.tests.table
            self.user.click_item(table, table.model().index(self.dice.randrange(len(table.plain.ids)), 2))
        elif isinstance(page, RunInPage):
            page.show_view(1)
            table = page.steps.table
            if table.plain.ids:
                self.user.click_item(table, table.model().index(self.dice.randrange(len(table.plain.ids)), 0))
            page.steps.minute.setFocus()
            self.user.replace(str(self.dice.randrange(1, 60)))
            table.setFocus()  # and so does a field for numbers
        elif self.user.frame.page_shown == "bench" and self.user.grid.model.rowCount():
            row = self.dice.randrange(self.user.grid.model.rowCount())
            column = self.dice.choice((Column.FEATURE, Column.SPEC, STAGE_COLUMNS[0]))
            if not self.user.grid.view.isColumnHidden(column):
                self.user.click_item(self.user.grid.view, self.user.grid.model.index(row, column))

    def filter(self) -> None:
        if self.user.frame.page_shown == "bench":
            self.user.grid.filters.text.setFocus()
            self.user.replace(self.dice.choice(("journal", "bore", "zzz", "")) or " ")
            self.user.enter()
            self.user.grid.view.setFocus()  # a filter keeps what is typed in it

    def focus_elsewhere(self) -> None:
        page = self.user.frame.page(self.user.frame.page_shown)
        if self.user.frame.page_shown in ("fits", "plan"):
            return
        able = [
            one
            for one in page.findChildren(QWidget)
            if one.isVisible() and one.isEnabled() and one.focusPolicy() & Qt.FocusPolicy.TabFocus
        ]
        if able:
            self.dice.choice(able).setFocus()

    def arrow(self) -> None:
        self.user.press(self.dice.choice((Qt.Key.Key_Up, Qt.Key.Key_Down)))

    def escape(self) -> None:
        self.user.press(Qt.Key.Key_Escape)

    def undo(self) -> None:
        if self.dice.random() < 0.4:
            self.user.frame.desk.undo()

    # The gauge

    def burst(self) -> None:
        self.sent += 1
        self.surfaces[self.user.frame.page_shown] += 1
        sent = f"{self.dice.choice(('+', ''))}0.{self.sent:03d}{self.dice.randrange(1, 9)}"
        if self.user.frame.page_shown == "run-in":
            sent = f"{20 + self.sent}.5"
        head = self.head()
        pending = self.pending()
        before = told(self.user.frame.desk.store)
        self.in_hand = self.user.focus()
        self.user.gauge(f"{sent}\r")
        QApplication.processEvents()
        self.user.frame.desk.store.poll()
        self.judge(sent, head, pending, before)

    def head(self) -> str:
        """Where the screen says the next value lands; empty where it says nothing or *choose a row*."""
        shown = [
            one.text()
            for one in self.user.frame.findChildren(QWidget)
            if one.isVisible() and one.accessibleName() == "The next value lands on"
        ]
        assert len(shown) <= 1, shown
        return "" if not shown or shown[0] == "Choose a row" else shown[0]

    def kept(self, plain: str) -> bool:
        """Whether it stands where the keyboard was: a search or a field for numbers keeps what is typed there."""
        field = self.in_hand
        return (
            isinstance(field, QLineEdit)
            and not isinstance(field, EntryField)
            and not gives_back(field)
            and plain in field.text()
        )

    def pending(self) -> str:
        """What stands in the line or field of the surface shown, not stored yet."""
        page = self.user.frame.page(self.user.frame.page_shown)
        lines = [one for one in page.findChildren(EntryLine) if one.isVisible()]
        texts = [one.field.text() for one in lines]
        if isinstance(page, ChartPage):
            texts.append(page.tests.panel.entry.value.text())
        if isinstance(page, RunInPage):
            texts.append(page.steps.celsius.text())
        return " ".join(texts) + " ".join(way.words for line in lines for way in line.answer.ways)

    def judge(self, sent: str, head: str, pending: str, before: Told) -> None:
        after = told(self.user.frame.desk.store)
        where = f"walk of {self.sent} bursts, page {self.user.frame.page_shown}, head “{head}”, sent {sent}"
        new = {(row, typed) for _id, row, typed in after.placed - before.placed}
        gone = before.placed - after.placed
        waits = {typed for _id, typed in after.waiting - before.waiting}
        assert not before.waiting - after.waiting, where
        replaced_place = {row for _id, row, _typed in gone}
        assert replaced_place <= {row for row, _typed in new}, f"{where}: lost {gone}"
        plain = sent.lstrip("+")
        if new:
            assert len(new) == 1, f"{where}: {new}"
            (row, typed) = next(iter(new))
            assert row.endswith(head) or head.endswith(row), f"{where}: lies on {row}"
            assert head, f"{where}: nothing was in hand, but it lies on {row}"
            assert typed.lstrip("+").removesuffix(" mm") == plain, where
            assert not waits, where
            self.counted["placed"] += 1
        elif waits:
            assert {text.lstrip("+") for text in waits} == {plain}, f"{where}: {waits}"
            self.counted["waiting"] += 1
        elif self.kept(plain):
            self.counted["typed"] += 1
        else:
            assert plain in self.pending(), (
                f"{where}: it is nowhere; before it stood {pending!r}, in hand {self.in_hand!r}"
            )
            self.counted["asked"] += 1
            self.clear()

    def clear(self) -> None:
        for _ in range(3):
            self.user.press(Qt.Key.Key_Escape)
        page = self.user.frame.page(self.user.frame.page_shown)
        if isinstance(page, ChartPage):
            page.tests.panel.entry.value.setFocus()
        if isinstance(page, RunInPage):
            page.steps.celsius.setFocus()
        if isinstance(page, ChartPage | RunInPage):
            self.user.press(Qt.Key.Key_A, CTRL)
            self.user.press(Qt.Key.Key_Delete)


def everything(apron: Apron) -> None:
    """Something on every surface: parts with and without features, a sheet being made, a survey, a chart."""
    store = apron.store
    apron.read("journal A", "0.6247", Stage.AS_MADE)
    sheet = making.start_sheet(store, apron.parts["AP-12"])
    with store.read() as connection:
        length = next(one for one in sheet_page(connection, sheet).sizes if one.name == "length")
    set_size(store, length.id, "1.25 ±0.01")
    making.release(store, sheet)
    making.begin(store, sheet, sure=True)
    add_size(store, sheet, "oil hole")
    add_part(store, apron.machine, None, "pulley", "AP-99")
    add_feature(store, apron.parts["AP-11"], "face", unit="in", stations=("0", "6", "12"))
    add_survey(store, apron.machine, "Bed", SurveyMethod.LEVEL, lines=["front V"])
    edit(store, "machine", [apron.machine], {"kind": "lathe"})
    lay_out(store, apron.machine)
    lay_out_run(store, apron.machine)


@pytest.mark.parametrize("seed", range(WALKS))
def test_every_value_lies_where_the_head_said_or_waits(
    start: Start, small_apron: Apron, seed: int, record_property: Callable[[str, object], None]
) -> None:
    began = time.process_time()
    everything(small_apron)
    user = start(small_apron.store.path)
    walk = Walk(user, seed)
    for at in range(2 * BURSTS):
        # A rare walk seldom stands on a row: it goes on until it has seen both ends, to twice its length.
        if at >= BURSTS and min(walk.counted["placed"], walk.counted["waiting"]) > 3:
            break
        for _ in range(walk.dice.randrange(1, 4)):
            walk.step()
        for _ in range(walk.dice.randrange(1, 3)):
            walk.burst()
    surfaces = {f"on {page}": sent for page, sent in walk.surfaces.items()}
    spent = time.process_time() - began
    record_property("landing walk", {"bursts": walk.sent, **walk.counted, **surfaces, "cpu s": spent})
    assert walk.counted["placed"] > 3
    assert walk.counted["waiting"] > 3
