"""Facts brought up to date row by row are those a whole reading gives, whatever was changed, undone or removed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

import pytest

from rebuild.model.records.fits import Fit
from rebuild.model.records.steps import Link, Task
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.trade.limits.judgement import Rule
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitKind, Side
from rebuild.words.places import PlaceKind
from rebuild.words.readings import FeatureKind, Stage
from rebuild.words.steps import LinkKind, TaskKind
from rebuild.words.work_graph import Holding
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit
from rebuild.work.fits import acts as fits
from rebuild.work.machines import acts as identify
from rebuild.work.plan import rows_again, rows_facts
from rebuild.work.plan.facts import Facts
from rebuild.work.plan.rows_again import Changed, touched_fits
from rebuild.work.plan.rows_facts import facts
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.steps import acts as tasks
from tests.conftest import Shop

NOW = dt.datetime(2026, 6, 15, 20, 0)


@pytest.fixture
def fitted(shop: Shop) -> tuple[Shop, int, int, int]:
    """The shop with two fits: ids of the bore of the first, the fit, and the bore of its later mate."""
    bore = spec.add_feature(shop.store, shop.cap, "bore", FeatureKind.BORE)
    later = spec.add_feature(shop.store, shop.cap, "new bore", FeatureKind.BORE)
    made = fits.add_fit(
        shop.store, fits.FitEntry(bore, shop.journal, FitKind.RUNNING, master=Side.INNER, name="running")
    )
    fits.add_fit(
        shop.store, fits.FitEntry(later, shop.journal, FitKind.RUNNING, master=Side.INNER, name="second")
    )
    measure.record_reading(shop.store, "60.02", measure.Entry(bore))
    return shop, bore, made, later


def both(store: Store, machine: int) -> tuple[Facts, Facts]:
    """The facts as kept, and as read whole."""
    with store.read() as connection:
        return work_graph(connection, machine, NOW).facts, facts(connection, machine, Rule.CONFORMANCE_95)


def _first(store: Store, step: int) -> None:
    with store.act(Act.EDIT, "moved") as tx:
        tx.get(Task, step, "step").position = -1


def _remove(store: Store, record: type[Fit] | type[Task] | type[Link], row_id: int) -> None:
    with store.act(Act.REMOVE, "removed") as tx:
        tx.session.delete(tx.get(record, row_id, "row"))


def test_every_input_of_a_kept_row_is_heard_and_nothing_is_read_whole(
    fitted: tuple[Shop, int, int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    shop, bore, made, _ = fitted
    store, machine = shop.store, shop.machine
    both(store, machine)
    monkeypatch.setattr(rows_facts, "fits_in_work", _refuse)
    changes: dict[str, Callable[[], object]] = {
        "a reading": lambda: measure.record_reading(store, "60.09", measure.Entry(bore, stage=Stage.CLEANED)),
        "a feature": lambda: edit.edit(store, "feature", [bore], {"name": "front bore"}),
        "a fit": lambda: edit.edit(store, "fit", [made], {"name": "front running"}),
        "a part of a side": lambda: decide.decide(store, [shop.cap], Decision.REWORK, reason="worn"),
        "the other side's part": lambda: edit.edit(store, "part", [shop.spindle], {"name": "main spindle"}),
        "a step's words": lambda: edit.edit(store, "task", [shop.strip], {"title": "Draw it"}),
        "a step more": lambda: tasks.add_task(store, machine, None, "Sweep", TaskKind.CLEAN),
        "a link": lambda: tasks.add_link(store, shop.strip, shop.refit, LinkKind.WHILE_OFF),
        "a fit gone": lambda: _remove(store, Fit, made),
    }
    for what, change in changes.items():
        before = both_kept(store, machine)
        change()
        kept = both_kept(store, machine)
        assert kept != before, what
        with monkeypatch.context() as free:
            free.setattr(rows_facts, "fits_in_work", _FITS_IN_WORK)
            assert kept == both(store, machine)[1], what


_FITS_IN_WORK = rows_facts.fits_in_work


def _refuse(*_: object) -> list[object]:
    raise AssertionError("all fits were judged again")


def both_kept(store: Store, machine: int) -> Facts:
    with store.read() as connection:
        return work_graph(connection, machine, NOW).facts


def test_undone_moved_and_removed_rows_are_heard(fitted: tuple[Shop, int, int, int]) -> None:
    shop, bore, _, _ = fitted
    store, machine = shop.store, shop.machine
    both(store, machine)
    place = identify.add_place(store, "rust bath", PlaceKind.BATH)
    for change in (
        lambda: measure.record_reading(store, "60.05", measure.Entry(bore)),
        lambda: store.undo(),
        lambda: identify.put(store, [shop.spindle], place),
        lambda: edit.edit(store, "place", [place], {"name": "derusting bath"}),
        lambda: edit.edit(store, "part", [shop.spindle], {"code": "AA-1"}),
        lambda: measure.record_reading(
            store, "59.98", measure.Entry(shop.journal, shop.near, instrument_id=shop.micrometer)
        ),
        lambda: _first(store, shop.refit),
        lambda: tasks.add_link(store, shop.strip, shop.refit),
        lambda: _remove(store, Task, shop.refit),
        lambda: store.undo(),
        lambda: _remove(store, Task, shop.strip),
    ):
        change()
        kept, whole = both(store, machine)
        assert kept == whole


def test_what_all_fits_may_rest_on_is_read_whole(fitted: tuple[Shop, int, int, int]) -> None:
    """A row gone no longer says whose it was; an instrument's doubt and a station's name are in many fits."""
    shop, bore, made, _ = fitted
    with shop.store.read() as connection:
        for whole in (
            Changed("instrument", shop.micrometer, "u"),
            Changed("station", shop.near, "u"),
            Changed("reading", 1, "d"),
            Changed("feature", bore, "d"),
        ):
            assert touched_fits(connection, [whole]) is None, whole
        assert touched_fits(connection, [Changed("feature", bore, "u")]) == {made}
        assert touched_fits(connection, [Changed("fit", made, "d")]) == {made}


def test_links_gone_and_swapped_are_laid_anew(fitted: tuple[Shop, int, int, int]) -> None:
    shop, *_ = fitted
    store, machine = shop.store, shop.machine
    first = tasks.add_link(store, shop.strip, shop.refit)
    both(store, machine)
    changes: tuple[Callable[[], object], ...] = (
        lambda: _remove(store, Link, first),
        lambda: tasks.add_link(store, shop.measure, shop.refit),
        lambda: _swap(store, shop),
    )
    for change in changes:
        before = both_kept(store, machine)
        change()
        kept, whole = both(store, machine)
        assert before != kept == whole
        with store.read() as connection:
            edges = work_graph(connection, machine, NOW).graph.edges
        typed = [(edge.before, edge.after) for edge in edges if edge.kind is Holding.LINK]
        assert typed == [(link.before, link.after) for link in whole.links]


def _swap(store: Store, shop: Shop) -> None:
    with store.act(Act.EDIT, "links") as tx:
        for link in tx.session.query(Link):
            tx.session.delete(link)
        tx.session.add(Link(before_id=shop.strip, after_id=shop.measure))


def test_more_rows_than_are_worth_mending_are_read_with_all_the_others(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    both(shop.store, shop.machine)
    monkeypatch.setattr(rows_again, "MOST", 1)
    for title in ("a", "b", "c"):
        tasks.add_task(shop.store, shop.machine, None, title)
    kept, whole = both(shop.store, shop.machine)
    assert kept == whole
