"""A verdict is a word and a shape in every table of ours, not in some."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QIcon
from pytestqt.qtbot import QtBot

from rebuild.trade.limits.judgement import Verdict
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.verdict_model import VerdictModel
from tests.window.cut_cells import cut_cells


def test_a_verdict_has_its_shape_and_other_words_have_none(qtbot: QtBot) -> None:
    headings = ("Cut", "Verdict")
    table = PlainTable("Cuts", headings, model=VerdictModel(headings))
    qtbot.addWidget(table)
    words = [*(one.value for one in Verdict), "no limit given", ""]
    table.plain.fill([(at, ("facing", word)) for at, word in enumerate(words)])
    found = {
        word: table.plain.index(at, 1).data(Qt.ItemDataRole.DecorationRole) for at, word in enumerate(words)
    }
    assert {word for word, icon in found.items() if isinstance(icon, QIcon)} == {
        "conforms",
        "does not conform",
        "undecided",
    }
    assert table.plain.index(0, 0).data(Qt.ItemDataRole.DecorationRole) is None
    table.resize(260, 200)
    with qtbot.waitExposed(table):
        table.show()
    assert cut_cells(table)[0] == []
