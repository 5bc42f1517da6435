"""One unknown thing: its clues, the parts it may be with why, its photos, and what can become of it."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.schedule.graph import Ref
from rebuild.window.boxes.it_is import ItIs
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.layout.wrapped_row import WrappedRow
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.photos.attached import AttachedPhotos
from rebuild.words.parts import Identity
from rebuild.work.boxes.rows import ThingRow
from rebuild.work.boxes.rows_suspects import SuspectRow, suspects_of
from rebuild.work.editing.acts import remove
from rebuild.work.machines.rows_tree import machine_names
from rebuild.work.photos.about import About


class ThingPane(QWidget):
    """Everything about the thing chosen in the list."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._row: ThingRow | None = None
        self._suspects: dict[int, SuspectRow] = {}
        self.heading = PlainLabel(self)
        self.machine = QComboBox(self)
        self.clues = PlainTable("Seen on it", ("Seen on it",), self)
        self.clue = QLineEdit(self)
        self.suspects = PlainTable("It may be", ("It may be", "Machine", "Why"), self)
        self.it_is = ItIs(desk, self)
        self.photos = AttachedPhotos(desk, "part", "Photos", self, about=self._about)
        self.went_to = QLineEdit(self)
        self.buttons: dict[str, QPushButton] = {}
        self.trouble = PaneTrouble(desk, [self.clue, self.went_to, self.machine], self)
        self._lay_out()
        self._wire()

    def _about(self) -> About | None:
        """What is added here is of this thing, whatever was in hand when it was taken."""
        return About(part_id=self._row.part_id) if self._row is not None else None

    def _lay_out(self) -> None:
        self.heading.setWordWrap(True)
        self.machine.setAccessibleName("Of machine")
        self.clue.setAccessibleName("Clue")
        self.clue.setPlaceholderText("One thing more, then Enter: bore 24.98, M10 x 1.5, MT 3, stamped 418")
        self.went_to.setAccessibleName("Went to")
        self.went_to.setPlaceholderText("not ours: where it went")
        row = self.clues.verticalHeader().defaultSectionSize()
        self.clues.setFixedHeight(4 * row + self.clues.horizontalHeader().sizeHint().height() + 4)
        self.suspects.when_empty(
            "No part answers to what is seen. More clues may tell; if you know it, name it below."
        )
        acts: tuple[tuple[str, str, Callable[[], object], str], ...] = (
            ("suspect", "May be it", self.suspect, "Note the chosen part as what it may be"),
            (
                "is",
                "It is that part",
                self.merge,
                "All that is known of it goes to the chosen part; undo parts them",
            ),
            ("go", "Look at the part", self.look, "Turn to the chosen part"),
            ("ask", "Ask…", self.ask, "A question about it, with its sizes and photos to be sent"),
        )
        choices = WrappedRow()
        for key, words, act, told in acts:
            choices.addWidget(self._button(key, words, act, told))
        top = QHBoxLayout()
        top.addWidget(self.heading, 1)
        top.addWidget(PlainLabel("Of", self))
        top.addWidget(self.machine)
        away = QHBoxLayout()
        away.addWidget(self.went_to, 1)
        away.addWidget(self._button("away", "Not ours", self.not_ours, "It belongs to no machine here"))
        away.addWidget(self._button("off", "Remove clue", self.remove_clue, "Take the chosen clue away"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(top)
        layout.addWidget(self.clues)
        layout.addWidget(self.clue)
        layout.addWidget(self.suspects, 1)
        layout.addLayout(choices)
        layout.addWidget(self.it_is)
        layout.addLayout(away)
        layout.addWidget(self.trouble)
        layout.addWidget(self.photos)

    def _button(self, key: str, words: str, act: Callable[[], object], told: str) -> QPushButton:
        button = QPushButton(words, self)
        button.setAutoDefault(False)
        button.setToolTip(told)
        button.clicked.connect(lambda _checked=False: act())
        self.buttons[key] = button
        return button

    def _wire(self) -> None:
        self.clue.returnPressed.connect(self.add_clue)
        self.went_to.returnPressed.connect(self.not_ours)
        self.machine.activated.connect(lambda _at: self.of_machine())
        self.clues.selectionModel().selectionChanged.connect(lambda _new, _old: self._enable())
        self.suspects.selectionModel().selectionChanged.connect(lambda _new, _old: self._enable())
        self.suspects.activated.connect(lambda _index: self.look())

    def show_thing(self, row: ThingRow | None) -> None:
        """Show another thing, or none; what is typed for it stays with it."""
        if (row and row.part_id) != (self._row and self._row.part_id):
            self.clue.clear()
            self.went_to.setText(row.went_to if row else "")
        self._row = row
        self.setEnabled(row is not None)
        came = f", came in {row.came_in}" if row and row.came_in else ""
        lies = f", lies in {row.place}" if row and row.place else ""
        self.heading.setText(f"{row.called}{came}{lies}" if row else "Nothing chosen")
        self.clues.plain.fill([(one.id, (one.words,)) for one in row.clues] if row else [])
        found: list[SuspectRow] = []
        self.machine.clear()
        if row is not None and self._desk.is_open:
            with self._desk.store.read() as connection:
                found = suspects_of(connection, row.part_id)
                for key, name in machine_names(connection).items():
                    self.machine.addItem(name, key)
            self.machine.setCurrentIndex(self.machine.findData(row.machine_id))
        self._suspects = {one.part_id: one for one in found}
        self.suspects.plain.fill([(one.part_id, (one.called, one.machine, one.why)) for one in found])
        self.it_is.show_thing(row.part_id if row is not None else None)
        ours = row is not None and row.machine_id == self._desk.machine_id
        self.photos.show_row(row.part_id if row is not None and ours else None)
        self._enable()

    def _enable(self) -> None:
        suspect = self.suspects.chosen() is not None
        for key in ("suspect", "is", "go"):
            self.buttons[key].setEnabled(suspect)
        self.buttons["off"].setEnabled(self.clues.chosen() is not None)
        self.buttons["away"].setEnabled(self._row is not None and self._row.identity is not Identity.NOT_OURS)

    # Acting

    def _try(self, act: Callable[[ThingRow], object]) -> object:
        """Do an act on the thing; a sentence of trouble stands under the fields, and what was typed stays."""
        row = self._row
        if row is None:
            return None
        try:
            done = act(row)
        except RebuildError as trouble:
            self.trouble.tell(trouble)
            return None
        self._desk.went_well.emit()
        return done

    def add_clue(self) -> None:
        """Note what stands in the line."""
        from rebuild.work.boxes.acts import add_clue

        typed = self.clue.text()
        if self._try(lambda row: add_clue(self._desk.store, row.part_id, typed)) is not None:
            self.clue.clear()

    def remove_clue(self) -> None:
        """Take the chosen clue away."""
        key = self.clues.chosen()
        if key is not None:
            self._try(lambda _row: remove(self._desk.store, "clue", [key]))

    def of_machine(self) -> None:
        """The thing is of the machine chosen."""
        from rebuild.work.boxes.acts import of_machine

        key = self.machine.currentData()
        if isinstance(key, int):
            self._try(lambda row: of_machine(self._desk.store, row.part_id, key))
            row = self._row
            self.machine.setCurrentIndex(self.machine.findData(row.machine_id if row else None))

    def suspect(self) -> None:
        """It may be the chosen part."""
        from rebuild.work.boxes.acts import suspect

        key = self.suspects.chosen()
        if key is not None:
            self._try(lambda row: suspect(self._desk.store, row.part_id, key))

    def merge(self) -> None:
        """It is the chosen part."""
        key = self.suspects.chosen()
        if key is not None:
            self.it_is.merge(key)

    def not_ours(self) -> None:
        """It belongs to no machine here."""
        from rebuild.work.boxes.acts import not_ours

        words = self.went_to.text()
        self._try(lambda row: not_ours(self._desk.store, row.part_id, words))

    def look(self) -> None:
        """Turn to the chosen part."""
        one = self._suspects.get(self.suspects.chosen() or 0)
        if one is not None:
            self._desk.choose_machine(one.machine_id)
            self._desk.choose(subassembly_id=None)
            follow(self._desk, Ref("part", one.part_id))

    def ask(self) -> None:
        """Turn to the questions with the thing chosen: a new one will be about it."""
        row = self._row
        if row is not None:
            self._desk.choose_machine(row.machine_id)
            self._desk.choose(part_ids=(row.part_id,), key=None)
            self._desk.page_asked.emit("questions")
