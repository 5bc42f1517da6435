"""Photos: kept by content, sorted, marked; nothing half written, nothing twice."""

from __future__ import annotations

import datetime as dt
import hashlib
from pathlib import Path

import pytest
from PIL import Image

from rebuild.errors import BadEntry
from rebuild.store.photos import damaged_photos, photo_folder, photo_path, put_photo
from rebuild.words.photos import MarkKind
from rebuild.work.editing.acts import remove
from rebuild.work.photos.about import About
from rebuild.work.photos.acts import mark_photo, photos_in, sort_photos
from rebuild.work.photos.acts_take import take_in
from rebuild.work.photos.rows import Which, marks, photos
from tests.conftest import Shop


def picture(folder: Path, name: str, shade: int, taken: str = "") -> Path:
    path = folder / name
    image = Image.new("L", (64, 48), shade)
    if taken:
        exif = image.getexif()
        exif[306] = taken
        image.save(path, exif=exif)
    else:
        image.save(path)
    return path


def test_a_photo_is_kept_under_its_own_hash_with_the_camera_s_date(shop: Shop, tmp_path: Path) -> None:
    path = picture(tmp_path, "IMG_1.jpg", 90, "2026:02:14 19:30:00")
    done = take_in(shop.store, shop.machine, [path], About(part_id=shop.spindle))
    with shop.store.read() as connection:
        row = photos(connection, shop.machine)[0]
    assert (row.id, row.about, row.width, row.height) == (done.added[0], "HS-01 spindle", 64, 48)
    assert row.taken_at == dt.datetime(2026, 2, 14, 19, 30)
    kept = row.path(shop.path)
    assert kept.read_bytes() == path.read_bytes()
    assert kept.stem == hashlib.sha256(path.read_bytes()).hexdigest()


def test_the_same_photo_is_not_taken_in_twice(shop: Shop, tmp_path: Path) -> None:
    path = picture(tmp_path, "a.png", 10)
    first = take_in(shop.store, shop.machine, [path])
    again = take_in(
        shop.store, shop.machine, [picture(tmp_path, "b.png", 10), picture(tmp_path, "c.png", 20)]
    )
    assert again.already == first.added
    assert len(again.added) == 1


def test_what_is_no_photo_is_refused_by_name_and_the_rest_is_taken(shop: Shop, tmp_path: Path) -> None:
    text = tmp_path / "notes.jpg"
    text.write_text("rear cap 0.0022")
    done = take_in(shop.store, shop.machine, [text, picture(tmp_path, "a.png", 10), tmp_path / "gone.jpg"])
    assert len(done.added) == 1
    assert done.refused[0].startswith("Photo: “notes.jpg” is not a photo that can be read.")
    assert "gone.jpg" in done.refused[1]


def test_sorting_leaves_the_inbox_and_undo_brings_it_back(shop: Shop, tmp_path: Path) -> None:
    done = take_in(shop.store, shop.machine, [picture(tmp_path, "a.png", 10)])

    def inbox() -> list[int]:
        with shop.store.read() as connection:
            return [row.id for row in photos(connection, shop.machine, Which.INBOX)]

    assert inbox() == list(done.added)
    sort_photos(shop.store, done.added, About(task_id=shop.strip))
    assert inbox() == []
    with shop.store.read() as connection:
        assert (
            photos(connection, shop.machine, Which.CHOSEN, task_ids=(shop.strip,))[0].about
            == "Take the spindle out"
        )
    shop.store.undo()
    assert inbox() == list(done.added)


def test_marks_are_shares_of_the_picture(shop: Shop, tmp_path: Path) -> None:
    key = take_in(shop.store, shop.machine, [picture(tmp_path, "a.png", 10)]).added[0]
    mark_photo(shop.store, key, MarkKind.MATCH_MARK, (0.1, 0.2), (0.3, 0.2), "1-1")
    with shop.store.read() as connection:
        mark = marks(connection, key)[0]
    assert (mark.kind, mark.x, mark.y2, mark.text) == (MarkKind.MATCH_MARK, 0.1, 0.2, "1-1")
    with pytest.raises(BadEntry, match="Words: is empty"):
        mark_photo(shop.store, key, MarkKind.LABEL, (0.1, 0.2), (0.3, 0.2))
    with pytest.raises(BadEntry, match="lies off the picture"):
        mark_photo(shop.store, key, MarkKind.ARROW, (0.1, 0.2), (1.3, 0.2))


def test_a_removed_photo_comes_back_with_undo(shop: Shop, tmp_path: Path) -> None:
    key = take_in(shop.store, shop.machine, [picture(tmp_path, "a.png", 10)]).added[0]
    remove(shop.store, "photo", [key])
    shop.store.undo()
    with shop.store.read() as connection:
        assert photos(connection, shop.machine)[0].path(shop.path).exists()


def test_missing_and_changed_files_are_found(tmp_path: Path) -> None:
    project = tmp_path / "shop.rebuild"
    good, bad = put_photo(project, b"one", ".jpg"), put_photo(project, b"two", ".jpg")
    photo_path(project, bad, ".jpg").write_bytes(b"other")
    gone = "0" * 64
    found = damaged_photos(project, [(good, ".jpg"), (bad, ".jpg"), (gone, ".jpg")])
    assert found == [f"{bad}.jpg has changed", f"{gone}.jpg is missing"]
    assert photo_folder(project).name == "shop photos"
    assert not list(photo_folder(project).rglob("*.part"))


def test_a_folder_is_searched_with_what_lies_in_it(tmp_path: Path) -> None:
    (tmp_path / "deep").mkdir()
    picture(tmp_path / "deep", "b.JPG".lower(), 3)
    picture(tmp_path, "a.png", 3)
    (tmp_path / "list.txt").write_text("")
    assert [path.name for path in photos_in(tmp_path)] == ["a.png", "b.jpg"]
