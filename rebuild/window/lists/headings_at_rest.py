"""Headings that choose nothing: a click there sorts or does nothing, and the row in hand stays the one it was."""

from __future__ import annotations

from PySide6.QtWidgets import QTableView


def choose_nothing(view: QTableView) -> None:
    """Part a table's headings from its choosing.

    Qt makes the top row of a column pressed, and the first cell of a row pressed, the current one: where the current
    cell is where the next value lands, a heading would move the landing.
    """
    for header in (view.horizontalHeader(), view.verticalHeader()):
        header.sectionPressed.disconnect()
        header.sectionEntered.disconnect()
