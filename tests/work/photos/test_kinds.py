"""Kinds of photo a phone or stereo camera writes, against a second reader of the same files."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtGui import QImage

from rebuild.sheets.pictures import small_jpeg
from rebuild.store.photos import photo_path
from rebuild.window.ink.thumbnail import read_scaled
from rebuild.work.photos.acts_take import take_in
from rebuild.work.photos.rows import photos
from tests.conftest import Shop

DATA = Path(__file__).parent / "data"


def test_an_mpo_is_taken_in_by_its_first_picture(shop: Shop, tmp_path: Path) -> None:
    path = tmp_path / "both_eyes.mpo"
    left, right = (Image.new("RGB", (640, 480), colour) for colour in ((200, 10, 10), (10, 10, 200)))
    left.save(path, "MPO", save_all=True, append_images=[right])
    with Image.open(path) as image:
        assert (image.format, image.n_frames) == ("MPO", 2)
    done = take_in(shop.store, shop.machine, [path])
    assert len(done.added) == 1
    with shop.store.read() as connection:
        row = photos(connection, shop.machine)[0]
    kept = row.path(shop.store.path)
    assert kept.suffix == ".jpg"
    assert read_scaled(kept, 64).pixelColor(32, 24).red() > 150


def test_webp_is_taken_in_and_shown(shop: Shop, tmp_path: Path) -> None:
    path = tmp_path / "phone.webp"
    Image.new("RGB", (320, 240), (10, 160, 60)).save(path, "WEBP")
    assert len(take_in(shop.store, shop.machine, [path]).added) == 1


def test_heic_is_read_dated_and_drawn_as_a_second_reader_sees_it(shop: Shop) -> None:
    # Source: data/bench.heic was written by the encoder of pillow-heif (not a part of this project) from the
    # picture beside it as PNG, with Exif DateTimeOriginal 2026:05:02 20:15:30 and Model "Invented phone".
    pytest.importorskip("pi_heif")
    done = take_in(shop.store, shop.machine, [DATA / "bench.heic"])
    assert (len(done.added), done.refused) == (1, ())
    with shop.store.read() as connection:
        row = photos(connection, shop.machine)[0]
    assert (row.ending, row.taken_at) == (".heic", dt.datetime(2026, 5, 2, 20, 15, 30))
    assert row.camera == "Invented phone"
    kept = photo_path(shop.store.path, row.sha256, row.ending)
    drawn = read_scaled(kept, 160)
    with Image.open(DATA / "bench.png") as image:
        assert (row.width, row.height) == image.size
        wanted = image.convert("RGB").resize((drawn.width(), drawn.height()))
    assert not drawn.isNull()
    for x, y in ((20, 20), (80, 60), (140, 100)):
        there, here = wanted.getpixel((x, y)), drawn.pixelColor(x, y)
        assert isinstance(there, tuple)
        assert abs(there[0] - here.red()) + abs(there[1] - here.green()) + abs(there[2] - here.blue()) < 40
    assert small_jpeg(kept)


def test_a_damaged_heic_is_refused_or_shown_empty_and_the_rest_is_taken(shop: Shop, tmp_path: Path) -> None:
    content = (DATA / "bench.heic").read_bytes()
    broken = tmp_path / "broken.heic"
    broken.write_bytes(content[:200] + bytes(len(content) - 200))
    good = tmp_path / "good.png"
    Image.new("RGB", (32, 24)).save(good)
    done = take_in(shop.store, shop.machine, [broken, good])
    assert len(done.added) == 1
    assert "“broken.heic” is not a photo that can be read" in done.refused[0]
    assert isinstance(read_scaled(broken, 64), QImage)
