"""The head of a sheet: its part in large type, where it stands, what must be known, and what can be done."""

from __future__ import annotations

from functools import partial
from itertools import pairwise

from PySide6.QtCore import Signal
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from rebuild.errors import BadEntry, BrokenOrder, RebuildError, Stale
from rebuild.window.desk.desk import Desk
from rebuild.window.ink import theme
from rebuild.window.ink.shapes import ShapeMark
from rebuild.window.layout.elided_label import ElidedLabel
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.layout.wrapped_row import WrappedRow
from rebuild.window.making.lines import settled_words, warnings
from rebuild.window.making.paper_acts import (
    PAPER,
    ask_where,
    chosen_paper,
    print_sheet,
    print_story,
    write_drawing,
)
from rebuild.window.making.sheet_acts import ACTS, BEGIN, SheetAct
from rebuild.window.making.sheet_list import MARKS
from rebuild.words.making import PartShape
from rebuild.work.making.rows_sheet_lists import SheetPage


class SheetHead(QWidget):
    """Title, state, warnings, buttons."""

    done = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.page: SheetPage | None = None
        self._refused: SheetAct | None = None
        self.mark = ShapeMark(None, self, 16)
        self.title = ElidedLabel(self)
        self.title.setFont(theme.large(self.font(), 1.5))
        self.state = PlainLabel(self)
        self.about = ElidedLabel(self)
        self.about.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self.warning = PlainLabel(self)
        self.warning.setWordWrap(True)
        self.warning.setAccessibleName("What must be known before cutting")
        self.buttons = {act.words: QPushButton(act.words, self) for act in ACTS}
        self.print_button = QPushButton("Pr&int…", self)
        self.draw_button = QPushButton("Drawing as &DXF…", self)
        self.story_button = QPushButton("Stor&y…", self)
        self.paper = QComboBox(self)
        self.paper.addItems(["A4", "Letter"])
        self.paper.setAccessibleName("Paper")
        self._compose()
        self._wire()

    def _compose(self) -> None:
        top = QHBoxLayout()
        top.setSpacing(8)
        top.addWidget(self.title, 1)
        top.addWidget(self.mark)
        top.addWidget(self.state)
        row = WrappedRow(space=4)
        for act in ACTS:
            self.buttons[act.words].setToolTip(act.told)
            self.buttons[act.words].setAutoDefault(False)
        # What comes and goes with a mate's reading stands last, and the notices beneath: a button stays under the hand.
        passing = [self.buttons[act.words] for act in ACTS if act.when_stale or act.when_offered]
        lasting = [button for button in self.buttons.values() if button not in passing]
        whole = [*lasting, self.print_button, self.paper, self.draw_button, self.story_button, *passing]
        for widget in whole:
            row.addWidget(widget)
        for one, other in pairwise(whole):
            QWidget.setTabOrder(one, other)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addLayout(top)
        layout.addWidget(self.about)
        layout.addLayout(row)
        layout.addWidget(self.warning)

    def _wire(self) -> None:
        for act in ACTS:
            self.buttons[act.words].clicked.connect(partial(self._do, act))
        self.print_button.clicked.connect(lambda: self._ask("pdf", "making sheet"))
        self.draw_button.clicked.connect(lambda: self._ask("dxf", "drawing"))
        self.story_button.clicked.connect(lambda: self._ask("pdf", "story"))
        self.paper.activated.connect(
            lambda _at: self._desk.store.set_setting(PAPER, self.paper.currentText())
        )

    def show_page(self, page: SheetPage | None) -> None:
        """Show another sheet, or what has changed of it."""
        if page is None or self.page is None or page != self.page:
            self._refused = None
        self.page = page
        self.setVisible(page is not None)
        if page is None:
            return
        attempt = f", attempt {page.head.attempt}" if page.head.attempt > 1 else ""
        self.title.setText(f"{page.head.part}{attempt}")
        self.mark.show_shape(MARKS[page.course.state])
        self.state.setText(page.course.state.value + (", stale" if page.course.stale else ""))
        off = f"{page.head.quantity} off" if page.head.quantity != 1 else ""
        material = page.blank.material or "material to be named"
        told = (
            page.head.machine,
            page.head.subassembly,
            page.head.shape.value,
            material,
            page.blank.words,
            off,
        )
        self.about.setText(" · ".join(filter(None, told)))
        self._say(warnings(page) or settled_words(page))
        self.paper.setCurrentText(chosen_paper(self._desk))
        self._show_buttons(page)

    def _say(self, words: str) -> None:
        self.warning.setText("\n".join(f"▸ {line}" for line in words.split("\n")) if words else "")
        self.warning.setVisible(bool(words))

    def _show_buttons(self, page: SheetPage) -> None:
        fitting = {act.words: _fits(act, page) for act in ACTS}
        self._move_focus(fitting)
        for act in ACTS:
            button = self.buttons[act.words]
            button.setVisible(fitting[act.words])
            button.setText(act.held if act is self._refused and act.held else act.words)
        self.draw_button.setEnabled(page.drawing.drawn is not None)

    def _move_focus(self, fitting: dict[str, bool]) -> None:
        """Off a button that goes: to Begin or nowhere, else the next Space would press whatever stands beside it."""
        gone = next((b for words, b in self.buttons.items() if b.hasFocus() and not fitting[words]), None)
        if gone is None:
            return
        gone.clearFocus()
        if fitting[BEGIN]:
            self.buttons[BEGIN].show()
            self.buttons[BEGIN].setFocus()

    def _do(self, act: SheetAct) -> None:
        """Do one act; a refusal that may be overruled waits for a second press."""
        page = self.page
        if page is None:
            return
        try:
            found = act.do(self._desk, page, self, act is self._refused)
        except (Stale, BrokenOrder, BadEntry) as trouble:
            self._refused = act if act.held else None
            self._say(str(trouble))
            self._show_buttons(page)
        except RebuildError as trouble:
            self._say(str(trouble))
        else:
            self._refused = None
            self.done.emit(found)

    def _ask(self, ending: str, what: str) -> None:
        page, desk = self.page, self._desk
        if page is None:
            return
        write = {
            "making sheet": lambda target: print_sheet(desk, page, target),
            "drawing": lambda target: write_drawing(desk, page, target),
            "story": lambda target: print_story(desk, page.head.part_id, target),
        }[what]
        ask_where(desk, self, page, ending, what, write)


def _fits(act: SheetAct, page: SheetPage) -> bool:
    nut = page.head.shape is PartShape.NUT and bool(page.named.thread)
    stands = page.course.progress in act.at and (not act.when_stale or bool(page.course.stale))
    offered = page.offered is not None or not act.when_offered
    return stands and offered and (nut or not act.of_nut)
