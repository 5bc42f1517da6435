"""A day said in a label is told exactly on hover; a label with a tip of its own keeps it."""

from __future__ import annotations

import datetime as dt

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QPoint
from PySide6.QtGui import QHelpEvent
from PySide6.QtWidgets import QLabel, QToolTip
from pytestqt.qtbot import QtBot

from rebuild.trade.waiting.days_said import exact_days
from rebuild.window.layout.plain import MarkupLabel, PlainLabel


def _hover(label: QLabel, y: int = 3) -> None:
    at = QPoint(3, y)
    event = QHelpEvent(QEvent.Type.ToolTip, at, label.mapToGlobal(at))
    QCoreApplication.sendEvent(label, event)


@pytest.mark.parametrize("kind", [PlainLabel, MarkupLabel])
def test_a_day_is_told_exactly_on_hover(
    qtbot: QtBot, kind: type[QLabel], monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    monkeypatch.setattr(QToolTip, "showText", lambda _at, words, _widget: told.append(words))
    label = kind()
    qtbot.addWidget(label)
    label.setText("proved 25 Jul 2026 by the owner")
    label.show()
    _hover(label)
    # 25 July 2026 is a Saturday by the proleptic Gregorian calendar (Python's own).
    assert told == [f"2026-07-25, {dt.date(2026, 7, 25):%A}"] == ["2026-07-25, Saturday"]
    label.setText("no day at all, M10 x 1.5, 14 coils")
    _hover(label)
    assert len(told) == 1


@pytest.mark.parametrize("kind", [PlainLabel, MarkupLabel])
def test_of_many_lines_the_one_pointed_at_tells_its_days(
    qtbot: QtBot, kind: type[QLabel], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A section's hover listed every day of all its lines."""
    told: list[str] = []
    monkeypatch.setattr(QToolTip, "showText", lambda _at, words, _widget: told.append(words))
    label = kind()
    qtbot.addWidget(label)
    lines = ["3 Oct 2025, 2 h", "no day", "promised 24 Dec 2026", "proved 25 Jul 2026"]
    markup = "".join(f'<div style="margin-bottom:3px"><a href="0">{one}</a></div>' for one in lines)
    label.setText(markup if kind is MarkupLabel else "\n".join(lines))
    label.show()
    high = label.height()
    for part in (0.1, 0.4, 0.6, 0.85):
        _hover(label, round(high * part))
    assert told == ["2025-10-03, Friday", "2026-12-24, Thursday", "2026-07-25, Saturday"]


def test_a_tip_of_its_own_stays(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    label = PlainLabel("proved 25 Jul 2026")
    qtbot.addWidget(label)
    label.setToolTip("2026-07-25 18:00")
    label.show()
    _hover(label)
    assert QToolTip.text() in ("2026-07-25 18:00", ""), "Qt's own tip, where the platform shows one"


def test_a_day_without_a_year_is_of_this_one_and_what_is_no_day_is_left_out() -> None:
    now = dt.datetime(2026, 12, 1)
    assert exact_days("promised 26 Oct, 35 d late", now) == "2026-10-26, Monday"
    assert exact_days("31 Apr 2026", now) == ""
    # A line that begins with its day is a record of that day: what it says besides was said then.
    record = "30 Oct 2025, 3 h · stopped: seal promised 14 Nov\n2 Nov, 1 h"
    assert exact_days(record, now).splitlines() == [
        "2025-10-30, Thursday", "2025-11-14, Friday", "2026-11-02, Monday",
    ]  # fmt: skip
    assert exact_days("finish 22 June 2027; last at it 31 Oct", now).splitlines()[1] == "2026-10-31, Saturday"
    assert exact_days("2 Mar 2026, 19:04 and 2 Mar 2026, 19:04", now) == "2026-03-02 19:04, Monday"
