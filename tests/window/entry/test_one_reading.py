"""What one typed reading costs the whole window: so many statements, none of them growing with the file.

Source of the ways: SQLite's EXPLAIN QUERY PLAN, outside the project (``tests.plans``).
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from sqlalchemy import Engine, event

from rebuild.window.bench.page import BenchPage
from rebuild.window.desk.hand import Hand
from rebuild.window.entry.line import EntryLine
from rebuild.window.parts.glance_leaf import GlanceLeaf
from rebuild.window.readings.grid import MeasurementGrid
from rebuild.window.shell.frame import Frame
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.machines import acts as identify
from rebuild.work.part_card.rows import About
from rebuild.work.readings import acts_features as spec
from rebuild.work.readings.acts import Entry, record_reading
from tests.conftest import Shop
from tests.plans import plans_of

#: From Enter to the next row in hand, durable and painted, with all that hears of it at once.
MOST_STATEMENTS = 24
#: How often a pane that waits looks whether the hand rests, in these tests.
LOOKS_MS = 10
#: Tables that grow with what was measured and done. ``act`` is not here: its newest rows are looked at from the
#: end until one is found, which stands as a scan.
GROWS = ("reading", "feature", "station", "part", "task", "change")


@contextmanager
def heard() -> Iterator[list[str]]:
    """Every statement sent, by any connection."""
    said: list[str] = []

    def hear(_connection, _cursor, statement, *_rest):  # type: ignore[no-untyped-def]
        said.append(statement)

    event.listen(Engine, "before_cursor_execute", hear)
    try:
        yield said
    finally:
        event.remove(Engine, "before_cursor_execute", hear)


def bench_of(frame: Frame) -> tuple[BenchPage, EntryLine, MeasurementGrid]:
    page = frame.page("bench")
    assert isinstance(page, BenchPage)
    assert isinstance(page.entry, EntryLine)
    assert isinstance(page.grid, MeasurementGrid)
    return page, page.entry, page.grid


def enter(line: EntryLine, text: str) -> list[str]:
    """Type a value; what was asked from Enter until nothing is left to paint."""
    line.field.setText(text)  # at once: keys that follow one another too fast are a gauge's
    QApplication.processEvents()
    with heard() as said:
        QTest.keyClick(line.field, Qt.Key.Key_Return)
        for _ in range(3):
            QApplication.processEvents()
    assert line.field.text() == "", line.answer.sentence.text()
    return said


def more_rows(frame: Frame, machine: int, group: int, at: str, many: int) -> list[int]:
    """Features in parts of a machine, each read once."""
    store, made = frame.desk.store, []
    for number in range(many):
        part = identify.add_part(store, machine, group, f"shaft {number}", f"{at}-{number:02}")
        made.append(spec.add_feature(store, part, "journal", spec="25 h6", kind=FeatureKind.OUTSIDE_DIAMETER))
        record_reading(store, "24.995", Entry(made[-1], None, Stage.AS_FOUND))
    return made


@pytest.fixture
def hand(monkeypatch: pytest.MonkeyPatch) -> list[bool]:
    """Whether the hand is still at it, instead of the clock: a busy machine types slowly."""
    busy = [True]
    monkeypatch.setattr(Hand, "left_ms", lambda _self: LOOKS_MS if busy[0] else 0)
    return busy


def test_a_reading_costs_so_many_statements_and_none_grows_with_the_file(frame: Frame, shop: Shop) -> None:
    _page, line, _grid = bench_of(frame)
    mine = more_rows(frame, shop.machine, shop.headstock, "S", 6)
    frame.desk.choose(subassembly_id=shop.headstock, part_ids=(), key=(mine[0], 0))
    line.controls.choose_stage(Stage.CLEANED)
    enter(line, "24.996 mm")  # what is worked out once, at the first
    small = enter(line, "24.994 mm")
    assert len(small) <= MOST_STATEMENTS, "\n".join(small)
    other = identify.add_machine(frame.desk.store, "Another")
    group = identify.add_subassembly(frame.desk.store, other, "Table", "T")
    more_rows(frame, other, group, "T", 12)
    more_rows(frame, shop.machine, shop.headstock, "W", 12)
    frame.desk.choose(key=(mine[3], 0))
    line.controls.choose_stage(Stage.CLEANED)
    QApplication.processEvents()
    large = enter(line, "24.993 mm")
    assert len(large) == len(small)
    with frame.desk.store.read() as connection:
        asked = [one for one in large if one.startswith("SELECT")]
        scans = [
            f"{step}: {one}"
            for one, way in zip(asked, plans_of(connection, asked), strict=True)
            for step in way
            if any(step == f"SCAN {table}" for table in GROWS)
        ]
    assert scans == []


def test_what_stands_beside_waits_until_the_hand_rests(
    frame: Frame, shop: Shop, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, hand: list[bool]
) -> None:
    page, line, _grid = bench_of(frame)
    mine = more_rows(frame, shop.machine, shop.headstock, "S", 3)
    frame.desk.choose(subassembly_id=shop.headstock, part_ids=(), key=(mine[0], 0))
    line.controls.choose_stage(Stage.CLEANED)
    card = page.details.leaf("card")
    assert isinstance(card, GlanceLeaf)
    looked: list[int] = []
    real = GlanceLeaf.refresh

    def look(self: GlanceLeaf) -> None:
        looked.append(1)
        real(self)

    monkeypatch.setattr(GlanceLeaf, "refresh", look)
    enter(line, "24.996 mm")
    enter(line, "24.994 mm")
    qtbot.wait(5 * LOOKS_MS)
    assert looked == []
    told = page.details.subject
    hand[0] = False
    qtbot.waitUntil(lambda: len(looked) > 0, timeout=5000)
    assert page.details.subject != told, "the card stayed on the part before"
    third = frame.desk.selection.part_ids[-1]
    assert card.found is not None
    assert card.found.part_id == third
    qtbot.wait(5 * LOOKS_MS)
    assert looked == [1], "read once for the two values"
    assert any("journal" in told.words for told in card.found.of(About.READ))


def test_a_field_of_the_card_is_of_the_row_in_hand_though_the_card_had_not_followed(
    frame: Frame, shop: Shop, qtbot: QtBot, hand: list[bool]
) -> None:
    frame.activateWindow()
    qtbot.waitUntil(frame.isActiveWindow, timeout=5000)
    page, line, _grid = bench_of(frame)
    mine = more_rows(frame, shop.machine, shop.headstock, "S", 3)
    frame.desk.choose(subassembly_id=shop.headstock, part_ids=(), key=(mine[0], 0))
    line.controls.choose_stage(Stage.CLEANED)
    hand[0] = False
    enter(line, "24.996 mm")
    qtbot.waitUntil(lambda: page.details.subject[0] == "part", timeout=5000)
    hand[0] = True
    enter(line, "24.996 mm")
    card = page.details.leaf("card")
    assert isinstance(card, GlanceLeaf)
    card.form.boxes["match_mark"].widget.setFocus()
    QApplication.processEvents()
    assert page.details.subject == ("part", frame.desk.selection.part_ids[-1])
    assert card.form.row_id == frame.desk.selection.part_ids[-1]
