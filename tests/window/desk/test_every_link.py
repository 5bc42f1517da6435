"""Every link of Where was I, the plan, Before power and the batches lands on its row: chosen, and in view.

On the demo, both machines, in one window. The printed test command follows one link of each kind on each surface; the
whole check (``REBUILD_DEPTH=5 pytest -s tests/window/desk/test_every_link.py``) follows every one and prints how many.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QModelIndex, QSize
from PySide6.QtWidgets import QAbstractItemView, QApplication

from rebuild.trade.schedule.graph import Node, Ref
from rebuild.window.bench.page import BenchPage
from rebuild.window.controls.page import ControlsPage
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import PAGE_OF
from rebuild.window.desk.memory import Memory
from rebuild.window.fits.page import FitsPage
from rebuild.window.joints.page import JointsPage
from rebuild.window.lists.tree_list import KEY
from rebuild.window.log.bench_log import BenchLogPage
from rebuild.window.log.questions import QuestionsPage
from rebuild.window.lubrication.page import LubricationPage
from rebuild.window.making.page import MakingPage
from rebuild.window.means.page import MeansPage
from rebuild.window.plan.page import PlanPage
from rebuild.window.run_in.page import RunInPage
from rebuild.window.shell.frame import Frame
from rebuild.window.steps.pane import TaskList
from rebuild.window.waiting.page import BATCHES, WaitingPage
from rebuild.window.where_was_i.page import WherePage
from rebuild.work.machines.rows_tree import machines
from rebuild.work.plan.laying import draws_up, orders
from rebuild.work.plan.rows_what_next import Candidate
from tests.conftest import demo_copy
from tests.depth import DEPTH
from tests.window.conftest import close_all_windows

#: A link: the surface, the row it speaks of, and what a click does.
Link = tuple[str, Ref, Callable[[], object]]


@pytest.fixture
def frame(qapp: QApplication, demo_template: Path, tmp_path: Path) -> Iterator[Frame]:
    desk = Desk()
    made = Frame(desk, Memory(tmp_path / "window.ini"))
    made.resize(QSize(1280, 800))
    made.show()
    desk.open(demo_copy(demo_template, tmp_path / "demo"))
    yield made
    close_all_windows()
    desk.close()


def of_where(frame: Frame) -> Iterator[Link]:
    page = frame.page("where")
    assert isinstance(page, WherePage)
    for section in page.sections.values():
        for at, lead in enumerate(section._leads):
            # The draft of an attempt is a button, no row: tests/window/teardown/test_teardown_page.py says so.
            if lead is not None and lead.ref is not None and lead.ref.table != "attempt":
                yield "where was I", lead.ref, lambda at=at, to=section: to.body.linkActivated.emit(str(at))


def of_plan(frame: Frame) -> Iterator[Link]:
    page = frame.page("plan")
    assert isinstance(page, PlanPage)
    pane = page.what_next
    for row in list(pane._rows):
        to = row.goes_to
        if isinstance(to, Node):
            # What is to be ordered stands in the line of orders: tests/window/waiting/test_waiting_page.py says so.
            ordered = orders(to) and to.ref.table == "part"
            if not draws_up(to) and not ordered and to.ref.table != "attempt":
                yield "plan", to.ref, lambda key=row.key: (pane.choose(key), pane._go())
        elif not isinstance(to, Candidate):
            yield "plan", Ref(*to), lambda key=row.key: (pane.choose(key), pane._go())


def of_power(frame: Frame) -> Iterator[Link]:
    page = frame.page("run-in")
    assert isinstance(page, RunInPage)
    tree = page.gate.list
    for at in range(tree.topLevelItemCount()):
        item = tree.topLevelItem(at)
        said = item.data(0, KEY) if item is not None else None
        if said is not None and said.check is None and said.table:
            yield "before power", Ref(said.table, said.target), lambda at=at: (
                tree.setCurrentItem(tree.topLevelItem(at)), page.gate._go(),
            )  # fmt: skip


def of_waiting(frame: Frame) -> Iterator[Link]:
    page = frame.page("waiting")
    assert isinstance(page, WaitingPage)
    page.views.show_view(BATCHES)
    tree = page.batches.tree
    for at in range(tree.topLevelItemCount()):
        top = tree.topLevelItem(at)
        for place in range(top.childCount() if top is not None else 0):
            item = top.child(place) if top is not None else None
            if item is not None:
                yield (
                    "batches",
                    Ref("part", item.data(0, KEY).part_id),
                    lambda item=item: page.batches._go(item),
                )


def landed(frame: Frame, ref: Ref) -> tuple[object, QAbstractItemView, QModelIndex]:
    """The id chosen where such a row is shown, the list it stands in, and its line there."""
    page = frame.page(PAGE_OF[ref.table])
    chosen: object
    if isinstance(page, BenchPage):
        assert isinstance(page.tasks, TaskList)
        selection = frame.desk.selection
        if ref.table == "task":
            return page.tasks._current_id(), page.tasks.view, page.tasks.view.currentIndex()
        if ref.table == "feature":
            chosen = selection.key[0] if selection.key is not None else None
        else:
            (chosen,) = selection.part_ids
        tree = page.tree.view
        return chosen, tree, next(iter(tree.selectionModel().selectedIndexes()), QModelIndex())
    view, chosen = _on_its_own_page(page, ref)
    return chosen, view, view.currentIndex()


def _on_its_own_page(page: object, ref: Ref) -> tuple[QAbstractItemView, object]:
    if isinstance(page, WaitingPage) and ref.table == "batch":
        tree, item = page.batches.tree, page.batches.tree.currentItem()
        its = item.data(0, KEY) if item is not None else None
        batch = page.batches.batch
        from rebuild.work.plan.treatments_in_work import row_of

        return tree, row_of(its.part_id, batch.treatment) if its is not None and batch is not None else None
    if isinstance(page, WaitingPage):
        pane = page.clocks if ref.table == "clock" else page.orders
        return pane.list.table, pane.list.table.chosen()
    if isinstance(page, QuestionsPage):
        return page.list, page.list.currentItem().data(0, KEY).id
    if isinstance(page, BenchLogPage):
        return page.sessions, page.sessions.currentItem().data(256)
    if isinstance(page, RunInPage) and ref.table in ("override", "run_step"):
        table = page.gate.gone_on.table if ref.table == "override" else page.steps.table
        return table, table.chosen()
    if isinstance(page, RunInPage):
        item = page.gate.chosen()
        return page.gate.list, item.check.id if item is not None and item.check is not None else None
    if isinstance(page, FitsPage):
        return page.fits.table, page.fits.key
    if isinstance(page, MakingPage) and ref.table == "making_tool":
        tools = page.view.tools.table
        return tools, tools.chosen()
    if isinstance(page, MakingPage):
        return page.list.tree, page.list.key
    if isinstance(page, JointsPage):
        return page.table, next(iter(page.table.chosen_ids()), None)
    if isinstance(page, LubricationPage):
        return page.table, next(iter(page._chosen_ids()), None)
    assert isinstance(page, MeansPage | ControlsPage), (page, ref)
    return page.list.table, page.list.table.chosen()


SURFACES = (of_where, of_plan, of_power, of_waiting)
PAGES = {"where was I": "where", "before power": "run-in", "batches": "waiting", "plan": "plan"}
#: Every so many links of one kind the page is turned back first: between them link follows link.
TURN_BACK = 8


def test_every_link_lands_on_its_row(frame: Frame) -> None:
    followed: Counter[tuple[str, str]] = Counter()
    missed: list[str] = []
    with frame.desk.store.read() as connection:
        every = [row.id for row in machines(connection)]
    for machine_id in every[:2]:
        frame.desk.choose_machine(machine_id)
        for surface, ref, click in to_walk(frame):
            at = followed[(surface, ref.table)]
            if DEPTH == 1 and at:
                continue
            if at % TURN_BACK == 0:
                frame.page(PAGES[surface])
                let_pass()
            followed[(surface, ref.table)] += 1
            missed += [f"{surface}: {ref} {one}" for one in trouble(frame, ref, click)]
    print("\nlinks followed: " + ", ".join(f"{a} to {b} {n}" for (a, b), n in sorted(followed.items())))
    print(f"{sum(followed.values())} links, {len(missed)} beside their rows")
    assert not missed, f"{len(missed)} of {sum(followed.values())}:\n" + "\n".join(missed[:30])
    assert len(followed) >= 12


def to_walk(frame: Frame) -> list[Link]:
    """Every link of every surface; those to one table after each other, so that few pages are turned."""
    found = [link for links in SURFACES for link in links(frame)]
    return sorted(found, key=lambda link: (link[0], link[1].table))


def let_pass() -> None:
    """Let what was put off to the next turn of the loop happen, and what that puts off; wait for no clock."""
    for _ in range(3):
        QCoreApplication.processEvents()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def trouble(frame: Frame, ref: Ref, click: Callable[[], object]) -> Iterator[str]:
    """What is wrong where a link led to."""
    click()
    let_pass()
    if frame.page_shown != PAGE_OF[ref.table]:
        yield f"turned to {frame.page_shown}, not {PAGE_OF[ref.table]}"
        return
    chosen, view, line = landed(frame, ref)
    if chosen != ref.id:
        yield f"stands on {chosen}"
    elif not view.isVisible() or not view.visualRect(line).intersects(view.viewport().rect()):
        yield "is chosen and out of view"
