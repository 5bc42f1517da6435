"""A second teardown beside the last refit: links that were never written down, and what differs."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.words.steps import LinkAnswer
from rebuild.work.refit import acts_missed_links as proposals
from rebuild.work.teardown.rows_second_teardown import Proposal, SecondTeardown, second_teardown


class SecondPane(QWidget):
    """What this attempt's teardown teaches about the last refit."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._found: SecondTeardown | None = None
        self._open: list[Proposal] = []
        self.heading = PlainLabel(self)
        self.proposals = PlainTable("Proposed links", ("Goes on first", "Then", "Why", "Answer"), self)
        self.differences = PlainTable("What differs", ("Part", "What", "Last time", "This time"), self)
        self.accept_button = QPushButton("&Accept the link", self)
        self.decline_button = QPushButton("&No constraint", self)
        self._compose()
        self.accept_button.clicked.connect(self.accept)
        self.decline_button.clicked.connect(self.decline)
        self.proposals.activated.connect(self.accept)

    def _compose(self) -> None:
        self.heading.setWordWrap(True)
        buttons = QHBoxLayout()
        buttons.addWidget(self.accept_button)
        buttons.addWidget(self.decline_button)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.heading)
        layout.addWidget(self.proposals, 3)
        layout.addLayout(buttons)
        layout.addWidget(self.differences, 2)

    def show_attempt(self, attempt_id: int | None) -> None:
        """Compare an attempt with the one before it."""
        self._found = None
        if attempt_id is not None and self._desk.is_open:
            with self._desk.store.read() as connection:
                self._found = second_teardown(connection, attempt_id)
        found = self._found
        self.setEnabled(found is not None)
        self.heading.setText(_heading(found))
        self._open = list(found.proposals) if found else []
        self.proposals.plain.fill(
            [
                (at, (one.before, one.after, one.reason, one.answer.value if one.answer else "asked"))
                for at, one in enumerate(self._open)
            ]
        )
        self.differences.plain.fill(_differences(found) if found else [])
        if self._open and self.proposals.chosen() is None:
            self.proposals.selectRow(0)

    def accept(self) -> None:
        """Write the chosen link down."""
        one = self._chosen()
        if one is not None and one.answer is not LinkAnswer.ACCEPTED:
            self._desk.attempt(
                lambda: proposals.accept(self._desk.store, one.before_id, one.after_id, one.reason),
                f"Written down: {one.before} before {one.after}.",
            )

    def decline(self) -> None:
        """Say that the chosen link is none."""
        one = self._chosen()
        if one is not None and one.answer is None:
            self._desk.attempt(lambda: proposals.decline(self._desk.store, one.before_id, one.after_id))

    def _chosen(self) -> Proposal | None:
        at = self.proposals.chosen()
        return self._open[at] if at is not None and at < len(self._open) else None


def _heading(found: SecondTeardown | None) -> str:
    if found is None:
        return "Nothing to compare with: this is the first attempt."
    last = found.last
    words = f"Attempt {found.attempt.number} taken down, beside the refit of attempt {last.number}"
    if last.stopped_by:
        words += f"\nWhat stopped attempt {last.number}: {last.stopped_by}"
    if last.changed:
        words += f"\nChanged since: {last.changed}"
    if not found.proposals:
        words += "\nEvery order agrees with the last refit."
    return words


def _differences(found: SecondTeardown) -> list[tuple[int, tuple[str, ...]]]:
    rows = [(one.part, one.what, one.before, one.now) for one in found.differences]
    rows += [(name, "put on last time", "on", "did not come off") for name in found.missing]
    rows += [(name, "came off now", "was not put on", "off") for name in found.new]
    return list(enumerate(rows))
