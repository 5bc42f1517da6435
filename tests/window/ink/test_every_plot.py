"""Every drawing of the window has one owner: it is copied and saved in lines, and nothing draws a plot beside it."""

from __future__ import annotations

import ast
from pathlib import Path
from xml.etree import ElementTree

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QApplication, QWidget

import rebuild.window
from rebuild.window.charts.settling_picture import SettlingPicture
from rebuild.window.ink.picture import Lines
from rebuild.window.making.drawing_view import PartDrawing
from rebuild.window.shell.frame import Frame
from tests.conftest import Shop
from tests.window.walk import every_page

WINDOW = Path(rebuild.window.__file__).parent
#: What paints itself and is no drawing anybody would want in a letter, and why.
_NO_DRAWING = {
    "shell/page_chooser.py": "the rule under the names of pages",
    "shell/offer.py": "a line round an offer",
    "shell/message_line.py": "a rule over the words",
    "shell/header.py": "a rule under the header",
    "layout/elided_label.py": "words",
    "layout/page_row.py": "the line under the chosen name",
    "ink/picture.py": "the owner itself",
    "labels/preview.py": "the printed page itself, as the PDF holds it",
    "ink/shapes.py": "a state's shape",
    "readings/view.py": "the grid's own cells",
    "making/step_cards.py": "a bar beside a card",
    "lists/section.py": "a rule under a heading",
    "forms/elided_line.py": "a name that ends in dots",
    "forms/whole_line.py": "a text on more lines than one",
    "where_was_i/end_strip.py": "a rule over the strip",
    "entry/value_button.py": "a number and its underline",
    "photos/sheet.py": "a photo, which is dots, and its marks",
    "documents/sheet.py": "a page of a manual, which is dots",
    "plan/calendar_view.py": "a Lines of its own: it scrolls",
}


def test_what_paints_itself_goes_through_the_owner() -> None:
    painting = {
        path.relative_to(WINDOW).as_posix()
        for path in WINDOW.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.FunctionDef) and node.name == "paintEvent"
    }
    assert painting == set(_NO_DRAWING), "draw it as a Picture, or say why it is no drawing"


def test_every_drawing_of_every_page_is_lines_and_is_offered_to_be_copied(
    frame: Frame, shop: Shop, qapp: QApplication
) -> None:
    found: dict[str, bool] = {}
    for _page in every_page(frame):
        for one in frame.findChildren(QWidget):
            if not isinstance(one, Lines) or not one.isVisible():
                continue
            name = type(one).__name__
            svg = one.as_svg()
            root = ElementTree.fromstring(svg)
            assert root.tag.endswith("svg"), name
            assert b"<image" not in svg, f"{name} holds dots"
            assert "".join(root.itertext()).strip(), name
            menu = one.offer_lines(QPoint(10, 10))
            assert (menu is None) is one.no_lines(), name
            if menu is not None:
                said = [action.text().replace("&", "") for action in menu.actions()]
                assert said == ["Copy picture", "Save as lines (SVG)…"], name
                menu.close()
            found[name] = found.get(name, False) or menu is not None
    qapp.processEvents()
    assert {
        "FinishPicture", "CalendarView", "NetworkPicture", "HeatPicture", "Curves", "MapView",
        "DrawingView", "FitPicture", "ZonesPicture",
    } <= set(found)  # fmt: skip
    assert issubclass(PartDrawing, Lines), "on show only beside a sheet"
    assert issubclass(SettlingPicture, Lines), "on show only beside readings of a level"
    assert sum(found.values()) >= 3, found
