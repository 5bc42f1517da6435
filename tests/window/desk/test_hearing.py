"""What pages hear: the tables their lookups declare, once for each change, and what they keep while hidden.

Source of the tables a page reads: SQLite's authorizer (``tests.work.asking``), outside the project.
"""

from __future__ import annotations

import ast
import datetime as dt
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot
from sqlalchemy import event
from sqlalchemy.pool import Pool, QueuePool

import rebuild.window
from rebuild.trade.limits.verdict import Rule
from rebuild.trade.schedule.plan import Plan
from rebuild.window.bench.page import BenchPage
from rebuild.window.book.page import BookPage
from rebuild.window.charts.page import ChartPage
from rebuild.window.commands.pages import PAGES
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.desk.memory import Memory
from rebuild.window.fits.page import FitsPage
from rebuild.window.plan.page import PlanPage
from rebuild.window.run_in.page import RunInPage
from rebuild.window.shell.frame import Frame
from rebuild.window.surveys.page import SurveyPage
from rebuild.words.steps import ConstraintKind, TaskKind
from rebuild.work.editing.acts import edit
from rebuild.work.joints.acts import add_joint
from rebuild.work.log.acts import log_session
from rebuild.work.machines import acts as identify
from rebuild.work.plan.acts_week import set_week
from rebuild.work.records.acts_settings import set_verdict_rule
from rebuild.work.records.wall_clock import now
from rebuild.work.steps.acts import add_caution, add_constraint, add_link, add_task, tick
from rebuild.work.waiting.acts import add_waiting
from rebuild.work.waiting.acts_clocks import About, ClockKind, start_clock
from tests.conftest import Shop, demo_copy
from tests.window.conftest import close_all_windows
from tests.window.seen import shown
from tests.work.asking import Ears

_WINDOW = Path(next(iter(rebuild.window.__path__)))
#: Who listens to the desk's changes: the base, and the models that mend single rows of what they show.
_LISTENERS = {
    "desk/bad_cells.py",  # any cell of any table may be set right beside it
    "desk/hearing.py",
    "entry/line.py",
    "find/field.py",
    "forms/edit_form.py",
    "parts/details.py",
    "parts/tree/pane.py",
    "readings/grid.py",
}
#: Parts of a page that follow the selection and mend single rows, each among the listeners above.
_MENDERS = {"DetailsPane", "EditForm", "EntryLine", "MeasurementGrid", "PartTree"}


# All pages


def _listens(tree: ast.AST) -> bool:
    """Whether a module connects to the signal ``changed`` of a desk."""
    return any(
        isinstance(node, ast.Attribute)
        and node.attr == "connect"
        and isinstance(node.value, ast.Attribute)
        and node.value.attr == "changed"
        and ast.unparse(node.value.value).split(".")[-1] in ("desk", "_desk")
        for node in ast.walk(tree)
    )


def test_only_the_base_and_the_models_that_mend_single_rows_listen() -> None:
    found = {
        str(path.relative_to(_WINDOW))
        for path in _WINDOW.rglob("*.py")
        if _listens(ast.parse(path.read_text(encoding="utf-8")))
    }
    assert found == _LISTENERS


def _reads(widget: QWidget) -> bool:
    """Whether a widget of ours reads the file by a method it calls to show itself."""
    kind = type(widget)
    if not kind.__module__.startswith("rebuild.window."):
        return False
    path = _WINDOW.parent.parent / f"{kind.__module__.replace('.', '/')}.py"
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ClassDef) and node.name == kind.__name__:
            showing = [
                method
                for method in node.body
                if isinstance(method, ast.FunctionDef)
                and method.name in ("refresh", "read", "rows", "showEvent")
            ]
            return any(".store.read()" in ast.unparse(method) for method in showing)
    return False


def _on_the_base(widget: QWidget | None) -> bool:
    while widget is not None:
        if isinstance(widget, LivePage) or type(widget).__name__ in _MENDERS:
            return True
        widget = widget.parentWidget()
    return False


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.key)
def test_every_page_and_pane_that_shows_data_is_on_the_live_base(
    page: object, qtbot: QtBot, desk: Desk
) -> None:
    made = page.slot.make(desk, None)  # type: ignore[attr-defined]
    shown(qtbot, made)
    ours = [made, *made.findChildren(QWidget)]
    assert [type(widget).__name__ for widget in ours if _reads(widget) and not _on_the_base(widget)] == []
    if not isinstance(made, (LivePage, BenchPage)) and page.key != "figures":  # type: ignore[attr-defined]
        assert any(isinstance(widget, LivePage) for widget in ours), "no part of the page is live"
    if isinstance(made, BookPage):
        qtbot.waitUntil(lambda: not made._reader.running)
    made.close()


@pytest.fixture(scope="module")
def ears() -> Iterator[Ears]:
    made = Ears()
    with made.opened():
        yield made


