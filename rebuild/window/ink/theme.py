"""Ink and paper: the colours, line widths and fonts of the window, light and dark.

Drawn like a shop drawing: one ink, one paper, thin rules, one quiet accent for what is chosen.
State is never told by colour alone; it is a word plus a plain shape (``shapes.py``).
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QGuiApplication, QPalette


@dataclass(frozen=True, slots=True)
class Ink:
    """The colours of one scheme."""

    paper: QColor  # window ground
    sheet: QColor  # lists, grids, entry fields
    band: QColor  # headers, alternate rows, tool bars
    ink: QColor  # text and outlines
    faint: QColor  # secondary text; still 4.5:1 on paper
    rule: QColor  # thin lines between things
    chosen: QColor  # ground of what is chosen
    chosen_ink: QColor
    zone: QColor  # fill of a tolerance zone
    mark: QColor  # the reading and its bar; also the caret of the entry line


LIGHT = Ink(
    paper=QColor("#f3f2ec"),
    sheet=QColor("#fcfbf7"),
    band=QColor("#e8e6dd"),
    ink=QColor("#1d2429"),
    faint=QColor("#5b6268"),
    rule=QColor("#c5c3b8"),
    chosen=QColor("#2f5168"),
    chosen_ink=QColor("#ffffff"),
    zone=QColor("#c9d3d6"),
    mark=QColor("#8a3b12"),
)
DARK = Ink(
    paper=QColor("#161b1f"),
    sheet=QColor("#29333b"),
    band=QColor("#343f47"),
    ink=QColor("#e6e4da"),
    faint=QColor("#a3aab0"),
    rule=QColor("#4b5760"),
    chosen=QColor("#4a7893"),
    chosen_ink=QColor("#ffffff"),
    zone=QColor("#4d606a"),
    mark=QColor("#e2a06f"),
)


def is_dark() -> bool:
    """Whether the system asks for dark."""
    return QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark


def ink() -> Ink:
    """The colours of the scheme in force."""
    return DARK if is_dark() else LIGHT


def palette(scheme: Ink) -> QPalette:
    """A Qt palette of one scheme."""
    made = QPalette()
    role = QPalette.ColorRole
    for target, colour in (
        (role.Window, scheme.paper),
        (role.WindowText, scheme.ink),
        (role.Base, scheme.sheet),
        (role.AlternateBase, scheme.band),
        (role.Text, scheme.ink),
        (role.Button, scheme.band),
        (role.ButtonText, scheme.ink),
        (role.Highlight, scheme.chosen),
        (role.HighlightedText, scheme.chosen_ink),
        (role.ToolTipBase, scheme.sheet),
        (role.ToolTipText, scheme.ink),
        (role.PlaceholderText, scheme.faint),
        (role.Mid, scheme.rule),
        (role.Midlight, scheme.rule),
        (role.Dark, scheme.rule),
        (role.Light, scheme.sheet),
        (role.Link, scheme.chosen),
        (role.Accent, scheme.chosen),
    ):
        made.setColor(target, colour)
    for target in (role.WindowText, role.Text, role.ButtonText):
        made.setColor(QPalette.ColorGroup.Disabled, target, scheme.faint)
    return made


def large(base: QFont, times: float = 1.6) -> QFont:
    """A larger cut of a font, for what must be read at arm's length."""
    font = QFont(base)
    font.setPointSizeF(base.pointSizeF() * times)
    return font
