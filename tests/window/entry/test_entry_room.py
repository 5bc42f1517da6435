"""What a toolmaker's trial found at the entry line: room, old texts, several values pasted, the last values whole."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from rebuild.store.store import Store
from rebuild.window.bench.bench_mode import BenchMode
from rebuild.window.bench.page import BenchPage
from rebuild.window.entry.line import EntryLine
from rebuild.window.readings.grid import MeasurementGrid
from rebuild.window.readings.paste_preview import PastePreview
from rebuild.window.results.working import WorkingPane
from rebuild.window.shell.frame import Frame
from rebuild.words.readings import Stage
from rebuild.work.readings.acts import Entry, record_reading
from tests.conftest import Shop
from tests.support import readings_of

CTRL = Qt.KeyboardModifier.ControlModifier


def bench(frame: Frame, shop: Shop, width: int = 1280, height: int = 800) -> tuple[BenchPage, EntryLine]:
    frame.resize(width, height)
    page = frame.page("bench")
    assert isinstance(page, BenchPage)
    assert isinstance(page.entry, EntryLine)
    frame.desk.choose(subassembly_id=shop.headstock, part_ids=(shop.spindle,), key=(shop.journal, shop.near))
    page.entry.focus_entry()
    QApplication.processEvents()
    return page, page.entry


def typed(store: Store, feature: int, station: int) -> list[str]:
    with store.read() as connection:
        return [row[0].typed for row in readings_of(connection, (feature, station))]


def test_nothing_moves_when_a_message_or_a_question_comes(frame: Frame, shop: Shop, qtbot: QtBot) -> None:
    """The line and its boxes jumped with each message: its height, and the field's place, stay."""
    page, line = bench(frame, shop)
    assert page.grid is not None

    def places() -> tuple[int, ...]:
        QApplication.processEvents()
        boxes = (line.field, line.controls.stage, line.controls.note, line.answer)
        return (
            page.grid.height() if page.grid else 0,
            *(box.mapTo(page, box.rect().topLeft()).y() for box in boxes),
        )

    quiet = places()
    line.controls.choose_instrument("Micrometer 50-75")
    assert line.head.warning.text()
    assert places() == quiet
    qtbot.keyClicks(line.field, "59,971")
    qtbot.keyClick(line.field, Qt.Key.Key_Return)
    assert len(line.answer.ways) == 4
    assert places() == quiet
    qtbot.keyClick(line.field, Qt.Key.Key_Escape)
    qtbot.keyClick(line.field, Qt.Key.Key_Escape)
    for text in ("59.985", "59.980"):
        qtbot.keyClicks(line.field, text)
        qtbot.keyClick(line.field, Qt.Key.Key_Return)
    assert "Stored on" in line.answer.sentence.text()
    assert places() == quiet


def test_a_text_given_up_on_another_row_does_not_come_back(frame: Frame, shop: Shop, qtbot: QtBot) -> None:
    """Ctrl+Z brought it back, and the line then said it was typed for the row in hand now."""
    _, line = bench(frame, shop)
    qtbot.keyClicks(line.field, "59.9")
    qtbot.keyClick(line.field, Qt.Key.Key_Escape)
    qtbot.keyClick(line.field, Qt.Key.Key_Z, CTRL)
    assert line.field.text(), "on its own row it does"
    qtbot.keyClick(line.field, Qt.Key.Key_Escape)
    qtbot.keyClick(line.field, Qt.Key.Key_Down)
    assert line.course.key == (shop.journal, shop.far)
    qtbot.keyClick(line.field, Qt.Key.Key_Z, CTRL)
    assert line.field.text() == ""


def test_a_column_pasted_into_the_line_goes_into_the_grid(frame: Frame, shop: Shop, qtbot: QtBot) -> None:
    """It ran together into one text, and the warning about that stayed when the field was empty again."""
    _, line = bench(frame, shop)
    store = frame.desk.store
    QGuiApplication.clipboard().setText("as found\n59.985\n59.980\n")
    qtbot.keyClick(line.field, Qt.Key.Key_V, CTRL)
    assert line.field.text() == ""
    assert line.answer.sentence.text() == "The clipboard holds 2 values; the line takes one."
    assert [way.words for way in line.answer.ways] == [
        "into the grid, from this row down",
        "only the first, 59.985",
    ]
    qtbot.keyClick(line.field, Qt.Key.Key_1)
    qtbot.waitUntil(lambda: typed(store, shop.journal, shop.far) == ["59.980"], timeout=1000)
    assert typed(store, shop.journal, shop.near) == ["59.985"]
    assert line.answer.ways == []
    qtbot.keyClicks(line.field, "5x")
    qtbot.keyClick(line.field, Qt.Key.Key_Return)
    assert "5x" in line.answer.sentence.text()
    qtbot.keyClick(line.field, Qt.Key.Key_Backspace)
    assert line.answer.sentence.text() == "", "the warning ends with what it was about"


