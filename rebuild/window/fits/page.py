"""The Fits page: the list with one fit beside it, and the order of making across all open fits."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from rebuild.errors import NotThere
from rebuild.store.changed import Changed
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.fits.detail import FitDetail
from rebuild.window.fits.list_pane import FitList
from rebuild.window.fits.new_fit import new_fit
from rebuild.window.fits.order_pane import OrderPane
from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.layout.views import Views
from rebuild.work.fits import rows as fit_rows
from rebuild.work.fits.rows import fit
from rebuild.work.making import rows_order
from rebuild.work.making.rows_order import making_order
from rebuild.work.records import rows_settings
from rebuild.work.records.rows_settings import verdict_rule


class FitsPage(LivePage):
    """Fits · Order of making."""

    shows = (fit_rows, rows_order, rows_settings)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Fits", parent)
        self.fits = FitList(desk, self)
        self.detail = FitDetail(desk, self)
        self.order = OrderPane(self)
        self.views = Views((("Fits", self._list_and_detail()), ("Order of making", self.order)), self)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 4, 8, 8)
        layout.addWidget(self.views)
        self._wire()

    def _list_and_detail(self) -> QSplitter:
        whole = QSplitter(Qt.Orientation.Horizontal, self)
        whole.addWidget(self.fits)
        whole.addWidget(self.detail)
        whole.setChildrenCollapsible(False)
        whole.setStretchFactor(0, 5)
        whole.setStretchFactor(1, 4)
        whole.setSizes([860, 400])
        return whole

    def _wire(self) -> None:
        desk = self._desk
        self.views.turned.connect(lambda _at: self._show_order())
        self.fits.chosen.connect(self._show_chosen)
        self.fits.new_asked.connect(self.new)
        self.detail.side_asked.connect(self._go)
        self.order.part_asked.connect(self._go)
        desk.unit_changed.connect(self.look_again)

    def panes(self) -> list[QWidget]:
        """The panes F6 goes round."""
        if self.views.shown:
            return [self.order.tonight, self.order.waiting, self.order.measure]
        return [self.fits.table, self.detail.sides, self.detail.pairs]

    def show_view(self, at: int) -> None:
        """Show one of the views."""
        self.views.show_view(at)

    def refresh(self) -> None:
        """Work everything out again."""
        self.fits.refresh()
        self._show_order()

    def new(self) -> AddDialog | None:
        """The dialog for a new fit."""
        return new_fit(self._desk, self, self._made)

    def _made(self, fit_id: int) -> None:
        """Turn to a new fit; the part to be made to it is chosen, so that New sheet offers it."""
        self.fits.choose(fit_id)
        self._choose_follower()

    def _choose_follower(self) -> None:
        side = self.detail.row.follower_side if self.detail.row is not None else None
        if side is not None:
            self._desk.choose(part_ids=(side.part_id,))

    def show_row(self, _table: str, key: int) -> None:
        """Choose what was found."""
        self.choose(key)

    def choose(self, fit_id: int) -> None:
        """Turn to one fit."""
        self.show_view(0)
        self.fits.choose(fit_id)

    def mend(self, changed: Changed) -> None:
        """Work out again only the fits that were touched, and the order when it may be another."""
        if changed.touches(*fit_rows.READS, *rows_settings.READS):
            ids = self.fits.hear(changed)
            if self.detail.row is None or self.detail.row.id in ids:
                self._show(self.fits.key or 0)
        if changed.touches(*rows_order.READS, *rows_settings.READS):
            self._show_order()

    def _show_chosen(self, fit_id: int) -> None:
        """A fit chosen by hand brings its part to be made along to the other pages."""
        self._show(fit_id)
        if self.fits.table.hasFocus():
            self._choose_follower()

    def _show(self, fit_id: int) -> None:
        if not fit_id or not self._desk.is_open:
            self.detail.show_fit(None)
            return
        try:
            with self._desk.store.read() as connection:
                row = fit(connection, fit_id, verdict_rule(self._desk.store))
        except NotThere:
            self.detail.show_fit(None)
            return
        self.detail.show_fit(row)

    def _show_order(self) -> None:
        if not self._desk.is_open or self._desk.machine_id is None:
            self.order.show_order(None)
        elif self.views.view_shown is self.order:
            with self._desk.store.read() as connection:
                found = making_order(connection, self._desk.machine_id)
            self.order.show_order(found)

    def _go(self, part_id: int, feature_id: int) -> None:
        key = (feature_id, 0) if feature_id else None
        self._desk.choose(part_ids=(part_id,), key=key)
        self._desk.page_asked.emit("bench")
