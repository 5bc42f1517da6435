"""Labels of parts and places, and what their codes mean after a rename, a removal, or in another file."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from rebuild.errors import BadEntry, NotThere
from rebuild.store.store import Store
from rebuild.trade.labels.code import Code, Tagged
from rebuild.words.places import PlaceKind
from rebuild.words.readings import FeatureKind
from rebuild.words.teardown import RemovalWay
from rebuild.work.editing.acts import edit, remove
from rebuild.work.labels.rows import code_meant, file_mark, part_labels, parts_of, place_labels
from rebuild.work.machines.acts import add_machine, add_part, add_place, put
from rebuild.work.places.rows import places
from rebuild.work.readings.acts_features import add_feature
from rebuild.work.teardown.acts import Off, log_removal
from rebuild.work.teardown.acts_line import say_removal
from tests.conftest import Shop
from tests.work.teardown.apron import Apron


def test_a_label_tells_the_part_and_its_code_is_read_back(small_apron: Apron) -> None:
    part = small_apron.parts["AP-12"]
    with small_apron.store.read() as connection:
        label = part_labels(connection, [part])[0]
        assert label.big == "AP-12"
        assert label.name
        assert label.machine
        meant = code_meant(connection, label.code)
        assert (meant.sort, meant.id) == (Tagged.PART, part)
        assert meant.called == f"AP-12 {label.name}"
        every = part_labels(connection, parts_of(connection, meant.machine_id or 0))
        assert [one.big for one in every] == sorted(small_apron.parts)


def test_a_tag_printed_before_a_rename_still_names_its_part(small_apron: Apron) -> None:
    part = small_apron.parts["AP-12"]
    with small_apron.store.read() as connection:
        code = part_labels(connection, [part])[0].code
    edit(small_apron.store, "part", [part], {"code": "AP-99", "name": "Renamed"})
    with small_apron.store.read() as connection:
        assert code_meant(connection, code).called == "AP-99 Renamed"
        assert part_labels(connection, [part])[0].code == code


def test_a_tag_of_a_removed_part_says_since_when(small_apron: Apron) -> None:
    part = small_apron.parts["AP-12"]
    with small_apron.store.read() as connection:
        code = part_labels(connection, [part])[0].code
        never = Code(Tagged.PART, file_mark(connection), 9999).text()
    remove(small_apron.store, "part", [part])
    with small_apron.store.read() as connection:
        with pytest.raises(
            NotThere, match=r"names a part that is gone since \d+ [A-Z][a-z]{2} \d{4} .*Undo that"
        ):
            code_meant(connection, code)
        with pytest.raises(NotThere, match="names a part this file never had"):
            code_meant(connection, never)
    small_apron.store.undo()
    with small_apron.store.read() as connection:
        assert code_meant(connection, code).id == part


def test_a_tag_of_another_file_is_said(small_apron: Apron, tmp_path: Path) -> None:
    with small_apron.store.read() as connection:
        code = part_labels(connection, [small_apron.parts["AP-12"]])[0].code
    other = Store.create(tmp_path / "other.rebuild")
    add_machine(other, "Shaper of another shed")
    other.close()
    with sqlite3.connect(other.path) as raw:  # not of the same second, which is what tells two files apart
        raw.execute("UPDATE act SET at = '2001-02-03T04:05:06' WHERE id = 1")
    raw.close()
    other = Store.open(other.path)
    with (
        other.read() as connection,
        pytest.raises(BadEntry, match=r"is a tag of another file\. Open the file"),
    ):
        code_meant(connection, code)
    other.close()


def test_a_bag_has_a_label(small_apron: Apron) -> None:
    add_place(small_apron.store, "7", PlaceKind.BAG)
    with small_apron.store.read() as connection:
        listed = places(connection)
        assert "bag 7" in [row.called for row in listed]
        labels = place_labels(connection, [row.id for row in listed])
        assert sorted(label.big for label in labels) == sorted(row.called for row in listed)
        assert [code_meant(connection, label.code).sort for label in labels] == [Tagged.PLACE] * len(listed)


def test_a_bag_label_names_machine_and_contents_and_a_tag_the_bag_and_a_left_hand_thread(shop: Shop) -> None:
    store = shop.store
    say_removal(store, shop.machine, shop.headstock, "hs1 u, M12 left hand screw, > tray A", make=True)
    with store.read() as connection:
        tag = part_labels(connection, [shop.spindle])[0]
        (tray,) = places(connection)
        label = place_labels(connection, [tray.id])[0]
    assert tag.note == "left-hand thread, tray A, 1 × M12"
    assert (tray.kind, label.big) == (PlaceKind.TRAY, "tray A")
    assert (label.name, label.machine, label.note) == ("HS-01 spindle", "Toolroom lathe", "1 × M12")
    line = "hs2 l, broke one ear, 3x M6 x 16, shims under 0.5 mm, > tray A"
    say_removal(store, shop.machine, shop.headstock, line)
    with store.read() as connection:
        (label,) = place_labels(connection, [tray.id])
        (cap,) = part_labels(connection, [shop.cap])
    assert label.note == "1 × M12, 3 × M6 × 16, shim 0.5 mm"
    assert cap.note == "broken, tray A, 3 × M6 × 16, shim 0.5 mm"
    more = [add_part(store, shop.machine, None, f"pin {at}", f"PN-{at:02}") for at in range(5)]
    put(store, more, tray.id)
    edit(store, "part", [more[0]], {"handedness": "left-hand thread"})
    screw = add_feature(store, more[1], "thread", FeatureKind.THREAD, typed={"thread": "M10 x 1.5 LH"})
    log_removal(store, shop.machine, None, Off(what="chips", place_id=tray.id))
    log_removal(store, shop.machine, None, Off((more[4],), RemovalWay.LEFT_HAND, place_id=tray.id))
    with store.read() as connection:
        (label,) = place_labels(connection, [tray.id])
        notes = [one.note for one in part_labels(connection, [*more[:3], more[4]])]
    assert screw
    assert label.name == "HS-01 spindle, HS-02 bearing cap, PN-00 pin 0, PN-01 pin 1 and 4 more"
    assert notes == [*["left-hand thread, tray A"] * 2, "tray A", "left-hand thread, tray A"]
    put(store, [shop.cap], add_place(store, "9", PlaceKind.BAG))
    with store.read() as connection:
        (label,), (cap,) = place_labels(connection, [tray.id]), part_labels(connection, [shop.cap])
    assert label.note == "1 × M12", "its screws are looked for where it was put"
    assert cap.note == "broken, bag 9"
