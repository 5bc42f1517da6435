"""Where an answer may go: a list of places, and the spec it becomes there."""

from __future__ import annotations

from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QPushButton, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.question_pack.rows_filing import FilingRow, filings


class FilingLine(QWidget):
    """Places for the answer to one question; ``button`` answers and files at once."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._filings: list[FilingRow] = []
        self.filing = QComboBox()
        self.filing.setAccessibleName("File to")
        self.spec = QLineEdit()
        self.spec.setAccessibleName("Spec")
        self.spec.setPlaceholderText("as a spec: 25 H7")
        self.button = QPushButton("Answer and file")
        self.button.setToolTip("Store the answer, and put it where it is wanted; one undo takes both back")
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.addWidget(PlainLabel("File to"))
        line.addWidget(self.filing, 3)
        line.addWidget(self.spec, 1)
        line.addWidget(self.button)
        self.filing.currentIndexChanged.connect(lambda _at: self._say())

    def offer(self, question_id: int | None) -> None:
        """Where the answer to a question may go; what was chosen stays chosen."""
        here, found = self.filing.currentText(), []
        if question_id is not None and self._desk.is_open:
            with self._desk.store.read() as connection:
                found = filings(connection, question_id)
        self._filings = found
        self.filing.clear()
        self.filing.addItems([one.words for one in found])
        self.filing.setCurrentIndex(max(0, self.filing.findText(here)) if found else -1)
        self._say()
        for control in (self.filing, self.button):
            control.setEnabled(question_id is not None)

    @property
    def chosen(self) -> FilingRow | None:
        """The place chosen."""
        at = self.filing.currentIndex()
        return self._filings[at] if 0 <= at < len(self._filings) else None

    @property
    def typed_spec(self) -> str:
        """The spec typed, where one goes."""
        return self.spec.text() if self.spec.isVisibleTo(self) else ""

    def _say(self) -> None:
        """A spec is typed only where one goes."""
        one = self.chosen
        self.spec.setVisible(one is not None and one.filing.record == "feature")
        if one is not None and one.spec:
            self.spec.setPlaceholderText(f"as a spec; now {one.spec}")
