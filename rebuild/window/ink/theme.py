"""Ink and paper: the colours, line widths and fonts of the window, light and dark.

Drawn like a shop drawing: one ink, one paper, thin rules, one quiet accent for what is chosen.
State is never told by colour alone; it is a word plus a plain shape (``shapes.py``).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QGuiApplication, QPalette

#: How much darker the style draws a frame than its ground, and a ring than the accent.
_FRAME, _RING = 1.4, 1.25


@dataclass(frozen=True, slots=True)
class Ink:
    """The colours of one scheme."""

    paper: QColor  # window ground
    sheet: QColor  # lists, grids, entry fields
    band: QColor  # headers, alternate rows, tool bars
    ink: QColor  # text and outlines
    faint: QColor  # secondary text; still 4.5:1 on paper
    rule: QColor  # thin lines between rows, told apart without them
    edge: QColor  # edges of fields and boxes, hatching: 3:1 on every ground
    focus: QColor  # the ring round what the keys go to, and the ground of what is marked in a field
    focus_ink: QColor
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
    edge=QColor("#77756c"),
    focus=QColor("#2f5168"),
    focus_ink=QColor("#ffffff"),
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
    faint=QColor("#b0b7bc"),
    rule=QColor("#4b5760"),
    edge=QColor("#8b98a2"),
    focus=QColor("#8ab4cc"),
    focus_ink=QColor("#161b1f"),
    chosen=QColor("#426f8a"),
    chosen_ink=QColor("#ffffff"),
    zone=QColor("#48585f"),
    mark=QColor("#eab084"),
)


class Look(Enum):
    """Which scheme is asked for; the words stand in the menu."""

    SYSTEM = "as the system"
    LIGHT = "light"
    DARK = "dark"


_LOOK = "look"


def look() -> Look:
    """What the user asked for; as the system until something else was chosen."""
    app = QGuiApplication.instance()
    held = app.property(_LOOK) if app is not None else None
    return Look[held] if isinstance(held, str) else Look.SYSTEM


def ask_for(wanted: Look) -> None:
    """Hold a look for the whole program; ``scheme.choose`` also puts it on."""
    app = QGuiApplication.instance()
    if app is not None:
        app.setProperty(_LOOK, wanted.name)


def is_dark() -> bool:
    """Whether dark is asked for, by the user, else by the system."""
    asked = look()
    if asked is Look.SYSTEM:
        return QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark
    return asked is Look.DARK


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


def on_chosen(scheme: Ink) -> Ink:
    """The colours to draw in on the ground of what is chosen.

    >>> on_chosen(LIGHT).mark.name()
    '#ffffff'
    """
    one = scheme.chosen_ink
    deep = scheme.chosen.darker(150)
    return replace(scheme, sheet=scheme.chosen, ink=one, faint=one, rule=one, edge=one, mark=one, zone=deep)


def field_palette(scheme: Ink) -> QPalette:
    """A palette for what is typed into or pressed: its frame and its ring can be seen on every ground.

    The style draws a frame as the ground 1.4 times darker and the ring as the colour of what is chosen 1.25 times
    darker, which on a dark ground is no frame at all; so both are given that much lighter.
    """
    made = palette(scheme)
    made.setColor(QPalette.ColorRole.Window, lighter(scheme.edge, _FRAME))
    made.setColor(QPalette.ColorRole.Highlight, lighter(scheme.focus, _RING))
    made.setColor(QPalette.ColorRole.HighlightedText, scheme.focus_ink)
    return made


def lighter(colour: QColor, times: float) -> QColor:
    """The colour whose value is ``times`` that of ``colour``, as far as there is room."""
    made = QColor(colour)
    made.setHsvF(max(0.0, colour.hsvHueF()), colour.hsvSaturationF(), min(1.0, colour.valueF() * times))
    return made


def large(base: QFont, times: float = 1.6) -> QFont:
    """A larger cut of a font, for what must be read at arm's length."""
    font = QFont(base)
    font.setPointSizeF(base.pointSizeF() * times)
    return font
