"""What stands beside an act: done once it is stored, never after one given up, and not where a part was taken back."""

from __future__ import annotations

from contextlib import suppress

from rebuild.model.records.places import Place
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.store.under_way import act_of, wrote
from rebuild.store.unreadable import BadCell


def _begin(store: Store, heard: list[str], *, give_up: bool = False, part_back: bool = False) -> None:
    with suppress(RuntimeError), store.act(Act.ADD_PLACE, "shelf") as tx:
        act = act_of(tx.connection)
        assert act is not None
        assert not wrote(tx.connection)
        tx.session.add(Place(name="shelf"))
        tx.session.flush()
        assert wrote(tx.connection)
        act.once_stored(lambda: heard.append("stored"))
        if part_back:
            part = tx.session.begin_nested()
            tx.session.add(Place(name="drawer"))
            tx.session.flush()
            part.rollback()
            assert act.in_parts
        assert not heard
        if give_up:
            raise RuntimeError("given up")


def test_what_waits_for_an_act_is_done_once_it_is_on_the_disk(store: Store) -> None:
    heard: list[str] = []
    _begin(store, heard, give_up=True)
    assert heard == []
    _begin(store, heard, part_back=True)
    assert heard == []
    _begin(store, heard)
    assert heard == ["stored"]
    with store.read() as connection:
        assert act_of(connection) is None
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM place").scalar() == 2


def test_an_act_that_wrote_nothing_ends_without_it(store: Store) -> None:
    heard: list[str] = []
    with store.act(Act.EDIT, "nothing") as tx:
        act = act_of(tx.connection)
        assert act is not None
        act.once_stored(lambda: heard.append("stored"))
    assert heard == []


def test_each_act_is_its_own_and_lends_its_reader_only_while_every_cell_is_read(store: Store) -> None:
    with store.act(Act.EDIT, "one") as tx:
        first = act_of(tx.connection)
    with store.act(Act.EDIT, "two") as tx:
        second = act_of(tx.connection)
    assert first is not None
    assert second is not None
    assert first is not second
    assert second.reader is not None
    store.go_round((BadCell("place", 1, "kind", "zeppelin", "no kind of place", None, leaves_row_out=True),))
    with store.act(Act.EDIT, "three") as tx:
        third = act_of(tx.connection)
    assert third is not None
    assert third.reader is None
