"""The index of words of a large file is made bite by bite, and is the same as one made at once."""

from __future__ import annotations

from contextlib import closing

import pytest

from rebuild.store.entry import driver
from rebuild.store.find import bites
from rebuild.store.store import Store
from rebuild.work.editing import acts as edit
from rebuild.work.find.acts_search import search
from rebuild.work.machines import acts as identify
from tests.conftest import Shop


@pytest.fixture(autouse=True)
def small_bites(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bites.bite, "__defaults__", (7,))


def forget(store: Store) -> None:
    """As a file no search was ever made in."""
    store._on_disk().beside_the_journal(
        lambda connection: driver(connection).execute("DELETE FROM find_mark")
    )


def entries(store: Store) -> list[tuple[int, str]]:
    with store.read() as connection:
        return driver(connection).execute("SELECT rowid, words FROM find_words ORDER BY rowid").fetchall()


def known(store: Store) -> list[tuple[int, str]]:
    """What an index made at once holds."""
    store.follow_words(anew=True)
    return entries(store)


def to_the_end(store: Store) -> list[float]:
    shares = [store.follow_some_words()]
    while shares[-1] < 1:
        shares.append(store.follow_some_words())
    return shares


def test_bites_make_the_same_index_and_say_how_far_it_is(shop: Shop) -> None:
    forget(shop.store)
    shares = to_the_end(shop.store)
    assert len(shares) > 5
    assert shares == sorted(shares)
    assert (shop.store.words_behind, shop.store.follow_some_words()) == (0, 1.0)
    made = entries(shop.store)
    assert made == known(shop.store)


def test_what_is_stored_and_removed_meanwhile_is_in_it_and_a_new_start_goes_on(shop: Shop) -> None:
    whole = len(known(shop.store))
    forget(shop.store)
    for _ in range(4):
        shop.store.follow_some_words()
    far = len(entries(shop.store))
    assert 0 < far < whole
    part = identify.add_part(shop.store, shop.machine, shop.headstock, "quill clamp", "HS-77")
    edit.remove(shop.store, "feature", [shop.lost_motion])
    shop.store.close()
    with closing(Store.open(shop.path)) as again:
        again.follow_some_words()
        assert len(entries(again)) > far, "begun again from nothing"
        to_the_end(again)
        assert entries(again) == known(again)
        assert [row.row for row in search(again, "quill") if row.table == "part"] == [part]


def test_two_windows_gather_one_index(shop: Shop) -> None:
    forget(shop.store)
    with closing(Store.open(shop.path)) as other:
        shares = []
        for _ in range(400):
            shares += [shop.store.follow_some_words(), other.follow_some_words()]
            if shares[-1] == 1:
                break
        assert shares[-1] == 1
        assert entries(other) == known(shop.store)


def test_many_changes_are_followed_by_bites_too(shop: Shop) -> None:
    shop.store.follow_words()
    for number in range(12):
        identify.add_part(shop.store, shop.machine, shop.headstock, f"washer {number}")
    assert shop.store.words_behind >= 12
    shares = to_the_end(shop.store)
    assert len(shares) > 1
    assert entries(shop.store) == known(shop.store)


def test_a_search_that_may_not_wait_finds_what_is_there_by_then(shop: Shop) -> None:
    forget(shop.store)
    assert search(shop.store, "spindle", within_s=0.0) == []
    assert shop.store.words_behind == -1
    to_the_end(shop.store)
    assert search(shop.store, "spindle", within_s=0.0)
