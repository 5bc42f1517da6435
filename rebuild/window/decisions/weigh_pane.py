"""One part to be decided: proposals with their working, options, and two of them compared."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton, QSplitter, QVBoxLayout, QWidget

from rebuild.errors import NotThere, RebuildError
from rebuild.trade.results.working import Worked
from rebuild.trade.wear.facts import Proposal
from rebuild.trade.wear.judge import propose
from rebuild.trade.wear.skipped import Skipped
from rebuild.window.decisions.decide_dialog import DecideDialog
from rebuild.window.decisions.option_dialogs import ask_change, ask_new_option
from rebuild.window.decisions.prefill import of_option, of_proposal
from rebuild.window.decisions.proposal_head import ProposalHead
from rebuild.window.decisions.tables import (
    COMPARED,
    OPTIONS,
    PROPOSALS,
    WideTable,
    compare_row,
    option_row,
    proposal_row,
)
from rebuild.window.decisions.why_words import why_words
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.ink import theme
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.layout.views import Views
from rebuild.window.layout.wrapped_row import WrappedRow
from rebuild.window.results.working import WorkingPane
from rebuild.work.decisions.acts_options import add_option
from rebuild.work.decisions.rows_odd_sizes import odd_sizes_for
from rebuild.work.decisions.rows_options import OptionRow, compare, option, options
from rebuild.work.decisions.rows_proposals import ToDecide, part_facts, rules_in_force
from rebuild.work.decisions.rows_skip import if_part_skipped
from rebuild.work.editing.acts import remove
from rebuild.work.records.rows import card
from rebuild.work.records.rows_settings import verdict_rule


class WeighPane(QWidget):
    """What speaks for which decision."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._row: ToDecide | None = None
        self._together: tuple[int, ...] = ()
        self._proposals: tuple[Proposal, ...] = ()
        self.title = PlainLabel(self)
        self.title.setFont(theme.large(self.font(), 1.25))
        self.why = PlainLabel(self)
        self.skipped = PlainLabel(self)
        self._skipped: Worked[Skipped] | None = None
        self.head = ProposalHead(self)
        self.proposals = WideTable("Proposals", PROPOSALS, self)
        self.options = WideTable("Options", OPTIONS, self)
        self.options.allow_two()
        self.compared = WideTable("Two options compared", COMPARED, self)
        self.working = WorkingPane(desk, self)
        self.below = Views((("Working", self.working), ("Compared", self.compared)), self, keys=False)
        self.buttons = {
            name: QPushButton(words, self)
            for name, words in (
                ("skip", "&If I skip this"),
                ("working", "&Working"),
                ("keep", "Store as &option"),
                ("settle", "Decide on i&t…"),
                ("new", "&New option…"),
                ("edit", "Ch&ange…"),
                ("remove", "Remo&ve"),
                ("compare", "Compare two"),
                ("choose", "&Choose…"),
            )
        }
        self._compose()
        self._wire()
        self.show_part(None)

    def _compose(self) -> None:
        self.why.setWordWrap(True)
        self.skipped.setWordWrap(True)
        self.skipped.setAccessibleName("If I skip this")
        self.compared.setWordWrap(True)
        whole = self.rest = QSplitter(Qt.Orientation.Vertical, self)
        whole.addWidget(
            self._box(
                "Proposed by the wear rules; you decide", self.proposals, "skip", "working", "keep", "settle"
            )
        )
        whole.addWidget(self._box("Options", self.options, "new", "edit", "remove", "compare", "choose"))
        whole.addWidget(self.below)
        whole.setChildrenCollapsible(False)
        for place, stretch in enumerate((4, 3, 5)):
            whole.setStretchFactor(place, stretch)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.title)
        layout.addWidget(self.head)
        layout.addWidget(self.why)
        layout.addWidget(self.skipped)
        layout.addWidget(self.head.beside)
        layout.addWidget(whole, 200)
        layout.addStretch(1)
        whole.hide()

    def _box(self, words: str, table: WideTable, *names: str) -> QWidget:
        box = QWidget(self)
        heading = PlainLabel(words, box)
        font = heading.font()
        font.setBold(True)
        heading.setFont(font)
        heading.setBuddy(table)
        row = WrappedRow((heading,))
        row.addWidget(heading)
        for name in names:
            row.addWidget(self.buttons[name])
        layout = QVBoxLayout(box)
        layout.setContentsMargins(0, 2, 0, 2)
        layout.setSpacing(3)
        layout.addLayout(row)
        layout.addWidget(table, 1)
        return box

    def _wire(self) -> None:
        acts = {
            "skip": self.show_skipped,
            "working": self.show_working,
            "keep": self.keep,
            "settle": self.settle,
            "new": self.new_option,
            "edit": self.change_option,
            "remove": self.remove_options,
            "compare": self.compare,
            "choose": self.choose,
        }
        for name, act in acts.items():
            self.buttons[name].setAutoDefault(False)
            self.buttons[name].clicked.connect(act)
        self.head.decide.connect(self.settle)
        self.head.unfolded.connect(self.rest.setVisible)
        self.proposals.activated.connect(self.show_working)
        self.options.activated.connect(self.change_option)
        self.options.selectionModel().selectionChanged.connect(lambda *_: self._enable())
        self.proposals.selectionModel().selectionChanged.connect(lambda *_: self._enable())
        self.proposals.selectionModel().selectionChanged.connect(lambda *_: self._show_its_working())

    def show_part(self, row: ToDecide | None, together: Sequence[int] = ()) -> None:
        """Show another part, or the same one as it is now; ``together``: all the parts chosen with it."""
        self._together = tuple(together) if len(together) > 1 else ()
        same = row is not None and self._row is not None and row.part_id == self._row.part_id
        self._row = row
        self.setEnabled(row is not None)
        if not same:
            self.compared.plain.fill([])
        if row is None:
            self.title.setText("Nothing to decide here")
            self.why.setText("")
            self.skipped.setText("")
            self._skipped = None
            self.head.show_part((), None, 0)
            for table in (self.proposals, self.options):
                table.plain.fill([])
            self._proposals = ()
            self._show_its_working()
            return
        self._read(row)
        if not same and self._proposals:
            self.proposals.selectRow(0)
        self._show_its_working()
        self._enable()
        if self._together:
            self.head.show_several(len(self._together))

    def _read(self, row: ToDecide) -> None:
        try:
            with self._desk.store.read() as connection:
                facts = part_facts(connection, row.part_id, verdict_rule(self._desk.store))
                self._proposals = propose(facts, rules_in_force(connection))
                listed = options(connection, row.part_id)
                odd = odd_sizes_for(connection, row.part_id)
                self._skipped = if_part_skipped(connection, row.part_id, verdict_rule(self._desk.store))
        except NotThere:
            return
        self.title.setText(f"{row.title}: {row.decision.value}")
        self.why.setToolTip(plain_tip("\n".join(row.why)))
        self.why.setText(why_words(row, odd))
        self.skipped.setText(self._skipped.value.told)
        self.skipped.setToolTip(plain_tip(self._skipped.working.text()))
        first = self._proposals[0] if self._proposals else None
        self.head.show_part(facts.features, first, len(self._proposals))
        self.proposals.plain.fill([proposal_row(place, one) for place, one in enumerate(self._proposals)])
        chosen = self.options.all_chosen()
        self.options.plain.fill([option_row(one) for one in listed])
        if len(chosen) == 1:  # the same part read again: what was chosen stays so
            self.options.choose(chosen[0])

    def _enable(self) -> None:
        chosen = self.options.all_chosen()
        self.buttons["compare"].setEnabled(len(chosen) == 2)
        for name in ("edit", "choose"):
            self.buttons[name].setEnabled(len(chosen) == 1)
        self.buttons["remove"].setEnabled(bool(chosen))
        for name in ("working", "keep"):
            self.buttons[name].setEnabled(self.proposals.chosen() is not None)

    @property
    def proposal(self) -> Proposal | None:
        """The chosen proposal."""
        place = self.proposals.chosen()
        return self._proposals[place] if place is not None and place < len(self._proposals) else None

    def _show_its_working(self) -> None:
        """The working of the chosen proposal stands beneath, without being asked for."""
        self.working.show_working(self.proposal.working if self.proposal is not None else None)

    def show_skipped(self) -> None:
        """Open the working of what it costs to leave the part as it is."""
        if self._skipped is not None:
            self._desk.ask_working(self._skipped.working)
            self.below.show_widget(self.working)

    def show_working(self) -> None:
        """Open the working of the chosen proposal."""
        if self.proposal is not None:
            self._desk.ask_working(self.proposal.working)
            self.below.show_widget(self.working)

    def keep(self) -> None:
        """Keep the chosen proposal as an option."""
        proposal, row = self.proposal, self._row
        if proposal is not None and row is not None:
            typed = {"method": proposal.method, "note": proposal.why}
            self._desk.attempt(
                lambda: add_option(self._desk.store, row.part_id, proposal.decision, typed),
                "Stored as an option.",
            )

    def settle(self) -> DecideDialog | None:
        """Settle the part, starting from the chosen proposal; several chosen parts with one reason of their own."""
        if self._together:
            return self._open_for(self._together, {})
        return self._settle(of_proposal(self.proposal))

    def choose(self) -> DecideDialog | None:
        """Settle the part by the chosen option."""
        chosen = self._chosen_option()
        if chosen is None:
            return None
        with self._desk.store.read() as connection:
            fields = card(connection, "decision_option", chosen.id).fields
        return self._settle(of_option(chosen, fields))

    def _settle(self, prefill: dict[str, str]) -> DecideDialog | None:
        if self._row is None:
            return None
        return self._open_for((self._row.part_id,), prefill)

    def _open_for(self, part_ids: tuple[int, ...], prefill: dict[str, str]) -> DecideDialog:
        dialog = DecideDialog(self._desk, part_ids, prefill, self)
        dialog.open()
        return dialog

    def _chosen_option(self) -> OptionRow | None:
        chosen = self.options.all_chosen()
        if len(chosen) != 1:
            return None
        with self._desk.store.read() as connection:
            return option(connection, chosen[0])

    def new_option(self) -> AddDialog | None:
        """The dialog for a further option."""
        return ask_new_option(self._desk, self._row, self) if self._row is not None else None

    def change_option(self) -> AddDialog | None:
        """The dialog that changes the chosen option."""
        chosen = self._chosen_option()
        return ask_change(self._desk, chosen, self) if chosen is not None else None

    def remove_options(self) -> None:
        """Remove the chosen options."""
        chosen = self.options.all_chosen()
        if chosen:
            self._desk.attempt(lambda: remove(self._desk.store, "decision_option", chosen), "Option removed.")

    def compare(self) -> None:
        """Compare the two chosen options."""
        chosen = self.options.all_chosen()
        if len(chosen) != 2:
            self._desk.say("Choose two options to compare them.", Say.ASK)
            return
        try:
            with self._desk.store.read() as connection:
                found = compare(connection, chosen[0], chosen[1], verdict_rule(self._desk.store))
        except RebuildError as trouble:
            self._desk.say(str(trouble), Say.TROUBLE)
            return
        rows = [compare_row(place, row) for place, row in enumerate(found.rows, 1)]
        self.compared.plain.fill([(0, ("", found.a.title, found.b.title)), *rows])
        self.below.show_widget(self.compared)
