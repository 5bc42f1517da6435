"""On every page, light and dark, what is written has 4.5:1 and what is typed into an edge of 3:1, on rendered pixels.

``python -m tests.window.contrast`` prints the least of each page of the demo. Source: WCAG 2.2, 1.4.3 and 1.4.11.
"""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtWidgets import QApplication, QLabel, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from rebuild.window.ink import theme
from rebuild.window.ink.scheme import put_on
from rebuild.window.shell.frame import Frame
from tests.conftest import Shop
from tests.depth import DEPTH
from tests.window.contrast import luminance, ratio, seen
from tests.window.walk import every_page

#: Where text, tables, fields and pictures are; the whole check looks at every page.
FEW = ("bench", "lubrication", "making")


def test_black_on_white_is_the_one_everybody_knows() -> None:
    # Source: WCAG 2.2: black on white is 21:1, the largest there is
    black, white = luminance(np.array([[0, 0, 0], [255, 255, 255]]))
    assert ratio(black, white) == pytest.approx(21.0)


def test_a_pale_word_is_found(qtbot: QtBot) -> None:
    top = QWidget()
    qtbot.addWidget(top)
    column = QVBoxLayout(top)
    for words, colour in (("a pale word", "#c8c8c8"), ("a dark word", "#202020")):
        label = QLabel(words)
        label.setStyleSheet(f"color: {colour}; background: white")
        column.addWidget(label)
    top.resize(200, 80)
    with qtbot.waitExposed(top):
        top.show()
    assert ["pale" in one.what for one in seen(top) if one.weak] == [True]


def test_every_page_can_be_read_and_turns_dark_while_it_is_shown(
    frame: Frame, shop: Shop, qapp: QApplication, monkeypatch: pytest.MonkeyPatch
) -> None:
    weak: list[str] = []
    looked = 0
    with monkeypatch.context() as patched:
        for at, page in enumerate(every_page(frame, FEW if DEPTH == 1 else ())):
            for dark in (
                at % 2 == 0,
                at % 2 == 1,
            ):  # each page turns once; what it was first is the next one's
                if theme.is_dark() is not dark:
                    patched.setattr(theme, "is_dark", lambda dark=dark: dark)
                    put_on(qapp)
                    QApplication.processEvents()
                for one in seen(frame):
                    looked += 1
                    if one.weak:
                        weak.append(f"{page}, {'dark' if dark else 'light'}: {one.what} {one.ratio:.2f}")
    put_on(qapp)
    assert looked > (200 if DEPTH == 1 else 1_600)
    assert sorted(set(weak)) == []
