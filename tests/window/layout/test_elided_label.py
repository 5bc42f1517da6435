"""A line without room for all its pieces gives way where it matters least."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QApplication

from rebuild.window.layout.elided_label import cut_to

LINE = "BG-03 gear rim, 60 teeth  ·  pitch diameter  ·  near  ·  as found"


@pytest.mark.parametrize("share", [0.95, 0.8, 0.7])
def test_the_part_is_cut_before_the_feature(qapp: QApplication, share: float) -> None:
    """The feature is what is measured; "60 te…diameter" named neither."""
    metrics = QFontMetrics(qapp.font())
    room = int(metrics.horizontalAdvance(LINE) * share)
    middle = Qt.TextElideMode.ElideMiddle
    told = cut_to(LINE, metrics, room, middle, first_gives=True)
    assert told.endswith("  ·  pitch diameter  ·  near  ·  as found")
    assert told.startswith("BG-03") or share < 0.75
    assert metrics.horizontalAdvance(told) <= room
    assert "…" in told
    assert "pitch diameter" not in cut_to(LINE, metrics, room // 2, middle, first_gives=False)