def test_a_block_over_values_that_stand_says_so_before(frame: Frame, shop: Shop) -> None:
    """A block of plain values replaced those that stood there without a word."""
    page, _ = bench(frame, shop)
    store = frame.desk.store
    grid = page.grid
    assert isinstance(grid, MeasurementGrid)
    record_reading(store, "59.985", Entry(shop.journal, shop.near, Stage.AS_FOUND))
    grid.show_stage(Stage.AS_FOUND)
    QGuiApplication.clipboard().setText("59.984\n59.980\n")
    grid.paste_from_row_in_hand()
    preview = frame.findChild(PastePreview)
    assert preview is not None, "nothing is stored before it was looked at"
    assert typed(store, shop.journal, shop.near) == ["59.985"]
    cell = preview.table.item(0, 3)
    assert cell is not None
    assert cell.text() == "replaces 59.985, which stays in the history"
    assert "1 value that stands there now would be replaced" in preview._says.text()
    preview.store.click()
    assert typed(store, shop.journal, shop.near) == ["59.984", "59.985"]


def test_the_last_five_show_number_station_and_stage(frame: Frame, shop: Shop, qtbot: QtBot) -> None:
    """At 1280 the strip cut the number or the station; now the number has a line and the place keeps its end."""
    _, line = bench(frame, shop)
    for _ in range(5):
        qtbot.keyClicks(line.field, "59.985")
        qtbot.keyClick(line.field, Qt.Key.Key_Return)
        frame.desk.choose(key=(shop.journal, shop.near), part_ids=(shop.spindle,))
    QApplication.processEvents()
    shown = [button for button in line.recent.buttons if button.isVisible()]
    assert len(shown) == 5
    for button in shown:
        metrics = button.fontMetrics()
        assert metrics.horizontalAdvance(button.number) <= button.width() - 10
        end = metrics.elidedText(button.place, Qt.TextElideMode.ElideLeft, button.width() - 10)
        assert end.endswith(button.place.rpartition("  ·  ")[2])


def test_bench_mode_shows_how_it_is_taken_and_fills_the_page(frame: Frame, shop: Shop, qtbot: QtBot) -> None:
    """It had no instrument, stage or temperature, small print, and two thirds of it were empty."""
    _, line = bench(frame, shop)
    fonts = [widget.font() for widget in (line.recent.buttons[0], line.answer.sentence, line.controls.stage)]
    frame.do("bench_mode")
    QApplication.processEvents()
    mode = frame.findChild(BenchMode)
    assert mode is not None
    controls = line.controls
    for box in (
        controls.stage,
        controls.instrument,
        controls.temperature,
        line.head.spec,
        line.answer.sentence,
    ):
        assert box.isVisible(), box.accessibleName()
        # Common practice, no source: letters of 3 mm and more are read at arm's length.
        assert box.fontMetrics().capHeight() >= 3 * 96 / 25.4, box.accessibleName()
    qtbot.keyClicks(line.field, "59.985")
    qtbot.keyClick(line.field, Qt.Key.Key_Return)
    QApplication.processEvents()
    taken = line.height() + mode.stored.fontMetrics().height() + mode.verdict.height()
    assert taken >= 0.65 * mode.height()
    assert mode.stored.text().startswith("59.985 mm")
    frame.do("bench_mode")
    QApplication.processEvents()
    again = [widget.font() for widget in (line.recent.buttons[0], line.answer.sentence, line.controls.stage)]
    assert again == fonts


def test_the_working_leaf_is_of_the_part_in_hand(frame: Frame, shop: Shop, qtbot: QtBot) -> None:
    """The working of the spindle's reading stayed when another part was chosen."""
    page, line = bench(frame, shop)
    qtbot.keyClicks(line.field, "59.985")
    qtbot.keyClick(line.field, Qt.Key.Key_Return)
    line.answer.working.click()
    pane = page.details.leaf("working")
    assert isinstance(pane, WorkingPane)
    assert pane.working is not None
    frame.desk.choose(part_ids=(shop.cap,), key=None)
    assert pane.working is None
