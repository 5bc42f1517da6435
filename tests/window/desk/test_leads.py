"""A link leads to its very row: the page is turned to, and the row is chosen and in view."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from rebuild.model.records.making import MakingSheet
from rebuild.store.act import Act
from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.leads import PAGE_OF, follow
from rebuild.window.fits.page import FitsPage
from rebuild.window.joints.page import JointsPage
from rebuild.window.log.bench_log import BenchLogPage
from rebuild.window.log.questions import QuestionsPage
from rebuild.window.making.page import MakingPage
from rebuild.window.waiting.page import WaitingPage
from rebuild.words.fits import FitKind, Side
from rebuild.words.readings import FeatureKind
from rebuild.words.waiting import ClockKind
from rebuild.work.fits import acts as fits
from rebuild.work.joints import acts as joints
from rebuild.work.log import acts as notes
from rebuild.work.readings import acts_features as spec
from rebuild.work.waiting import acts as waiting, acts_clocks as clocks

if TYPE_CHECKING:
    from rebuild.window.shell.frame import Frame
    from tests.conftest import Shop

NOW = dt.datetime(2026, 6, 15, 20, 0)


def rows(shop: Shop) -> dict[str, tuple[int, int]]:
    """Two rows of each table that has a page of its own; the second is the one to be led to."""
    store, machine = shop.store, shop.machine
    bores = [spec.add_feature(store, shop.cap, name, FeatureKind.BORE) for name in ("bore", "rear bore")]
    both = [
        fits.add_fit(store, fits.FitEntry(bore, shop.journal, FitKind.RUNNING, master=Side.INNER))
        for bore in bores
    ]
    with store.act(Act.EDIT, "sheets") as tx:
        sheets = [MakingSheet(part_id=shop.cap), MakingSheet(part_id=shop.spindle)]
        tx.session.add_all(sheets)
        tx.session.flush()
        made = [sheet.id for sheet in sheets]
    clock = [
        clocks.start_clock(store, machine, ClockKind.CURE, what, after=["2 d"], started=NOW)[0]
        for what in ("sealer", "paint")
    ]
    return {
        "question": (shop.question, notes.ask(store, machine, "Which belt?")),
        "waiting": tuple(waiting.add_waiting(store, machine, what) for what in ("felt", "belt")),
        "joint": tuple(
            joints.add_joint(store, machine, shop.headstock, what) for what in ("cap screws", "end cap")
        ),
        "log_entry": (1, notes.log_session(store, machine, {"did": "swept"})),
        "fit": tuple(both),
        "making_sheet": tuple(made),
        "clock": tuple(clock),
    }  # type: ignore[return-value]


def stands_on(frame: Frame, table: str) -> int | None:
    """The row the page shown stands on."""
    page = frame.page(PAGE_OF[table])
    if isinstance(page, WaitingPage):
        return (page.clocks.list if table == "clock" else page.orders.list).table.chosen()
    if isinstance(page, QuestionsPage):
        return page.list.currentItem().data(0, Qt.ItemDataRole.UserRole).id  # type: ignore[no-any-return]
    if isinstance(page, JointsPage):
        return next(iter(page.table.chosen_ids()), None)
    if isinstance(page, FitsPage):
        return page.fits.key
    if isinstance(page, MakingPage):
        return page.list.key
    assert isinstance(page, BenchLogPage)
    return page.sessions.currentItem().data(Qt.ItemDataRole.UserRole)  # type: ignore[no-any-return]


def test_each_link_lands_on_its_row(frame: Frame, shop: Shop) -> None:
    wanted = rows(shop)
    frame.desk.store.poll()
    for table, ids in wanted.items():
        for row_id in reversed(ids):
            follow(frame.desk, Ref(table, row_id))
            assert frame.page_shown == PAGE_OF[table]
            assert stands_on(frame, table) == row_id, table
    follow(frame.desk, Ref("task", shop.remake), subassembly_id=shop.headstock)
    assert (frame.page_shown, frame.desk.selection.task_ids) == ("bench", (shop.remake,))
    follow(frame.desk, Ref("part", shop.cap))
    assert frame.desk.selection.part_ids == (shop.cap,)
    follow(frame.desk, Ref("feature", shop.journal), part_id=shop.spindle)
    assert frame.desk.selection.part_ids == (shop.spindle,)
    assert frame.desk.selection.key is not None
    assert frame.desk.selection.key[0] == shop.journal, "the grid stands on the feature's first station"
