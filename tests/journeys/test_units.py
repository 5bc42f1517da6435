"""Inch and metric side by side; switching what is shown is not an act."""

from __future__ import annotations

from PySide6.QtCore import Qt

from rebuild.window.desk.desk import ShowUnit
from rebuild.window.readings.columns import Column
from tests.conftest import Shop
from tests.journeys.hands import Hands
from tests.support import read_contents


def test_switching_the_display_never_changes_data(hands: Hands, shop: Shop) -> None:
    """A metric journal and an inch lost motion on one machine, switched to and fro by menu and by chooser.

    The grid shows both in mm, then both in inches, then each in its own as typed; every page is looked at in
    each unit; the file is the same to the last digit, and there is nothing new to undo.
    """
    user = hands
    user.frame.desk.choose(part_ids=(shop.spindle,), key=(shop.journal, shop.near))
    user.line.focus_entry()
    user.person("59.985\r")
    user.frame.desk.choose(part_ids=(shop.cap,), key=(shop.lost_motion, 0))
    user.person(".0035\r")
    before, label = read_contents(shop.path), user.frame.desk.store.undo_label()

    def shown() -> tuple[str, str, str]:
        return (
            user.cell("HS-01", "front journal", "near", Column.AS_FOUND),
            user.cell("HS-02", "lost motion", "", Column.AS_FOUND),
            user.cell("HS-01", "front journal", "near", Column.SPEC),
        )

    own = shown()
    assert own == ("59.985", ".0035", "60 -0.010/-0.029")
    user.menu("Show", "Lengths", f"Lengths {ShowUnit.IN.value}")
    assert shown() == ("2.3616", ".0035", "2.3611 to 2.3618")
    for page in user.frame.pages:
        user.frame.show_page(page.key)
    user.frame.show_page("bench")
    units = user.frame.header.units
    units.setFocus()
    user.press(Qt.Key.Key_Up)
    assert user.frame.desk.show_unit is ShowUnit.MM
    assert shown()[1] == "0.089"
    for page in user.frame.pages:
        user.frame.show_page(page.key)
    user.frame.show_page("bench")
    user.menu("Show", "Lengths", f"Lengths {ShowUnit.OWN.value}")
    assert shown() == own
    assert read_contents(shop.path) == before
    assert user.frame.desk.store.undo_label() == label
