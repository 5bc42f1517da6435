"""Light and dark: the palette follows what the user chose, else the system, while the program runs."""

from __future__ import annotations

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication

from rebuild.window.ink import theme

#: What has a frame of the style's own.
FRAMED = (
    "QLineEdit", "QComboBox", "QAbstractSpinBox", "QTextEdit", "QPlainTextEdit", "QPushButton", "QToolButton",
    "QCheckBox", "QRadioButton", "QSlider",
)  # fmt: skip


class Scheme(QObject):
    """Puts ink and paper on the application, and again whenever the system changes its mind."""

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self._app = app
        app.setStyle("Fusion")
        self.apply()
        QGuiApplication.styleHints().colorSchemeChanged.connect(self._changed)

    def apply(self) -> None:
        """Set the palette of the scheme in force."""
        put_on(self._app)

    def _changed(self, _scheme: Qt.ColorScheme) -> None:
        self.apply()


def put_on(app: QApplication) -> None:
    """Set the palette of the scheme in force on an application."""
    scheme = theme.ink()
    app.setPalette(theme.palette(scheme))
    framed = theme.field_palette(scheme)
    for kind in FRAMED:
        app.setPalette(framed, kind)  # type: ignore[arg-type] # its stub wants bytes, it takes text


def choose(app: QApplication, look: theme.Look) -> None:
    """Take a look for the whole program at once; the window's own frame follows where the system lets it."""
    if look is theme.look():
        return
    theme.ask_for(look)
    QGuiApplication.styleHints().setColorScheme(_FOR_SYSTEM[look])
    put_on(app)


_FOR_SYSTEM = {
    theme.Look.SYSTEM: Qt.ColorScheme.Unknown,
    theme.Look.LIGHT: Qt.ColorScheme.Light,
    theme.Look.DARK: Qt.ColorScheme.Dark,
}
