"""The sizes of a sheet, and the line their limits are typed into."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtGui import QIcon, QResizeEvent
from PySide6.QtWidgets import QComboBox, QPushButton, QVBoxLayout, QWidget

from rebuild.errors import Ambiguous, Implausible, RebuildError
from rebuild.trade.limits.spec_parts import WAYS_TO_TYPE
from rebuild.trade.making.roles import roles
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.forms.editors import ValueEditor
from rebuild.window.ink.shapes import shape_icon
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.layout.wrapped_row import WrappedRow
from rebuild.window.lists.plain_table import AnyIndex, PlainModel, PlainTable
from rebuild.window.lists.wrapping_delegate import row_height
from rebuild.window.making.lines import SIZE_COLUMNS, VERDICT_SHAPES, about_size, size_line
from rebuild.work.editing.acts import remove
from rebuild.work.making.acts_sizes import add_size, set_size
from rebuild.work.making.rows_as_made import worst
from rebuild.work.making.rows_sheet_lists import SheetPage, SizeRow

_VERDICT = SIZE_COLUMNS.index("Verdict")

#: Lines of the list that stand before what is said of one size.
LEAST_ROWS = 5


class SizesModel(PlainModel):
    """Strings with the verdict's shape beside its word."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(SIZE_COLUMNS, parent)
        self.icons: dict[int, QIcon] = {}

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if role == Qt.ItemDataRole.DecorationRole and index.column() == _VERDICT:
            return self.icons.get(self.ids[index.row()])
        return super().data(index, role)


