"""The pane: a filter box over the tree, kept in step with the file and with what is chosen."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPoint, Qt, QTimer
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QLineEdit, QMenu, QVBoxLayout, QWidget

from rebuild.store.changed import Changed
from rebuild.window.desk.desk import Desk
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.parts.tree.acts import TreeActs, part_nodes
from rebuild.window.parts.tree.delegate import TreeDelegate
from rebuild.window.parts.tree.lines import (
    BOX,
    ROOT,
    Kind,
    Lines,
    id_of,
    kind_of,
    read_lines,
    subassembly_node,
)
from rebuild.window.parts.tree.menu import do_line, fill_menu
from rebuild.window.parts.tree.model import TreeModel
from rebuild.window.parts.tree.view import Keys, TreeView

#: Trees up to this many lines open unfolded.
UNFOLD_UP_TO = 60
FILTER_AFTER_MS = 120
#: So long after a page was turned to, its rows come to their heights.
SETTLES_MS = 250
_WATCHED = (
    "part", "subassembly", "place", "task", "making_sheet", "waiting", "removal", "removal_part", "attempt",
    "refit_step",
)  # fmt: skip


class PartTree(QWidget):
    """The part tree of the chosen machine."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._following = False
        bold = QFont(self.font())
        bold.setWeight(QFont.Weight.DemiBold)
        self.model = TreeModel(bold, self)
        self.acts = TreeActs(desk, self.model)
        delegate = TreeDelegate(self)
        self.view = TreeView(self.model, delegate, self._keys(), self)
        self.filter = QLineEdit(self)
        self._counted = PlainLabel(self)
        self._settling = QTimer(self)
        self._settling.setSingleShot(True)
        self._settling.setInterval(SETTLES_MS)
        self._wait = QTimer(self)
        self._wait.setSingleShot(True)
        self._wait.setInterval(FILTER_AFTER_MS)
        self._build()
        self.model.dropped.connect(self._dropped)
        delegate.named.connect(self._named)
        self._listen()
        self.read()
        self.choose_first()

    def _build(self) -> None:
        self.filter.setPlaceholderText("Find a part: code, name, place, decision, number")
        self.filter.setAccessibleName("Find a part")
        self.filter.setClearButtonEnabled(True)
        self.filter.setToolTip(
            "Shows the parts in which every word is found: code, name, other names, place, decision, "
            "stamped number, subassembly."
        )
        self._counted.setAccessibleName("Parts shown")
        self._counted.setWordWrap(True)
        self._counted.setContentsMargins(8, 1, 6, 3)
        self._counted.setForegroundRole(self.palette().ColorRole.PlaceholderText)
        finding = QVBoxLayout()
        finding.setContentsMargins(8, 3, 2, 3)
        finding.addWidget(self.filter)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(finding)
        layout.addWidget(self.view)
        layout.addWidget(self._counted)
        self.setFocusProxy(self.view)

    def _listen(self) -> None:
        self.filter.textEdited.connect(lambda _text: self._wait.start())
        self.filter.textChanged.connect(lambda text: None if text else self._wait.start())
        self.filter.returnPressed.connect(self._into_tree)
        self._wait.timeout.connect(self.read)
        self.view.verticalScrollBar().rangeChanged.connect(self._scroll_to_chosen)
        self.view.selectionModel().selectionChanged.connect(lambda _new, _old: self._chosen())
        self.view.customContextMenuRequested.connect(self._menu)
        self._desk.machine_changed.connect(self._other_machine)
        self._desk.closed.connect(self._other_machine)
        self._desk.selection_changed.connect(self.follow_selection)
        self._desk.changed.connect(self._hear)

    def _keys(self) -> Keys:
        return {
            "F2": lambda: self.view.rename(),
            "Del": self.remove_chosen,
            "Ins": lambda: do_line(self._desk, self, "new_part"),
            "Ctrl+V": lambda: do_line(self._desk, self, "paste_list"),
            "Shift+Ins": lambda: do_line(self._desk, self, "new_inner"),
            "Esc": self._clear_filter,
            "Alt+Up": lambda: self._shift(-1),
            "Alt+Down": lambda: self._shift(1),
        }

    # Reading

    def read(self) -> None:
        """Read the tree anew, for another machine or another filter."""
        self._wait.stop()
        unfolded = {node for node in self.model.nodes() if self.view.isExpanded(self.model.index_of(node))}
        self._following = True
        self.model.show(self._lines())
        if self.filter.text().strip() or len(self.model.nodes()) <= UNFOLD_UP_TO:
            self.view.expandAll()
        else:
            for node in unfolded:
                self.view.setExpanded(self.model.index_of(node), True)
        self._following = False
        self._count()
        self._show_selection()

    def _lines(self) -> Lines:
        if not self._desk.is_open:
            return Lines({ROOT: []}, {})
        return read_lines(self._desk.store, self._desk.machine_id, self.filter.text())

    def _other_machine(self) -> None:
        self.filter.clear()
        self.read()
        self.choose_first()

    def choose_first(self) -> None:
        """With nothing chosen, choose the first subassembly, so that the other panes have something to show."""
        chosen = self._desk.selection
        first = next(iter(self.model.children_of(ROOT)), BOX)
        if not chosen.part_ids and chosen.subassembly_id is None and first != BOX:
            self.view.setExpanded(self.model.index_of(first), True)
            self._desk.choose(subassembly_id=id_of(first))

    def _hear(self, changed: Changed) -> None:
        if not changed.touches(*_WATCHED):
            return
        self._following = True
        self.model.follow(self._lines())
        if self.filter.text().strip():
            self.view.expandAll()
        self._following = False
        self._count()
        self._let_go(changed)
        self._show_selection()

    def _let_go(self, changed: Changed) -> None:
        """What was removed is no longer chosen."""
        chosen = self._desk.selection
        parts, groups = changed.rows("part").removed, changed.rows("subassembly").removed
        self._desk.choose(
            part_ids=tuple(key for key in chosen.part_ids if key not in parts),
            subassembly_id=None if chosen.subassembly_id in groups else chosen.subassembly_id,
        )

    def _count(self) -> None:
        parts = sum(1 for node in self.model.nodes() if kind_of(node) is Kind.PART)
        words = f"{parts} part" if parts == 1 else f"{parts} parts"
        if self.filter.text().strip():
            self._counted.setText(f"{words} found" if parts else "nothing found; Esc shows all")
        elif not parts and self._desk.is_open:
            self._counted.setText("Ctrl+N adds a part, Ctrl+Shift+N a subassembly")
        else:
            self._counted.setText(words)

    # Choosing

    def _chosen(self) -> None:
        if self._following:
            return
        nodes = self.view.chosen_nodes()
        parts = [node for node in nodes if kind_of(node) is Kind.PART]
        groups = [node for node in nodes if kind_of(node) is Kind.SUBASSEMBLY]
        above = self.model.parent_of(parts[0]) if parts else (groups[0] if groups else BOX)
        self._following = True
        self._desk.choose(
            subassembly_id=id_of(above) if above not in (BOX, ROOT) else None,
            part_ids=tuple(id_of(node) for node in parts),
        )
        self._following = False

    def follow_selection(self) -> None:
        """Show what another pane chose; a filter that hides it is taken away."""
        if self._following:
            return
        chosen = self._desk.selection
        nodes = part_nodes(chosen.part_ids[:1])
        if nodes and nodes[0] not in self.model and chosen.key is None and self.filter.text().strip():
            self.filter.clear()
            self.model.follow(self._lines())
        self._show_selection()

    def _show_selection(self) -> None:
        """Stand on what is chosen, as far as the filter shows it: who types there looks for another part."""
        self._bring_group()
        chosen = self._desk.selection
        wanted = part_nodes(chosen.part_ids)
        if not wanted and chosen.subassembly_id is not None:
            wanted = [subassembly_node(chosen.subassembly_id)]
        if wanted and set(wanted) == set(self.view.chosen_nodes()):
            return
        self._following = True
        self.view.choose_nodes(wanted)
        self._following = False

    def bring_into_view(self) -> None:
        """Scroll to what is chosen, and once more if the rows above it come to stand higher while the page settles."""
        self._settling.start()
        self._scroll_to_chosen()

    def _scroll_to_chosen(self, *_range: int) -> None:
        chosen = self.view.chosen_nodes()
        if chosen and self._settling.isActive():
            self.view.bring(self.model.index_of(chosen[0]))

    def _bring_group(self) -> None:
        """A part chosen on another page brings its subassembly with it, for the grid and the steps.

        Rows walked one after another within a subassembly, or over the whole machine, change nothing.
        """
        chosen = self._desk.selection
        nodes = [node for node in part_nodes(chosen.part_ids[:1]) if node in self.model]
        if not nodes or (chosen.subassembly_id is None and chosen.key is not None):
            return
        above = [self.model.parent_of(nodes[0])]
        while above[-1] not in (ROOT, BOX):
            above.append(self.model.parent_of(above[-1]))
        if chosen.subassembly_id is None or subassembly_node(chosen.subassembly_id) not in above:
            self._following = True
            self._desk.choose(subassembly_id=id_of(above[0]) if above[0] not in (BOX, ROOT) else None)
            self._following = False

    def _into_tree(self) -> None:
        """From the filter box into the tree, onto the first part found."""
        if self._wait.isActive():
            self.read()
        first = next((node for node in self._in_order() if kind_of(node) is Kind.PART), None)
        if first is not None:
            self.view.setCurrentIndex(self.model.index_of(first))
            self.view.setFocus()

    def _in_order(self) -> list[int]:
        found: list[int] = []
        stack = list(reversed(self.model.children_of(ROOT)))
        while stack:
            node = stack.pop()
            found.append(node)
            stack.extend(reversed(self.model.children_of(node)))
        return found

    # Acts

    def remove_chosen(self) -> None:
        """Remove what is chosen; undo brings it back."""
        self.acts.remove(self.view.chosen_nodes())

    def _clear_filter(self) -> None:
        self.filter.clear()

    def _shift(self, by: int) -> None:
        if self.filter.text().strip():
            self._desk.say("Clear the filter to put parts in order; it hides some of them.")
            return
        self.acts.shift(self.view.chosen_nodes(), by)

    def _dropped(self, nodes: list[int], target: int, row: int) -> None:
        self.acts.drop(nodes, target, -1 if self.filter.text().strip() else row)

    def _named(self, node: int, name: str) -> None:
        if not self.acts.rename(node, name):
            # The editor closes after this; open it again with what was typed still in it.
            QTimer.singleShot(0, self.view, self.view.rename)

    def _menu(self, at: QPoint) -> None:
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        fill_menu(menu, self._desk, self, self._node_under(at))
        menu.popup(self.view.viewport().mapToGlobal(at))

    def _node_under(self, at: QPoint) -> int:
        index: QModelIndex = self.view.indexAt(at)
        return self.model.node_at(index)

    def find_part(self) -> None:
        """Put the keyboard into the filter box."""
        self.filter.setFocus()
        self.filter.selectAll()