@pytest.fixture
def demo_desk(qapp: QApplication, ears: Ears, demo_template: Path, tmp_path: Path) -> Iterator[Desk]:
    made = Desk()
    made.open(demo_copy(demo_template, tmp_path / "demo"))
    yield made
    close_all_windows()
    made.close()


def test_a_page_hears_every_table_it_reads(qtbot: QtBot, demo_desk: Desk, ears: Ears) -> None:
    looked: set[str] = set()
    unheard: dict[str, set[str]] = {}
    for page in PAGES:
        if page.key == "book":
            continue  # it reads on a thread of its own, by ``read_book`` alone
        made = page.slot.make(demo_desk, None)
        shown(qtbot, made)
        for live in [made, *made.findChildren(QWidget)]:
            if isinstance(live, LivePage):
                demo_desk.store._followed()._known_at = -1  # else the settings are known already
                with ears.listening() as heard:
                    live.refresh()
                looked.add(type(live).__name__)
                missed = heard - live.hearing.tables - {"act", "change"}
                if missed and not {"act"} & live.hearing.tables:
                    unheard[type(live).__name__] = missed
        if isinstance(made, PlanPage):
            made.job.drop()
        made.close()
        made.deleteLater()
    assert unheard == {}
    assert {
        "PlanPage",
        "WhatNextPane",
        "GatePane",
        "FitsPage",
        "WherePage",
        "TaskList",
        "TestsPane",
    } <= looked


# What was seen


