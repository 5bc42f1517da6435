"""What is drawn can be seen: text 4.5:1, edges, rings and marks 3:1, measured on rendered pixels in both schemes.

Source: WCAG 2.2, success criteria 1.4.3 (text, level AA) and 1.4.11 (edges of what is worked with, graphics).
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QRect, QRectF
from PySide6.QtGui import QColor, QImage, QPainter, QStandardItemModel
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QSpinBox,
    QStyle,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.window.charts.table import PLACED, ZONE, ChartTable
from rebuild.window.ink import theme
from rebuild.window.ink.scheme import Scheme
from rebuild.window.ink.strokes import hatch
from rebuild.window.ink.zone_picture import Drawn, draw_cell, place
from tests.window.ink.test_theme import contrast

TEXT, EDGE = 4.5, 3.0
SCHEMES = [theme.LIGHT, theme.DARK]


@pytest.fixture(params=SCHEMES, ids=["light", "dark"])
def scheme(
    request: pytest.FixtureRequest, qapp: QApplication, monkeypatch: pytest.MonkeyPatch
) -> Iterator[theme.Ink]:
    """The whole program in one scheme; light again afterwards."""
    with monkeypatch.context() as patched:
        patched.setattr(theme, "is_dark", lambda: request.param is theme.DARK)
        made = Scheme(qapp)
        yield request.param
        made.deleteLater()
    Scheme(qapp).deleteLater()


def strongest(picture: QImage, where: QRect, ground: QColor) -> float:
    """The highest contrast of any pixel of a rectangle against its ground."""
    colours = {
        picture.pixelColor(x, y).rgb()
        for x in range(where.left(), where.right() + 1)
        for y in range(where.top(), where.bottom() + 1)
    }
    return max(contrast(QColor(colour), ground) for colour in colours)


def shown(host: QWidget, *widgets: QWidget) -> QImage:
    """The widgets one under another on ``host``, grabbed."""
    column = QVBoxLayout(host)
    for widget in widgets:
        column.addWidget(widget)
    host.resize(240, 60 * len(widgets))
    host.show()
    host.activateWindow()
    QApplication.processEvents()
    picture = host.grab().toImage()
    host.hide()
    return picture


def test_what_is_typed_into_or_pressed_has_an_edge(scheme: theme.Ink) -> None:
    fields = [QLineEdit(), QComboBox(), QSpinBox(), QPlainTextEdit(), QPushButton("Store"), QCheckBox("done")]
    spare = QPushButton("first")  # takes the keys, so that none of the others wears a ring
    host = QWidget()
    picture = shown(host, spare, *fields)
    weak = {}
    for field in fields:
        box = field.geometry()
        left = QRect(box.left(), box.center().y() - 1, 3, 3)
        found = strongest(picture, left, scheme.paper)
        if found < EDGE:
            weak[type(field).__name__] = round(found, 2)
    assert not weak


def test_what_the_keys_go_to_wears_a_ring(scheme: theme.Ink) -> None:
    field, other = QLineEdit("25.4"), QLineEdit("25.4")
    host = QWidget()
    picture = shown(host, field, other)
    box, plain = field.geometry(), other.geometry()
    ring = picture.pixelColor(box.center().x(), box.top())
    edge = picture.pixelColor(plain.center().x(), plain.top())
    assert ring != edge
    assert contrast(ring, scheme.sheet) >= EDGE
    assert contrast(ring, scheme.paper) >= EDGE


def test_what_is_marked_in_a_field_can_be_read(scheme: theme.Ink) -> None:
    made = theme.field_palette(scheme)
    assert contrast(made.highlightedText().color(), made.highlight().color()) >= TEXT


@pytest.mark.parametrize("ground", ["paper", "sheet", "band"])
def test_inks_against_their_grounds(scheme: theme.Ink, ground: str) -> None:
    under = getattr(scheme, ground)
    for ink, least in (("ink", TEXT), ("faint", TEXT), ("mark", TEXT), ("edge", EDGE), ("focus", EDGE)):
        assert contrast(getattr(scheme, ink), under) >= least, ink


def test_text_of_a_chosen_line(scheme: theme.Ink) -> None:
    assert contrast(scheme.chosen_ink, scheme.chosen) >= TEXT


@pytest.mark.parametrize("mm", [25.2, 24.8, 25.01], ids=["above", "below", "inside"])
@pytest.mark.parametrize("chosen", [False, True], ids=["plain", "chosen"])
def test_a_reading_in_a_zone_picture(scheme: theme.Ink, mm: float, chosen: bool) -> None:
    drawn = theme.on_chosen(scheme) if chosen else scheme
    picture = QImage(120, 24, QImage.Format.Format_RGB32)
    picture.fill(drawn.sheet)
    painter = QPainter(picture)
    placed = place(Drawn(25.0, 25.02, value_mm=mm))
    assert placed is not None
    draw_cell(painter, QRectF(0, 0, 120, 24), placed, drawn)
    painter.end()
    at = round(3 + (placed.reading or 0.0) * 114)
    under = drawn.zone if mm == 25.01 else drawn.sheet
    assert strongest(picture, QRect(max(0, at - 2), 10, 5, 3), under) >= EDGE


def test_a_reading_off_the_chart_on_a_chosen_row(scheme: theme.Ink) -> None:
    """Its arrow was 1.09:1."""
    table = ChartTable()
    items = QStandardItemModel(1, ZONE + 1)
    items.setData(items.index(0, ZONE), place(Drawn(0.0, 0.02, value_mm=0.2)), PLACED)
    picture = QImage(120, 24, QImage.Format.Format_RGB32)
    picture.fill(scheme.sheet)
    painter = QPainter(picture)
    option = QStyleOptionViewItem()
    option.rect = picture.rect()  # type: ignore[attr-defined]
    option.palette = table.palette()  # type: ignore[attr-defined]
    option.state = (
        QStyle.StateFlag.State_Enabled | QStyle.StateFlag.State_Selected | QStyle.StateFlag.State_Active
    )  # type: ignore[attr-defined]
    table.itemDelegateForColumn(ZONE).paint(painter, option, items.index(0, ZONE))
    painter.end()
    ground = picture.pixelColor(2, 12)
    assert contrast(ground, scheme.chosen) < 1.3
    assert strongest(picture, QRect(100, 8, 18, 8), ground) >= EDGE


def test_hatching(scheme: theme.Ink) -> None:
    for colour in (scheme.faint, scheme.edge):
        picture = QImage(60, 60, QImage.Format.Format_RGB32)
        picture.fill(scheme.sheet)
        painter = QPainter(picture)
        hatch(painter, QRectF(0, 0, 60, 60), colour)
        painter.end()
        assert strongest(picture, QRect(5, 5, 50, 50), scheme.sheet) >= EDGE
