"""A drop of photos with bad ones among them: each bad one is said, the rest is always taken."""

from __future__ import annotations

import io
import os
import struct
import zlib
from pathlib import Path

import pytest
from PIL import Image

from rebuild.store.photos import damaged_photos, photo_path
from rebuild.store.store import Store
from rebuild.work.photos.acts_take import take_in
from rebuild.work.photos.rows import photos
from tests.conftest import Shop
from tests.work.photos.test_photos import picture


def noisy(path: Path) -> bytes:
    """A JPEG with something in every block."""
    image = Image.effect_noise((320, 240), 80)
    image.save(path)
    return path.read_bytes()


def png_of(width: int, height: int) -> bytes:
    """A PNG that claims a size and holds next to nothing."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    data = zlib.compress(b"\0" * 1000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", data) + chunk(b"IEND", b"")


def bad_files(folder: Path) -> dict[Path, str]:
    """Files that are no photos, and what is said of each."""
    whole = noisy(folder / "whole.jpg")
    good_png = io.BytesIO()
    Image.new("L", (64, 48), 7).save(good_png, "PNG")
    png = good_png.getvalue()
    contents = {
        "empty.jpg": (b"", "is not a photo that can be read"),
        "head only.jpg": (whole[:20], "is not a photo that can be read"),
        "broken.png": (png[:30] + b"\xff" * 8 + png[38:], "is not a photo that can be read"),
        "bomb.png": (png_of(60_000, 60_000), "claims more pixels than any photo has"),
        "big.png": (png_of(11_000, 10_000), "11000 × 10000 pixels"),
        "bad tags.tif": (b"II*\0\x08\0\0\0\xff\xff" + b"\xff" * 60, "is not a photo that can be read"),
        "text.webp": (b"RIFF\x10\0\0\0WEBPVP8 \xff\xff\xff\xff", "is not a photo that can be read"),
        "bad.bmp": (b"BM" + b"\xff" * 60, "is not a photo that can be read"),
    }
    found = {}
    for name, (content, words) in contents.items():
        (folder / name).write_bytes(content)
        found[folder / name] = words
    os.mkfifo(folder / "pipe.jpg")
    (folder / "folder.jpg").mkdir()
    found[folder / "pipe.jpg"] = found[folder / "folder.jpg"] = "is no file with a photo"
    found[folder / "gone.jpg"] = "is not there"
    return found


def test_every_bad_one_is_said_and_the_rest_is_taken(shop: Shop, tmp_path: Path) -> None:
    folder = tmp_path / "drop"
    folder.mkdir()
    bad = bad_files(folder)
    good = [picture(folder, "a.png", 10), picture(folder, "z.png", 20)]
    done = take_in(shop.store, shop.machine, [good[0], *bad, good[1]])
    assert len(done.added) == 2
    assert len(done.refused) == len(bad)
    for path, sentence in zip(bad, done.refused, strict=True):
        assert f"“{path.name}”" in sentence
        assert bad[path] in sentence


def test_a_half_cut_jpeg_is_taken_in_and_said(shop: Shop, tmp_path: Path) -> None:
    whole = noisy(tmp_path / "whole.jpg")
    (tmp_path / "half.jpg").write_bytes(whole[: len(whole) // 2])
    done = take_in(shop.store, shop.machine, [tmp_path / "half.jpg", tmp_path / "whole.jpg"])
    assert len(done.added) == 2
    assert done.refused == ()
    assert done.said == (
        "Photo: “half.jpg” is cut short; what there is of it was taken in. Copy it from the camera again.",
    )
    with shop.store.read() as connection:
        notes = connection.exec_driver_sql("SELECT file_name, note FROM photo ORDER BY id").all()
    assert "Its end is missing" in notes[0].note
    assert "Its end is missing" not in notes[1].note


def test_the_date_of_a_file_is_not_when_it_was_taken(shop: Shop, tmp_path: Path) -> None:
    path = picture(tmp_path, "a.png", 10)
    os.utime(path, (1_700_000_000, 1_700_000_000))
    take_in(shop.store, shop.machine, [path])
    with shop.store.read() as connection:
        row = photos(connection, shop.machine)[0]
        note = connection.exec_driver_sql("SELECT note FROM photo").scalar_one()
    assert row.taken_at is None
    assert note.startswith("The camera left no date; the file is of 2023-11-1")


def test_damaged_notes_of_the_camera_do_not_cost_the_photo(shop: Shop, tmp_path: Path) -> None:
    path = picture(tmp_path, "a.jpg", 10, "2026:02:14 19:30:00")
    content = path.read_bytes()
    at = content.index(b"Exif\0\0") + 14
    path.write_bytes(content[:at] + b"\xff\xff" + content[at + 2 :])
    assert len(take_in(shop.store, shop.machine, [path]).added) == 1


def test_an_altered_photo_taken_in_again_heals(shop: Shop, tmp_path: Path) -> None:
    path = picture(tmp_path, "a.png", 10)
    key = take_in(shop.store, shop.machine, [path]).added
    with shop.store.read() as connection:
        row = photos(connection, shop.machine)[0]
    pair = [(row.sha256, row.ending)]
    row.path(shop.path).write_bytes(b"altered")
    assert damaged_photos(shop.path, pair)
    assert take_in(shop.store, shop.machine, [path]).already == key
    assert damaged_photos(shop.path, pair) == []


def test_a_link_as_the_file_s_name_finds_its_photos(shop: Shop, tmp_path: Path) -> None:
    take_in(shop.store, shop.machine, [picture(tmp_path, "a.png", 10)])
    shop.close()
    (tmp_path / "desktop").mkdir()
    link = tmp_path / "desktop" / "lathe.rebuild"
    link.symlink_to(shop.path)
    store = Store.open(link)
    with store.read() as connection:
        row = photos(connection, shop.machine)[0]
    store.close()
    assert row.path(link).exists()
    assert row.path(link) == photo_path(shop.path, row.sha256, row.ending)


def test_a_name_no_text_can_hold_is_taken_in(shop: Shop, tmp_path: Path) -> None:
    name = os.fsdecode(bytes(tmp_path) + b"/bad\xff.png")
    path = Path(name)
    try:
        path.write_bytes(picture(tmp_path, "a.png", 10).read_bytes())
    except OSError:
        pytest.skip("this file system refuses such names itself")
    assert len(take_in(shop.store, shop.machine, [path]).added) == 1
