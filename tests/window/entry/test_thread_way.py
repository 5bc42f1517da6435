"""A thread in the entry line: how it is measured is chosen or written, and what it means is read back."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot
from sqlalchemy import text

from rebuild.window.desk.desk import Desk
from rebuild.window.readings.columns import STAGE_COLUMNS
from rebuild.window.readings.shown import reading_text
from rebuild.window.readings.words import edit_text
from rebuild.words.readings import STAGES, FeatureKind, Stage, TakenAs
from rebuild.work.readings import acts_features as spec
from tests.conftest import Shop
from tests.window.entry.test_entry_line import Bench


def test_a_thread_over_wires_is_typed_chosen_and_read_back(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    screw = spec.add_feature(
        shop.store, shop.spindle, "thread", FeatureKind.THREAD, unit="in", typed={"thread": "1-8 ACME"}
    )
    bench = Bench(desk)
    qtbot.addWidget(bench)
    bench.show()
    controls = bench.line.controls
    bench.line.place.go_on_to((shop.journal, shop.near), Stage.CLEANED)
    assert controls.thread_way.isHidden()
    bench.line.place.go_on_to((screw, 0), Stage.CLEANED)
    assert not controls.thread_way.isHidden()
    assert controls.thread_way.wire.isHidden()
    controls.thread_way.way.setCurrentText(TakenAs.WIRES.value)
    assert not controls.thread_way.wire.isHidden()
    controls.thread_way.wire.setText("0.0645")
    bench.line.field.setText("1.0064")
    assert controls.live.text().startswith("= pitch diameter 0.9257 in (23.514 mm), over 0.0645 in wires")
    QTest.keyClick(bench.line.field, Qt.Key.Key_Return)
    with shop.store.read() as connection:
        row = connection.execute(text("SELECT * FROM reading WHERE feature_id = :id"), {"id": screw}).one()
    assert (row.typed, row.how) == ("1.0064", "over 0.0645 in wires")
    shown = bench.grid.model.row_of((screw, 0))
    assert shown is not None
    speaking = shown.speaking
    assert speaking is not None
    assert reading_text(speaking, "in") == "0.9257"
    column = STAGE_COLUMNS[STAGES.index(Stage.CLEANED)]
    assert edit_text(shown, column) == "1.0064 over 0.0645 in wires"
    bench.line.place.go_on_to((screw, 0), Stage.REWORKED)
    bench.line.field.setText("0.9259 by thread micrometer")
    QTest.keyClick(bench.line.field, Qt.Key.Key_Return)
    with shop.store.read() as connection:
        last = connection.execute(text("SELECT how, read_mm FROM reading ORDER BY id DESC")).first()
    assert last is not None
    assert tuple(last) == ("by thread micrometer", None)
