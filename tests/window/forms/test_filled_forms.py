"""A filled form: a sentence under a field squashes nothing, and Escape asks before it throws away."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from rebuild.errors import BadEntry
from rebuild.window.desk.desk import Desk
from rebuild.window.forms import new
from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.forms.feature_dialog import add_feature
from rebuild.window.forms.limit_dialog import limit_from_standard
from rebuild.window.lubrication.new_point import new_point
from tests.conftest import Shop

_LONG = "is not a length that can be read in any unit this program knows of; it stays as you typed it."


def _all(desk: Desk, shop: Shop) -> list[tuple[AddDialog, str]]:
    desk.choose(subassembly_id=shop.headstock, part_ids=(shop.cap,))
    part = new.new_part(desk, None)
    assert part is not None
    return [
        (part, "quantity"),
        (add_feature(desk, None), "spec"),
        (new_point(desk, None, "7", lambda _key: None), "old_oil"),
        (limit_from_standard(desk, shop.micrometer, None), "reach"),
    ]


def test_a_sentence_under_a_field_is_whole_and_squashes_nothing(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    for dialog, name in _all(desk, shop):
        qtbot.waitExposed(dialog)
        box = dialog.form.boxes[name]
        heights = {key: other.widget.height() for key, other in dialog.form.boxes.items()}
        before = heights[name]
        box.show_trouble(
            BadEntry(_LONG, where=box.field.label, value="twelve and three", way_out="Type 12.7.")
        )
        qtbot.wait(30)
        assert box.widget.height() == before, f"{name} is squashed"
        sentence = next(label for label in box.findChildren(QLabel) if label.text().startswith("▸"))
        assert sentence.height() >= sentence.heightForWidth(sentence.width()), (
            f"{name}: the sentence is clipped"
        )
        dialog.close()


def test_escape_on_a_filled_form_asks_first(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    dialog, _name = _all(desk, shop)[0]
    dialog.form.boxes["name"].editor.put("gib")
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    assert dialog.isVisible()
    assert dialog._said.text() == (
        "▸ What you typed in one field is not stored. Esc once more throws it away; Enter adds it."
    )
    dialog.form.boxes["material"].editor.put("bronze")
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    assert dialog.isVisible(), "more was typed since: it asks again"
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()


def test_escape_on_an_empty_form_closes_it(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    dialog, _name = _all(desk, shop)[0]
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()
