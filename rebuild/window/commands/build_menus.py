"""Menus made from the tables: actions, pages, recent files, units."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu

from rebuild.window.commands.also_said import ALSO, OF_ACTS, OF_PAGES
from rebuild.window.commands.groups import GROUPS, group_of
from rebuild.window.commands.menu_lines import ACTIONS, MENUS, ActionRow
from rebuild.window.commands.pages import Page
from rebuild.window.desk.desk import ShowUnit
from rebuild.window.ink import theme
from rebuild.window.layout.plain import plain_tip

if TYPE_CHECKING:
    from rebuild.window.shell.frame import Frame

_LOOK_HELP = {
    theme.Look.SYSTEM: "Light or dark, whichever the system asks for; remembered",
    theme.Look.LIGHT: "Dark ink on light paper, whatever the system asks for; remembered",
    theme.Look.DARK: "Light ink on dark paper, whatever the system asks for; remembered",
}


class Menus(QObject):
    """The menu bar of the frame; lines are grey while what they need is missing."""

    def __init__(self, frame: Frame, handlers: Mapping[str, Callable[[], object]]) -> None:
        super().__init__(frame)
        self._frame = frame
        self._actions: dict[str, QAction] = {}
        self._pages: list[QAction] = []
        self._units: dict[ShowUnit, QAction] = {}
        self._looks: dict[theme.Look, QAction] = {}
        bar = frame.menuBar()
        bar.setAccessibleName("Menus")
        self._menus = {name: bar.addMenu(name) for name in MENUS}
        for name, menu in self._menus.items():
            menu.setAccessibleName(name.replace("&", ""))
            menu.setToolTipsVisible(True)
        for row in ACTIONS:
            self._add(self._menus[row.menu], row, handlers)
        self._add_pages(self._menus["&Show"])
        self._add_units(self._menus["&Show"])
        self._add_looks(self._menus["&Show"])
        self._recent = QMenu("Open &recent", frame)
        self._recent.setAccessibleName("Open recent")
        self._menus["&File"].insertMenu(self._actions["try_demo"], self._recent)
        self._recent.aboutToShow.connect(self._fill_recent)
        desk = frame.desk
        for signal in (desk.opened, desk.closed, desk.machine_changed, desk.selection_changed):
            signal.connect(self._enable)
        desk.undo_changed.connect(self._name_undo)
        desk.closed.connect(self._name_undo)
        self._enable()
        self._name_undo()

    def action(self, key: str) -> QAction:
        """The action of one key."""
        return self._actions[key]

    def _add(self, menu: QMenu, row: ActionRow, handlers: Mapping[str, Callable[[], object]]) -> None:
        if not row.key:
            menu.addSeparator()
            return
        action = menu.addAction(row.text)
        action.setObjectName(row.key)
        action.setProperty(ALSO, OF_ACTS.get(row.key, ""))
        if row.keys:
            action.setShortcut(QKeySequence(row.keys))
        action.setToolTip(row.help or row.text.replace("&", ""))
        action.setStatusTip(row.help)
        handler = handlers[row.key]
        action.triggered.connect(lambda _checked=False: handler())
        self._frame.addAction(action)
        self._actions[row.key] = action

    def _add_pages(self, menu: QMenu) -> None:
        """A menu a group: its key first, which goes round its pages, then each page."""
        chooser = self._frame.header.pages
        menu.addSeparator()
        for group in GROUPS:
            under = self._under(menu, group.name)
            action = under.addAction(group.name)
            action.setToolTip(group.help)
            action.setShortcut(QKeySequence(group.keys))
            action.triggered.connect(lambda _checked=False, key=group.key: chooser.ask_group(key))
            self._frame.addAction(action)
            self._pages.append(action)
            under.addSeparator()
            for page in self._frame.pages:
                if group_of(page.key) == group:
                    self._add_page(under, page)

    def _add_page(self, menu: QMenu, page: Page) -> None:
        action = menu.addAction(f"{group_of(page.key).name}: {page.name}")
        action.setToolTip(page.help)
        action.setProperty(ALSO, OF_PAGES.get(page.key, ""))
        action.triggered.connect(lambda _checked=False, key=page.key: self._frame.show_page(key))
        self._pages.append(action)

    @staticmethod
    def _under(menu: QMenu, name: str) -> QMenu:
        """A menu under a line of another."""
        under = menu.addMenu(name)
        under.setAccessibleName(name)
        under.setToolTipsVisible(True)
        return under

    def _add_units(self, menu: QMenu) -> None:
        menu.addSeparator()
        menu = self._under(menu, "Lengths")
        group = QActionGroup(self)
        desk = self._frame.desk
        for unit in ShowUnit:
            action = menu.addAction(f"Lengths {unit.value}")
            action.setCheckable(True)
            action.setChecked(unit is desk.show_unit)
            action.triggered.connect(lambda _checked=False, chosen=unit: desk.choose_unit(chosen))
            group.addAction(action)
            self._units[unit] = action
        desk.unit_changed.connect(self._check_unit)

    def _add_looks(self, menu: QMenu) -> None:
        menu = self._under(menu, "Ink and paper")
        group = QActionGroup(self)
        for look in theme.Look:
            action = menu.addAction(f"Ink and paper {look.value}")
            action.setToolTip(_LOOK_HELP[look])
            action.setCheckable(True)
            action.triggered.connect(lambda _checked=False, chosen=look: self._frame.choose_look(chosen))
            group.addAction(action)
            self._looks[look] = action
        menu.aboutToShow.connect(self.check_look)
        self.check_look()

    def check_look(self) -> None:
        """Tick the look in force; another window of the program may have chosen it."""
        self._looks[theme.look()].setChecked(True)

    def _check_unit(self) -> None:
        self._units[self._frame.desk.show_unit].setChecked(True)

    def _fill_recent(self) -> None:
        self._recent.clear()
        for path in self._frame.memory.recent():
            action = self._recent.addAction(path.name)
            action.setToolTip(plain_tip(str(path)))
            action.triggered.connect(lambda _checked=False, chosen=path: self._frame.files.open(chosen))
        if self._recent.isEmpty():
            self._recent.addAction("nothing opened before").setEnabled(False)

    def _enable(self) -> None:
        desk = self._frame.desk
        for row in ACTIONS:
            if row.key not in ("", "undo", "redo"):
                self._actions[row.key].setEnabled(row.needs.met(desk))
        for action in self._pages:
            action.setEnabled(desk.is_open)

    def _name_undo(self) -> None:
        desk = self._frame.desk
        for key, word in (("undo", "Undo"), ("redo", "Redo")):
            label = None
            if desk.is_open:
                label = desk.store.undo_label() if key == "undo" else desk.store.redo_label()
            action = self._actions[key]
            action.setEnabled(label is not None)
            shown = label if label is None or len(label) <= 60 else f"{label[:57]}…"
            action.setText(f"&{word} {shown.replace('&', '&&')}" if shown else f"&{word}")
            action.setToolTip(plain_tip(f"{word} {label}") if label else f"Nothing to {word.lower()}")