def test_with_dates_open_the_finish_moves_when_a_promise_moves(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    set_week(desk.store, ["19-21"] * 7)
    today = now().date()
    felt = add_task(desk.store, shop.machine, shop.headstock, "Order wick felt", TaskKind.BUY)
    add_link(desk.store, felt, shop.refit)
    tick(desk.store, felt)
    order = add_waiting(
        desk.store, shop.machine, "wick felt", task_id=felt,
        typed={"asked_at": f"{today}", "ordered_at": f"{today}", "promised_at": f"{today + dt.timedelta(days=20)}"},
    )  # fmt: skip
    page = PlanPage(desk)
    plans: list[Plan] = []
    page.job.done.connect(lambda answer: plans.append(answer.answer.plan))
    shown(qtbot, page)
    with qtbot.waitSignal(page.job.done, timeout=20_000):
        page.show_view(2)
    later = f"{today + dt.timedelta(days=20 + 548)}"
    with qtbot.waitSignal(page.job.done, timeout=20_000):
        edit(desk.store, "waiting", [order], {"promised_at": later})
    assert plans[-1].finish - plans[0].finish > dt.timedelta(days=500)
    assert f"{plans[-1].finish:%B %Y}" in page.dates.heading.text()
    page.job.drop()


Doing = Callable[[Desk, Shop], object]
_ACTS: dict[str, Doing] = {
    "waiting": lambda desk, shop: add_waiting(desk.store, shop.machine, "bronze", part_id=shop.cap),
    "clock": lambda desk, shop: start_clock(
        desk.store, shop.machine, ClockKind.BATH, "cap", started=now(), about=About(part_id=shop.cap)
    ),
    "joint": lambda desk, shop: add_joint(desk.store, shop.machine, shop.headstock, "cap screws"),
    "part": lambda desk, shop: identify.add_part(desk.store, shop.machine, shop.headstock, "gib"),
    "task": lambda desk, shop: add_task(desk.store, shop.machine, shop.headstock, "Oil it"),
    "subassembly": lambda desk, shop: identify.add_subassembly(desk.store, shop.machine, "Apron", "AP"),
    "setting": lambda desk, shop: set_verdict_rule(desk.store, Rule.SIMPLE),
    "constraint": lambda desk, shop: add_constraint(desk.store, shop.remake, ConstraintKind.WARMTH),
    "caution": lambda desk, shop: add_caution(desk.store, shop.remake, "lifting"),
}
#: The page, the pane of it that shows the table, by what it takes a change up, and the table it was deaf to.
_UNHEARD_BEFORE: tuple[tuple[type[QWidget], str, str, str], ...] = (
    *((PlanPage, "", "refresh", what) for what in ("waiting", "clock", "joint")),
    *((RunInPage, "gate", "refresh", what) for what in ("part", "task", "subassembly")),
    (ChartPage, "tests", "mend", "setting"),
    (SurveyPage, "", "mend", "setting"),
    *((FitsPage, "", "_show_order", what) for what in ("constraint",)),
)


@pytest.mark.parametrize(("kind", "pane", "by", "what"), _UNHEARD_BEFORE)
def test_a_page_hears_what_it_was_deaf_to(
    kind: type[QWidget], pane: str, by: str, what: str, qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
    page = kind(desk)  # type: ignore[call-arg]
    shown(qtbot, page)
    shower = getattr(page, pane) if pane else page
    told: list[str] = []
    own = getattr(shower, by)
    setattr(shower, by, lambda *given: (told.append(what), own(*given)))
    _ACTS[what](desk, shop)
    qtbot.wait(120)
    assert told == [what]
    if isinstance(page, PlanPage):
        page.job.drop()


# Once, and only when seen


class _Counting(LivePage):
    """A page that counts its readings."""

    def __init__(self, desk: Desk, *, soon: bool = False) -> None:
        self.count = 0
        super().__init__(desk, "Counting")

    def refresh(self) -> None:
        self.count += 1


class _OfParts(_Counting):
    shows = PlanPage.shows


class _Soon(_OfParts):
    soon_ms = 40


def test_a_hidden_page_keeps_that_one_refresh_is_due(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = _OfParts(desk)
    assert page.count == 0
    shown(qtbot, page)
    assert page.count == 1
    page.hide()
    for name in ("gib", "wedge", "screw"):
        identify.add_part(desk.store, shop.machine, shop.headstock, name)
    assert page.count == 1
    page.show()
    assert page.count == 2
    page.hide()
    page.show()
    assert page.count == 2, "nothing changed: nothing is read"


def test_a_page_does_not_hear_what_it_does_not_show(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = _OfParts(desk)
    shown(qtbot, page)
    log_session(desk.store, shop.machine, {"did": "swept up", "hours": "1"})
    assert page.count == 1
    edit(desk.store, "part", [shop.cap], {"name": "cap"})
    assert page.count == 2


def test_changes_that_follow_one_another_are_taken_up_as_one(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = _Soon(desk)
    shown(qtbot, page)
    for name in ("gib", "wedge", "screw"):
        identify.add_part(desk.store, shop.machine, shop.headstock, name)
    assert page.count == 1
    qtbot.wait(120)
    assert page.count == 2


def test_a_file_opened_is_read_once(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = _OfParts(desk)
    shown(qtbot, page)
    before = page.count
    desk.open(shop.path)
    assert page.count - before == 2, "once for the file closed, once for the one opened"


def test_undo_is_heard(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = _OfParts(desk)
    shown(qtbot, page)
    edit(desk.store, "part", [shop.cap], {"name": "cap"})
    desk.undo()
    assert page.count == 3


# What an act costs


@pytest.fixture
def checkouts() -> Iterator[list[object]]:
    """Every checkout of a reading connection; the writer's pool is another one."""
    out: list[object] = []

    def count(_raw: object, record: object, _proxy: object) -> None:
        if isinstance(record._ConnectionRecord__pool, QueuePool):  # type: ignore[attr-defined]
            out.append(record)

    event.listen(Pool, "checkout", count)
    yield out
    event.remove(Pool, "checkout", count)


def test_one_enter_costs_one_reader_and_the_settings_are_read_once(
    qtbot: QtBot,
    desk: Desk,
    shop: Shop,
    tmp_path: Path,
    checkouts: list[object],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """It was 14 checkouts, four of them for settings, on the demo's bench."""
    frame = Frame(desk, Memory(tmp_path / "window.ini"))
    frame.show()
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    desk.choose(part_ids=(shop.spindle,), key=(shop.journal, shop.near))
    bench.entry.focus_entry()
    qtbot.keyClicks(bench.entry.field, "59.98")
    watch = desk.store._followed()
    versions: list[int] = []
    monkeypatch.setattr(watch, "_data_version", _noting(watch._data_version, versions))
    checkouts.clear()
    qtbot.keyClick(bench.entry.field, Qt.Key.Key_Return)
    assert desk.selection.key == (shop.journal, shop.far), "the reading was stored and the line moved on"
    assert len(checkouts) == 1
    assert len(set(versions)) <= 2, "the settings are read once before the act and once after it"


def _noting(asked: Callable[[], int], into: list[int]) -> Callable[[], int]:
    def noting() -> int:
        into.append(asked())
        return into[-1]

    return noting


def test_readings_that_share_a_connection_see_what_an_act_stored(desk: Desk, shop: Shop) -> None:
    def name_of_cap() -> str:
        with desk.store.read() as connection:
            return str(
                connection.exec_driver_sql(f"SELECT name FROM part WHERE id = {shop.cap}").scalar_one()
            )

    with desk.store.together():
        assert name_of_cap() == "bearing cap"
        edit(desk.store, "part", [shop.cap], {"name": "cap"})
        assert name_of_cap() == "cap"
    assert name_of_cap() == "cap"


def test_a_setting_stored_by_another_window_is_known_at_once(desk: Desk, shop: Shop) -> None:
    assert desk.store.setting("owner") == ""
    shop.store.set_setting("owner", "R. M.")
    assert desk.store.setting("owner") == "R. M."