class LimitsEditor(ValueEditor):
    """The limits of one size; ``stored`` is what the sheet has, so that only another text is half typed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.stored = ""

    def put(self, text: str) -> None:
        """Show the stored limits."""
        self.stored = text
        super().put(text)

    @property
    def unsaved(self) -> bool:
        """Whether what stands here is stored nowhere yet."""
        return self.text().strip() != self.stored.strip()


class SizesPane(QWidget):
    """The table of sizes; the chosen one's limits stand in the line beneath, ready to be typed anew."""

    chosen = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._page: SheetPage | None = None
        self._held = ""
        self._by_enter = False
        # Given at once: a model set later is not the one the columns are fitted to.
        self.table = PlainTable("Sizes of the sheet", SIZE_COLUMNS, self, model=SizesModel(self))
        self.name = PlainLabel(self)
        self.limits = LimitsEditor(self)
        self.limits.setAccessibleName("Limits of the chosen size")
        self.limits.setToolTip(f"{WAYS_TO_TYPE} Empty takes the worked-out limits again.")
        self.more = QComboBox(self)
        self.more.setAccessibleName("One more size")
        self.more.setEditable(True)
        self.more.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.add_button = QPushButton("Add size", self)
        self.remove_button = QPushButton("Remove size", self)
        self.working_button = QPushButton("Wor&king", self)
        self.about = PlainLabel(self)
        self.about.setWordWrap(True)
        self.about.setAccessibleName("About the chosen size")
        self.trouble = PaneTrouble(desk, (self.limits,), self)
        self._compose()
        self._wire()

    def _compose(self) -> None:
        line = self._line = WrappedRow((self.limits,))
        self.name.setBuddy(self.limits)
        line.addWidget(self.name)
        line.addWidget(self.limits)
        for widget in (self.working_button, self.more, self.add_button, self.remove_button):
            line.addWidget(widget)
        for button in (self.working_button, self.add_button, self.remove_button):
            button.setAutoDefault(False)
        self.more.setMinimumContentsLength(14)
        # Room for a sentence is kept: the line typed into does not move when one comes.
        keeps = self.trouble.sizePolicy()
        keeps.setRetainSizeWhenHidden(True)
        self.trouble.setSizePolicy(keeps)
        self.trouble.setMinimumHeight(2 * self.fontMetrics().lineSpacing())
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.about)
        layout.addLayout(line)
        layout.addWidget(self.trouble)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        """In a large type what is said of a size is told on hover only, before it leaves one row of the list."""
        below = self._line.sizeHint().height() + self.about.heightForWidth(self.width())
        rows = self.height() - below - self.table.horizontalHeader().sizeHint().height()
        self.about.setVisible(rows >= LEAST_ROWS * row_height(self.fontMetrics()))

    def _wire(self) -> None:
        self.table.selectionModel().currentRowChanged.connect(self._current)
        self.table.clicked.connect(lambda _index: self.chosen.emit(self.chosen_size))
        self.table.activated.connect(lambda _index: self.limits.setFocus())
        self.limits.returnPressed.connect(self._enter)
        self.limits.settled.connect(self._settled)
        self.add_button.clicked.connect(self._add)
        self.remove_button.clicked.connect(self._remove)
        self.working_button.clicked.connect(self._show_working)

    @property
    def chosen_size(self) -> SizeRow | None:
        """The chosen size."""
        key = self._key
        return next((size for size in self._sizes if size.id == key), None)

    @property
    def _key(self) -> int | None:
        """The current row's id: it changes before the selection does."""
        row, ids = self.table.currentIndex().row(), self.table.plain.ids
        return ids[row] if 0 <= row < len(ids) else None

    @property
    def _sizes(self) -> tuple[SizeRow, ...]:
        return self._page.sizes if self._page is not None else ()

    def show_page(self, page: SheetPage | None) -> None:
        """Show the sizes of a sheet, the chosen row kept; what is being typed stays."""
        same = page is not None and self._page is not None and page.id == self._page.id
        key = self._key if same else None
        if not same:
            self._say(None)
        self._page = page
        assert isinstance(self.table.plain, SizesModel)
        self.table.plain.icons = {
            size.id: shape_icon(VERDICT_SHAPES[value.verdict])
            for size in self._sizes
            if (value := worst(size.made)) is not None
        }
        self.table.plain.fill([(size.id, size_line(size)) for size in self._sizes])
        if key is None and self._sizes:
            key = self._sizes[0].id
        if key is not None:
            self.table.choose(key)
        self._offer()
        self._show_limits()
        changes = page is not None and not page.course.settled
        for widget in (self.limits, self.more, self.add_button, self.remove_button):
            widget.setEnabled(changes)

    def choose_feature(self, feature_id: int) -> None:
        """Choose the size whose values land on a feature."""
        for size in self._sizes:
            if size.feature_id == feature_id and size.id != self._key:
                self.table.choose(size.id)

    def _offer(self) -> None:
        held = {size.role for size in self._sizes}
        names = [
            role.name
            for role in roles(self._page.head.shape.value if self._page else "")
            if role.name not in held
        ]
        if [self.more.itemText(at) for at in range(self.more.count())] != names:
            self.more.clear()
            self.more.addItems(names)
            self.more.setCurrentIndex(-1)

    def _current(self, current: QModelIndex) -> None:
        self._say(None)
        self._show_limits()
        self.chosen.emit(self.chosen_size)

    def _show_limits(self) -> None:
        size = self.chosen_size
        if self.trouble.isVisible() and self.limits.hasFocus():
            return
        self.name.setText(size.name if size is not None else "")
        self.about.setText(about_size(size) if size is not None else "")
        self.name.setToolTip(plain_tip(self.about.text()))
        self._make_room()
        self.limits.put(size.typed if size is not None else "")
        self.working_button.setEnabled(size is not None and size.working is not None)

    def commit(self) -> None:
        """Store the limits as typed; an odd size is held and taken at the second Enter."""
        size, text = self.chosen_size, self.limits.typed()
        if size is None or text.strip() == size.typed.strip() or not self.limits.isEnabled():
            self._say(None)
            return
        try:
            set_size(self._desk.store, size.id, text, confirmed=text == self._held)
        except RebuildError as trouble:
            self._held = text if isinstance(trouble, Implausible) else ""
            self._say(trouble)
            return
        self._held = ""
        self._say(None)

    def _enter(self) -> None:
        self._by_enter = True  # the editor settles right after

    def _settled(self) -> None:
        """After Enter the next size without limits is in hand, else this one's stand to be typed over."""
        by_enter, self._by_enter = self._by_enter, False
        self.commit()
        if not by_enter or self.trouble.isVisible() or not self.limits.isEnabled():
            return
        at = self.table.currentIndex().row()
        later = [*self._sizes[at + 1 :], *self._sizes[:at]]
        open_one = next((size for size in later if not size.measure.given), None)
        if open_one is not None:
            self.table.choose(open_one.id)
        self.limits.setFocus()
        self.limits.selectAll()

    def _say(self, trouble: RebuildError | None) -> None:
        if trouble is None:
            self.trouble.end()
        else:
            self.trouble.tell(f"{trouble} Type it out." if isinstance(trouble, Ambiguous) else trouble)

    def _add(self) -> None:
        page, name = self._page, self.more.currentText().strip()
        if page is None or not name:
            return
        made = self._desk.attempt(lambda: add_size(self._desk.store, page.id, name))
        if made is not None:
            self.table.choose(made)
            self.limits.setFocus()

    def _remove(self) -> None:
        size = self.chosen_size
        if size is not None:
            self._desk.attempt(
                lambda: remove(self._desk.store, "making_dimension", [size.id]),
                f"{size.name} is off the sheet; Ctrl+Z brings it back.",
            )

    def _show_working(self) -> None:
        size = self.chosen_size
        if size is not None and size.working is not None:
            self._desk.ask_working(size.working)
