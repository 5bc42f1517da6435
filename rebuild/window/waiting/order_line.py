"""Something to be ordered: typed once, looked for in stock first, and only then put on the list."""

from __future__ import annotations

from PySide6.QtCore import QStringListModel, Qt, QTimer, Signal
from PySide6.QtWidgets import QComboBox, QCompleter, QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.words.waiting import WaitingKind
from rebuild.work.waiting import acts as waiting
from rebuild.work.waiting.rows import part_title, parts_called, still_to_buy
from rebuild.work.waiting.rows_have_it import Found, already_have

_LINES = 3
_LOOK_AFTER_MS = 120


class OrderLine(QWidget):
    """Type what is wanted; what the shop already has shows beneath. A second Enter orders all the same.

    It is for the part called exactly so by its code or name, and for none else: which part was in hand last says
    nothing of what is ordered. Parts to be bought and not yet ordered are offered while typing.
    """

    added = Signal(int)
    found_asked = Signal(str, int)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._found: list[Found] = []
        self._looked_for = ""
        self._warned = self._asked = ""
        self.kind = QComboBox(self)
        self.line = QLineEdit(self)
        self.said = PlainLabel(self)
        self._to_buy = QStringListModel(self)
        completer = QCompleter(self._to_buy, self)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self.line.setCompleter(completer)
        self.found = PlainTable(
            "Already in the shop", ("Already in the shop", "Where", "Why it may serve"), self
        )
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(_LOOK_AFTER_MS)
        self._compose()
        self._soon.timeout.connect(self.look)
        self.line.textEdited.connect(lambda _text: self._soon.start())
        self.line.returnPressed.connect(self.add)
        self.found.activated.connect(self._go)

    def _compose(self) -> None:
        self.kind.setAccessibleName("Kind")
        for kind in WaitingKind:
            self.kind.addItem(kind.value, kind)
        self.line.setAccessibleName("What to order")
        self.line.setPlaceholderText(
            "What to order: taper pins no. 4; bar SAE 660 1-1/8 in; grinding of a shaft"
        )
        self.said.setWordWrap(True)
        row = self.found.verticalHeader().defaultSectionSize()
        self.found.setFixedHeight(row * _LINES + self.found.horizontalHeader().sizeHint().height() + 4)
        top = QHBoxLayout()
        top.addWidget(self.kind)
        top.addWidget(self.line, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addLayout(top)
        layout.addWidget(self.found)
        layout.addWidget(self.said)
        self.found.hide()
        self.said.hide()

    def offer_buys(self) -> None:
        """Read again which parts are to be bought and not ordered yet."""
        machine, names = self._desk.machine_id, list[str]()
        if self._desk.is_open and machine is not None:
            with self._desk.store.read() as connection:
                names = still_to_buy(connection, machine)
        self._to_buy.setStringList(names)

    @property
    def buys(self) -> list[str]:
        """The parts offered."""
        return self._to_buy.stringList()

    def order_part(self, part_id: int) -> None:
        """Fill in a part to be ordered, see ``order_text``."""
        with self._desk.store.read() as connection:
            title = part_title(connection, part_id)
        self.order_text(title)

    def order_text(self, title: str) -> None:
        """Fill in what is to be ordered, look whether the shop has it, and take the keyboard.

        What was typed and not stored stays, and is said.
        """
        typed = self.line.text().strip()
        self.kind.setCurrentIndex(self.kind.findData(WaitingKind.ORDER))
        if typed and typed != title:
            self.line.setFocus()
            self._say(f"▸ “{typed}” is still typed here: Enter stores it, then come back for {title}.")
            return
        # Filled before the keyboard comes: nobody has typed it, and it is not kept as half typed.
        self.line.setText(title)
        self.line.setFocus()
        self.look()

    def look(self) -> None:
        """Look whether the shop already has it."""
        self._soon.stop()
        text = self.line.text().strip()
        self._looked_for = text
        self._found = []
        if len(text) > 2 and self._desk.is_open:
            with self._desk.store.read() as connection:
                self._found = already_have(connection, text)
        self.found.plain.fill([(at, (one.what, one.where, one.why)) for at, one in enumerate(self._found)])
        self.found.setVisible(bool(self._found))
        if not self._found:
            self._say("")

    def add(self) -> None:
        """Put it on the list; when something like it is there, ask once more first."""
        text, machine = self.line.text().strip(), self._desk.machine_id
        if not text or machine is None:
            return
        if self._looked_for != text:
            self.look()
        if self._found and self._warned != text:
            self._warned = text
            first = self._found[0]
            self._say(
                f"▸ Already have it? {first.what}: {first.where}. Enter once more orders it all the same."
            )
            return
        with self._desk.store.read() as connection:
            named = parts_called(connection, machine, text)
        if len(named) > 1 and self._asked != text:
            self._asked = text
            which = " or ".join(title for _key, title in named)
            self._say(
                f"▸ Which one: {which}? Type its code. Enter once more stores “{text}” for none of them."
            )
            return
        part = named[0][0] if len(named) == 1 else None
        kind = WaitingKind(self.kind.currentData())
        made = self._desk.attempt(
            lambda: waiting.add_waiting(
                self._desk.store,
                machine,
                text,
                kind,
                subassembly_id=self._desk.selection.subassembly_id if part is None else None,
                part_id=part,
            )
        )
        if made is not None:
            self.line.clear()
            self._warned = self._asked = ""
            self.look()
            self.added.emit(made)
            whose = f"for {named[0][1]}" if part is not None else "for no part; name one in its form"
            self._desk.say(f"On the list: {text}, {whose}.")

    def _say(self, sentence: str) -> None:
        self.said.setText(sentence)
        self.said.setVisible(bool(sentence))

    def _go(self) -> None:
        at = self.found.chosen()
        if at is not None:
            self.found_asked.emit(self._found[at].record, self._found[at].id)
