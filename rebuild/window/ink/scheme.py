"""Light and dark: the palette follows the system while the program runs."""

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
        scheme = theme.ink()
        self._app.setPalette(theme.palette(scheme))
        framed = theme.field_palette(scheme)
        for kind in FRAMED:
            self._app.setPalette(framed, kind)  # type: ignore[arg-type] # its stub wants bytes, it takes text

    def _changed(self, _scheme: Qt.ColorScheme) -> None:
        self.apply()
