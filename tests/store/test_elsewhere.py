"""A file renamed, moved, deleted or replaced while it is open: nothing is acknowledged that nobody finds again."""

from __future__ import annotations

import shutil
import sqlite3
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from rebuild.errors import FileElsewhere
from rebuild.store.held import write_out
from rebuild.store.photo_copies import follow
from rebuild.store.photos import photo_folder, put_photo
from rebuild.store.store import Store
from rebuild.work.checks.check import check
from rebuild.work.machines import acts as identify

if TYPE_CHECKING:
    from tests.conftest import Shop


def places(path: Path) -> list[str]:
    """Asked by a stranger's connection to the one file, as a copy of it alone would be read."""
    raw = sqlite3.connect(f"file:{path}?mode=ro&immutable=1", uri=True)
    try:
        return [name for (name,) in raw.execute("SELECT name FROM place ORDER BY id")]
    finally:
        raw.close()


def mv(path: Path, target: Path) -> Path:
    subprocess.run(["mv", str(path), str(target)], check=True)
    return target


def refused(store: Store, name: str) -> FileElsewhere:
    with pytest.raises(FileElsewhere) as trouble:
        identify.add_place(store, name)
    return trouble.value


def test_a_renamed_file_refuses_the_next_act_and_holds_all_before_it(shop: Shop, tmp_path: Path) -> None:
    store = shop.store
    identify.add_place(store, "before")
    renamed = mv(shop.path, tmp_path / "renamed.rebuild")
    trouble = refused(store, "after")
    assert "renamed or moved" in str(trouble)
    assert trouble.went_to == str(renamed)
    assert trouble.way_out
    assert places(renamed) == ["before"]  # the log was moved in through the handle
    store.close()
    assert not list(tmp_path.glob("filled.rebuild*"))
    assert check(renamed) == []


def test_a_file_moved_to_another_folder_is_found(shop: Shop, tmp_path: Path) -> None:
    store = shop.store
    identify.add_place(store, "before")
    (tmp_path / "other").mkdir()
    moved = mv(shop.path, tmp_path / "other" / "shop.rebuild")
    assert refused(store, "after").went_to == str(moved)
    assert places(moved) == ["before"]


def test_the_look_for_news_says_it_without_an_act(shop: Shop, tmp_path: Path) -> None:
    store = shop.store
    mv(shop.path, tmp_path / "renamed.rebuild")
    for _ in range(2):
        with pytest.raises(FileElsewhere):
            store.poll()


def test_renamed_in_the_middle_of_an_act(shop: Shop, tmp_path: Path) -> None:
    from rebuild.store.act import Act

    store = shop.store
    renamed = tmp_path / "renamed.rebuild"

    def half_done() -> None:
        with store.act(Act.EDIT, "") as tx:
            tx.connection.exec_driver_sql("UPDATE part SET note = 'half' WHERE id = 1")
            mv(shop.path, renamed)

    with pytest.raises(FileElsewhere):
        half_done()
    raw = sqlite3.connect(renamed)
    assert raw.execute("SELECT COUNT(*) FROM part WHERE note = 'half'").fetchone() == (0,)
    raw.close()


def test_a_deleted_file_is_saved_under_a_new_name(shop: Shop, tmp_path: Path) -> None:
    store = shop.store
    identify.add_place(store, "before")
    sha256 = put_photo(shop.path, b"a photo", ".png")
    assert sha256
    shop.path.unlink()
    trouble = refused(store, "after")
    assert "was deleted" in str(trouble)
    assert trouble.went_to == ""
    store.keep_entry("place", "after", "the file was gone")
    assert [one.typed for one in store.held] == ["after"]
    kept = store.save_under(tmp_path / "saved.rebuild")
    store.close()
    assert not shop.path.exists()
    assert places(kept.path) == ["before"]
    assert check(kept.path) == []


def test_a_file_replaced_by_a_copy(shop: Shop, tmp_path: Path) -> None:
    """As a sync program or an editor does: written beside, renamed over."""
    store = shop.store
    identify.add_place(store, "at the copy")
    assert store.make_whole()
    copied = Path(shutil.copy(shop.path, tmp_path / "copied.tmp"))
    identify.add_place(store, "after the copy")
    mv(copied, shop.path)
    assert "was replaced" in str(refused(store, "never"))
    assert places(shop.path) == ["at the copy"]
    kept = store.save_under(tmp_path / "mine.rebuild")
    store.close()
    assert places(kept.path) == ["at the copy", "after the copy"]
    other = Store.open(shop.path)  # no log of ours is mixed into the other file
    other.close()
    assert places(shop.path) == ["at the copy"]
    assert check(shop.path) == []


def test_overwritten_in_place(shop: Shop, tmp_path: Path, filled_template: tuple[Path, object]) -> None:
    store = shop.store
    identify.add_place(store, "mine")
    with shop.path.open("r+b") as file:
        older = filled_template[0].read_bytes()
        raw = sqlite3.connect(tmp_path / "theirs.rebuild")
        raw.close()
        theirs = tmp_path / "theirs.rebuild"
        theirs.write_bytes(older)
        other = Store.open(theirs)
        identify.add_place(other, "theirs")
        other.close()
        file.write(theirs.read_bytes())
        file.truncate()
    trouble = refused(store, "never")
    assert trouble.overwritten
    assert "overwritten" in str(trouble)
    store.close()
    assert places(shop.path) == ["theirs"]
    aside = [path.name for path in tmp_path.glob("*log of another state*")]
    assert len(aside) == 1
    again = Store.open(shop.path)
    identify.add_place(again, "on")
    again.close()
    assert places(shop.path) == ["theirs", "on"]
    assert check(shop.path) == []


def test_a_file_that_comes_back_goes_on_and_takes_what_was_held(shop: Shop, tmp_path: Path) -> None:
    store = shop.store
    away = mv(shop.path, tmp_path / "away.rebuild")
    refused(store, "not now")
    store.keep_entry("place", "held", "away")
    mv(away, shop.path)
    store.poll()
    assert store.held == []
    identify.add_place(store, "again")
    with store.read() as connection:
        kept = connection.exec_driver_sql("SELECT typed FROM kept_entry").scalars().all()
    assert list(kept) == ["held"]


def test_two_windows_write_and_move_in_without_mistaking_each_other(shop: Shop) -> None:
    one, two = shop.store, Store.open(shop.path)
    for number in range(12):
        identify.add_place((one, two)[number % 2], str(number))
        if number % 3 == 0:
            (two, one)[number % 2].make_whole()
        one.poll()
        two.poll()
    two.close()
    one.make_whole()
    assert places(shop.path) == [str(number) for number in range(12)]


def test_photos_follow(shop: Shop, tmp_path: Path) -> None:
    put_photo(shop.path, b"a photo", ".png")
    shop.store.close()
    renamed = mv(shop.path, tmp_path / "renamed.rebuild")
    follow(shop.path, renamed)
    assert len(list(photo_folder(renamed).rglob("*.png"))) == 1
    assert not photo_folder(shop.path).exists()


def test_what_is_held_is_written_out_as_plain_text(shop: Shop) -> None:
    store = shop.store
    shop.path.unlink()
    store.keep_entry("front journal, as found", "59.98", "the file was gone")
    written = write_out(store.held, shop.path)
    assert written.parent == shop.path.parent
    assert "front journal, as found: 59.98" in written.read_text(encoding="utf-8")
