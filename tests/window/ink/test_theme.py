"""Ink and paper: readable in both schemes, and the window follows the system while it runs."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QColor, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication

from rebuild.window.desk.memory import Memory
from rebuild.window.ink import theme
from rebuild.window.ink.scheme import Scheme
from rebuild.window.shell.frame import Frame

TEXT_CONTRAST = 4.5  # Source: WCAG 2.2, success criterion 1.4.3, level AA for text


def luminance(colour: QColor) -> float:
    """Source: WCAG 2.2, definition of relative luminance."""
    parts = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in (colour.redF(), colour.greenF(), colour.blueF())
    ]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def contrast(one: QColor, other: QColor) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_of_black_on_white_is_the_one_everybody_knows() -> None:
    # Source: WCAG 2.2: black on white is 21:1, the largest there is
    assert contrast(QColor("black"), QColor("white")) == pytest.approx(21.0)


@pytest.mark.parametrize("scheme", [theme.LIGHT, theme.DARK], ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["paper", "sheet", "band"])
@pytest.mark.parametrize("text", ["ink", "faint"])
def test_text_can_be_read_on_every_ground(scheme: theme.Ink, ground: str, text: str) -> None:
    assert contrast(getattr(scheme, text), getattr(scheme, ground)) >= TEXT_CONTRAST


@pytest.mark.parametrize("scheme", [theme.LIGHT, theme.DARK], ids=["light", "dark"])
def test_chosen_text_can_be_read(scheme: theme.Ink) -> None:
    # Large bold text would do with 3:1; the chosen line in a list is not large.
    assert contrast(scheme.chosen_ink, scheme.chosen) >= 4.0


def test_palette_takes_its_roles_from_the_scheme() -> None:
    made = theme.palette(theme.DARK)
    assert made.color(QPalette.ColorRole.Window) == theme.DARK.paper
    assert made.color(QPalette.ColorRole.Highlight) == theme.DARK.chosen
    assert made.color(QPalette.ColorGroup.Disabled, QPalette.ColorRole.Text) == theme.DARK.faint


def test_window_turns_dark_and_back_while_it_runs(
    frame: Frame, qapp: QApplication, monkeypatch: pytest.MonkeyPatch
) -> None:
    scheme = Scheme(qapp)
    hints = QGuiApplication.styleHints()
    assert qapp.palette().color(QPalette.ColorRole.Window) == theme.LIGHT.paper
    qapp.processEvents()
    light = frame.grab().toImage().pixelColor(4, frame.height() // 2)

    # The offscreen platform knows no scheme of its own, so what it would report is put in its place.
    monkeypatch.setattr(theme, "is_dark", lambda: True)
    hints.colorSchemeChanged.emit(Qt.ColorScheme.Dark)
    assert qapp.palette().color(QPalette.ColorRole.Window) == theme.DARK.paper
    qapp.processEvents()
    dark = frame.grab().toImage().pixelColor(4, frame.height() // 2)
    assert light.lightness() > 200 > 80 > dark.lightness()

    monkeypatch.undo()
    hints.colorSchemeChanged.emit(Qt.ColorScheme.Light)
    assert qapp.palette().color(QPalette.ColorRole.Window) == theme.LIGHT.paper
    scheme.deleteLater()


def test_light_dark_and_as_the_system_are_chosen_in_the_menu_and_kept(
    frame: Frame, qapp: QApplication
) -> None:
    def line(words: str) -> QAction:
        menu = next(one.menu() for one in frame.menuBar().actions() if one.text() == "&Show")
        inks = next(one.menu() for one in menu.actions() if one.text() == "Ink and paper")
        return next(one for one in inks.actions() if one.text() == f"Ink and paper {words}")

    assert line("as the system").isChecked()
    try:
        line("dark").trigger()
        assert qapp.palette().color(QPalette.ColorRole.Window) == theme.DARK.paper
        assert line("dark").isChecked()
        QGuiApplication.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Light)
        assert theme.is_dark(), "the system's light does not go over what was chosen"
        frame.remember()
        theme.ask_for(theme.Look.SYSTEM)
        Frame(frame.desk, Memory(frame.memory.folder / "window.ini")).close()
        assert theme.look() is theme.Look.DARK
    finally:
        line("as the system").trigger()
    assert qapp.palette().color(QPalette.ColorRole.Window) == theme.LIGHT.paper
