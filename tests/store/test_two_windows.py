"""Two windows on one file: news within a poll, one undo for all, a clash that loses nothing."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from rebuild.errors import Clash, NotThere
from rebuild.store.changed import Changed
from rebuild.store.store import Store
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.records.rows import card
from rebuild.work.records.rows_kept import kept_entries

if TYPE_CHECKING:
    from tests.conftest import Shop


@pytest.fixture
def other(shop: Shop) -> Iterator[Store]:
    """A second window on the shop's file."""
    opened = Store.open(shop.path)
    yield opened
    opened.close()


def test_the_second_window_sees_what_the_first_did(shop: Shop, other: Store) -> None:
    told: list[Changed] = []
    other.observe(told.append)
    taken = measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near))
    assert told == []
    other.poll()
    (changed,) = told
    assert changed.elsewhere
    assert changed.rows("reading").added == {taken.reading_id}
    other.poll()
    assert len(told) == 1


def test_a_window_does_not_hear_its_own_acts_twice(shop: Shop, other: Store) -> None:
    told: list[Changed] = []
    other.observe(told.append)
    identify.add_place(other, "tote 1")
    other.poll()
    assert [changed.elsewhere for changed in told] == [False]


def test_news_of_others_comes_with_the_own_act_when_it_was_not_polled(shop: Shop, other: Store) -> None:
    told: list[Changed] = []
    other.observe(told.append)
    shelf = identify.add_place(shop.store, "shelf 1")
    tote = identify.add_place(other, "tote 1")
    assert [(changed.elsewhere, changed.rows("place").added) for changed in told] == [
        (True, {shelf}),
        (False, {tote}),
    ]


def test_news_is_not_lost_when_an_act_of_ones_own_fails(shop: Shop, other: Store) -> None:
    """A rolled-back act gives its journal ids back; the other window's next act takes them."""
    told: list[Changed] = []
    other.observe(told.append)
    with pytest.raises(NotThere):
        identify.put(other, [shop.spindle], 999)
    shelf = identify.add_place(shop.store, "shelf 1")
    other.poll()
    assert [changed.rows("place").added for changed in told] == [{shelf}]


def test_undo_takes_back_the_newest_act_of_any_window(shop: Shop, other: Store) -> None:
    identify.add_place(shop.store, "shelf 1")
    assert other.undo() == "new place shelf 1"
    assert shop.store.redo_label() == "new place shelf 1"


def test_another_process_is_seen_too(shop: Shop) -> None:
    told: list[Changed] = []
    shop.store.observe(told.append)
    code = (
        "import sys; from pathlib import Path; from rebuild.store.store import Store\n"
        "from rebuild.work.machines import acts as identify\n"
        "store = Store.open(Path(sys.argv[1])); identify.add_place(store, 'bath'); store.close()"
    )
    subprocess.run([sys.executable, "-c", code, str(shop.path)], check=True)
    shop.store.poll()
    assert [changed.touches("place") for changed in told] == [True]


def test_a_setting_changed_elsewhere_is_news(shop: Shop, other: Store) -> None:
    told: list[Changed] = []
    other.observe(told.append)
    shop.store.set_setting("owner", "me")
    other.poll()
    assert [changed.touches("setting") for changed in told] == [True]
    other.poll()
    assert len(told) == 1
    assert other.setting("owner") == "me"


def seen(store: Store, record: str, row_id: int) -> dict[str, str]:
    with store.read() as connection:
        return card(connection, record, row_id).fields


def test_a_clash_says_who_won_and_keeps_what_was_typed(shop: Shop, other: Store) -> None:
    before = seen(other, "part", shop.spindle)
    edit.edit(shop.store, "part", [shop.spindle], {"material": "42CrMo4"}, seen=before)
    with pytest.raises(Clash) as clash:
        edit.edit(other, "part", [shop.spindle], {"material": "C60"}, seen=before)
    sentence = str(clash.value)
    assert "HS-01 spindle, material" in sentence
    assert "“C60”" in sentence
    assert "“42CrMo4”" in sentence
    assert "kept entries" in sentence
    assert seen(other, "part", shop.spindle)["material"] == "42CrMo4"
    with other.read() as connection:
        (kept,) = kept_entries(connection)
    assert kept.typed == "C60"
    assert "spindle" in kept.meant_for
    other.settle_kept(kept.id)
    with other.read() as connection:
        assert kept_entries(connection) == []


def test_every_typed_field_of_a_clash_is_kept(shop: Shop, other: Store) -> None:
    before = seen(other, "part", shop.spindle)
    edit.edit(shop.store, "part", [shop.spindle], {"material": "42CrMo4"}, seen=before)
    with pytest.raises(Clash):
        edit.edit(other, "part", [shop.spindle], {"material": "C60", "stamped": "B 7"}, seen=before)
    with other.read() as connection:
        assert {entry.typed for entry in kept_entries(connection)} == {"C60", "B 7"}


def test_the_same_value_typed_in_both_windows_is_no_clash(shop: Shop, other: Store) -> None:
    before = seen(other, "part", shop.spindle)
    edit.edit(shop.store, "part", [shop.spindle], {"material": "42CrMo4"}, seen=before)
    edit.edit(other, "part", [shop.spindle], {"material": "42CrMo4"}, seen=before)


def test_different_fields_of_one_row_do_not_clash(shop: Shop, other: Store) -> None:
    before = seen(other, "part", shop.spindle)
    edit.edit(shop.store, "part", [shop.spindle], {"material": "42CrMo4"}, seen=before)
    edit.edit(other, "part", [shop.spindle], {"stamped": "B 7"}, seen=before)
    fields = seen(other, "part", shop.spindle)
    assert (fields["material"], fields["stamped"]) == ("42CrMo4", "B 7")


def test_what_was_typed_for_a_removed_row_is_kept(shop: Shop, other: Store) -> None:
    before = seen(other, "part", shop.spindle)
    edit.remove(shop.store, "part", [shop.spindle])
    with pytest.raises(NotThere, match="kept entries"):
        edit.edit(other, "part", [shop.spindle], {"material": "C60"}, seen=before)
    with other.read() as connection:
        assert [entry.typed for entry in kept_entries(connection)] == ["C60"]


def test_a_spec_set_in_both_windows_clashes(shop: Shop, other: Store) -> None:
    spec.set_spec(shop.store, [shop.journal], "60 -0.020/-0.040", seen="60 -0.010/-0.029")
    with pytest.raises(Clash, match=r"60 -0\.020/-0\.040"):
        spec.set_spec(other, [shop.journal], "60 h6", seen="60 -0.010/-0.029")
    with other.read() as connection:
        assert [entry.typed for entry in kept_entries(connection)] == ["60 h6"]


def test_kept_entries_survive_undo(shop: Shop, other: Store) -> None:
    other.keep_entry("HS-01 spindle, journal", "24.98", "clash")
    while other.undo():
        pass
    with other.read() as connection:
        assert [entry.typed for entry in kept_entries(connection)] == ["24.98"]


def test_two_files_of_one_name_do_not_meet(shop: Shop, project: Path) -> None:
    separate = Store.open(project)
    told: list[Changed] = []
    separate.observe(told.append)
    identify.add_place(shop.store, "shelf")
    separate.poll()
    assert told == []
    separate.close()
