"""Finding on the Figures page: none found is said, quick typing stays text, and the act finder gets there."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QKeyEvent
from pytestqt.qtbot import QtBot

from rebuild.trade.figures import all_figures
from rebuild.window.commands.act_finder import doables
from rebuild.window.figures.page import FiguresPage
from rebuild.window.shell.frame import Frame


def test_words_find_figures_and_quick_typing_is_no_reading(qtbot: QtBot, frame: Frame) -> None:
    frame.show_page("figures")
    page = frame.page("figures")
    assert isinstance(page, FiguresPage)
    qtbot.waitUntil(lambda: page._find.hasFocus())
    page._find.setText("xyzzy")
    assert page._none.isVisible()
    assert "No figure is called “xyzzy”" in page._none.text()
    page._find.clear()
    assert not page._none.isVisible()
    # Keys without a pause between, as a gauge sends them: here they are words to look for.
    frame.desk.from_gauge = True
    for at, sign in enumerate("2768"):
        event = QKeyEvent(QEvent.Type.KeyPress, Qt.Key(ord(sign)), Qt.KeyboardModifier.NoModifier, sign)
        event.setTimestamp(1_000_000 + 8 * at)
        QCoreApplication.sendEvent(frame.windowHandle(), event)
    assert page._find.text() == "2768"
    acts = doables(frame)
    found = [one for one in acts if one.matches("circlip")]
    assert [one.words for one in found] == ["Groove of a retaining ring"]
    assert {figure.title for figure in all_figures().values()} <= {one.words for one in acts}
    # What the shop calls it comes nearest, in either spelling and by its number.
    for asked, first in (
        ("back gear", "Spindle speeds"),
        ("center of gravity", "Centre of mass"),
        ("MT2", "Sizes of a machine taper"),
        ("dividing", "Dividing"),
    ):
        nearest = min((one for one in acts if one.matches(asked)), key=lambda one: one.order(asked))
        assert nearest.words.startswith(first), asked
    found[0].do()
    assert page.form.figure is not None
    assert page.form.figure.topic == "ring-groove"
