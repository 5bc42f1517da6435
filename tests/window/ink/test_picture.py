"""A picture is copied and saved in lines: what stands on the screen stands in the file."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

from PySide6.QtCore import QPointF, QSize
from PySide6.QtGui import QGuiApplication, QPainter
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QApplication

from rebuild.window.ink.picture import Picture


class Line(Picture):
    """One line and a word."""

    def __init__(self, there: bool) -> None:
        super().__init__("A line", QSize(200, 100), QSize(100, 50))
        self._there = there
        self.resize(200, 100)

    def missing(self) -> str:
        return "" if self._there else "Nothing yet"

    def draw(self, painter: QPainter) -> None:
        painter.drawLine(QPointF(10, 20), QPointF(190, 80))
        painter.drawText(QPointF(20, 40), "0.0015 in")


def test_the_saved_picture_is_lines_and_words(qapp: QApplication, tmp_path: Path) -> None:
    picture = Line(True)
    assert picture.save_as(tmp_path / "line.svg") == ""
    whole = (tmp_path / "line.svg").read_bytes()
    # Source: Scalable Vector Graphics 1.1 (W3C), the namespace of its elements.
    root = ElementTree.fromstring(whole)
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    words = "".join(root.itertext())
    assert "0.0015 in" in words
    assert "A line" in words
    assert QSvgRenderer(whole).viewBoxF().width() == 200
    assert b"<image" not in whole, "a picture of dots inside"
    picture.deleteLater()


def test_copied_in_lines_and_in_dots(qapp: QApplication) -> None:
    picture = Line(True)
    picture.copy()
    held = QGuiApplication.clipboard().mimeData()
    assert held.hasImage()
    assert bytes(held.data("image/svg+xml").data()).lstrip().startswith(b"<?xml")
    QGuiApplication.clipboard().clear()
    picture.deleteLater()


def test_a_folder_that_is_not_there_is_said(qapp: QApplication, tmp_path: Path) -> None:
    picture = Line(True)
    said = picture.save_as(tmp_path / "none" / "line.svg")
    assert "line.svg cannot be written" in said
    assert not (tmp_path / "none").exists()
    picture.deleteLater()
