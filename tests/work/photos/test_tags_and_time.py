"""Photos by tags and by time: a photo of a printed tag files itself; what was in hand; a camera's clock put right."""

from __future__ import annotations

import datetime as dt
import io
import random
from pathlib import Path

import pypdfium2 as pdfium
import pytest
import zxingcpp
from PIL import Image, ImageFilter

from rebuild.errors import BadEntry
from rebuild.sheets.labels.pages import write_labels
from rebuild.store.act import Act
from rebuild.trade.labels.stock import read_stock
from rebuild.work.labels.rows import part_labels
from rebuild.work.machines.acts import add_machine, add_part
from rebuild.work.photos.about import About
from rebuild.work.photos.acts import set_camera, show_on, sort_photos, take_off
from rebuild.work.photos.acts_take import take_in
from rebuild.work.photos.codes import codes_on
from rebuild.work.photos.rows import Which, photos
from rebuild.work.photos.rows_shown import shown, what_was_in_hand
from tests.support import refuses
from tests.work.teardown.apron import Apron

TAKEN = dt.datetime(2026, 5, 2, 20, 0)
NOW = dt.datetime(2026, 11, 30, 12, 0)


def tag_picture(shop: Apron, code: str, folder: Path) -> Image.Image:
    """The printed tag of a part as a camera would see it flat, 600 dots across."""
    target = folder / f"{code}.pdf"
    with shop.store.read() as connection:
        labels = part_labels(connection, [shop.parts[code]])
    write_labels(labels, read_stock("tag 80 x 38, hole 14"), target)
    document = pdfium.PdfDocument(target)
    found: Image.Image = document[0].render(scale=600 / (80 / 25.4 * 72)).to_pil().convert("RGB")
    document.close()
    return found


def on_bench(tag: Image.Image, size: tuple[int, int] = (1600, 1200), turn: float = 8.0) -> Image.Image:
    """A tag lying on a brown bench."""
    bench = Image.new("RGB", size, (120, 95, 70))
    turned = tag.rotate(turn, expand=True, fillcolor=(120, 95, 70))
    bench.paste(turned, ((size[0] - turned.width) // 2, (size[1] - turned.height) // 2))
    return bench


def save(picture: Image.Image, path: Path, taken: dt.datetime | None, camera: str = "") -> Path:
    exif = Image.Exif()
    if camera:
        exif[272] = camera
    if taken is not None:
        exif[306] = f"{taken:%Y:%m:%d %H:%M:%S}"
    picture.save(path, "JPEG", quality=88, exif=exif)
    return path


def plain(number: int) -> Image.Image:
    return Image.new("RGB", (64, 48), (number * 7 % 255, 40, 90))


def test_a_photo_of_a_tag_files_itself_and_those_after_it_until_the_next_tag(
    small_apron: Apron, tmp_path: Path
) -> None:
    first, second = (on_bench(tag_picture(small_apron, code, tmp_path)) for code in ("AP-12", "AP-11"))
    shots = [plain(0), first, plain(1), plain(2), second, plain(3)]
    minutes = (0, 1, 2, 3, 4, 5)
    paths = [
        save(shot, tmp_path / f"{9 - at}.jpg", TAKEN + dt.timedelta(minutes=at), "Phone of the shop")
        for at, shot in zip(minutes, shots, strict=True)
    ]
    other = save(plain(9), tmp_path / "other.jpg", TAKEN + dt.timedelta(minutes=2), "Second camera")
    done = take_in(small_apron.store, small_apron.machine, [*reversed(paths), other])
    assert (len(done.added), done.filed, done.refused, done.said) == (7, 5, (), ())
    with small_apron.store.read() as connection:
        rows = {row.file_name: row.about for row in photos(connection, small_apron.machine)}
        assert [rows[path.name].split(" ")[0] for path in paths] == [
            "",
            "AP-12",
            "AP-12",
            "AP-12",
            "AP-11",
            "AP-11",
        ]
        assert rows["other.jpg"] == ""
    assert small_apron.store.undo_label()
    small_apron.store.undo()
    with small_apron.store.read() as connection:
        assert photos(connection, small_apron.machine) == []


def test_two_tags_on_one_photo_show_two_parts(small_apron: Apron, tmp_path: Path) -> None:
    bench = Image.new("RGB", (1800, 700), (120, 95, 70))
    for at, code in enumerate(("AP-12", "AP-11")):
        bench.paste(tag_picture(small_apron, code, tmp_path), (100 + at * 850, 200))
    done = take_in(small_apron.store, small_apron.machine, [save(bench, tmp_path / "two.jpg", TAKEN)])
    with small_apron.store.read() as connection:
        for code in ("AP-12", "AP-11"):
            found = photos(connection, small_apron.machine, Which.CHOSEN, part_ids=(small_apron.parts[code],))
            assert [row.id for row in found] == list(done.added)


def test_a_tag_of_another_machine_is_said_and_files_nothing(small_apron: Apron, tmp_path: Path) -> None:
    other = add_machine(small_apron.store, "Second lathe")
    path = save(on_bench(tag_picture(small_apron, "AP-12", tmp_path)), tmp_path / "a.jpg", TAKEN)
    done = take_in(small_apron.store, other, [path])
    assert done.filed == 0
    assert "has the tag of AP-12 apron bush, which is of another machine" in done.said[0]


def test_one_photo_shows_several_things_and_lets_go_of_them(small_apron: Apron, tmp_path: Path) -> None:
    photo = take_in(
        small_apron.store, small_apron.machine, [save(plain(1), tmp_path / "a.jpg", TAKEN)]
    ).added[0]
    bush, shaft = small_apron.parts["AP-12"], small_apron.parts["AP-11"]
    sort_photos(small_apron.store, [photo], About(part_id=bush))
    assert show_on(small_apron.store, [photo], "part", shaft) == 1
    assert show_on(small_apron.store, [photo], "part", shaft) == 0
    with small_apron.store.read() as connection:
        assert [(one.record, one.id) for one in shown(connection, photo)] == [("part", shaft)]
        for part in (bush, shaft):
            assert len(photos(connection, small_apron.machine, Which.CHOSEN, part_ids=(part,))) == 1
    take_off(small_apron.store, [photo], "part", bush)
    take_off(small_apron.store, [photo], "part", shaft)
    with small_apron.store.read() as connection:
        assert shown(connection, photo) == []
        assert photos(connection, small_apron.machine, Which.CHOSEN, part_ids=(bush, shaft)) == []
    elsewhere = add_part(small_apron.store, add_machine(small_apron.store, "Second lathe"), None, "gib")
    with refuses(small_apron.store, "belongs to another machine", BadEntry):
        show_on(small_apron.store, [photo], "part", elsewhere)


def test_what_was_in_hand_is_offered_by_the_camera_s_clock_put_right(
    small_apron: Apron, tmp_path: Path
) -> None:
    bore, journal = small_apron.read("bore", "0.6450"), small_apron.read("journal A", "0.6247")
    with small_apron.store.act(Act.EDIT, "times") as tx:
        for key, minutes in ((bore, 0), (journal, 60)):
            tx.session.connection().exec_driver_sql(
                "UPDATE reading SET taken_at = ? WHERE id = ?",
                ((TAKEN + dt.timedelta(minutes=minutes)).isoformat(sep="T"), key),
            )
    hour = dt.timedelta(hours=1)
    paths = [
        save(plain(1), tmp_path / "right.jpg", TAKEN - dt.timedelta(minutes=2), "Right"),
        save(plain(2), tmp_path / "fast.jpg", TAKEN + hour - dt.timedelta(minutes=2), "Fast"),
        save(plain(3), tmp_path / "undated.jpg", None, "Right"),
        save(plain(4), tmp_path / "unset.jpg", dt.datetime(2020, 1, 1, 0, 3), "Unset"),
        save(plain(5), tmp_path / "coming.jpg", NOW + dt.timedelta(days=9), "Coming"),
        save(plain(6), tmp_path / "alone.jpg", TAKEN + dt.timedelta(days=40), "Right"),
    ]
    keys = take_in(small_apron.store, small_apron.machine, paths).added

    def offered() -> list[tuple[str, str]]:
        with small_apron.store.read() as connection:
            found = what_was_in_hand(connection, small_apron.machine, keys, NOW)
        return [(one.parts[0][1].split(" ")[0] if one.parts else "", one.doubt) for one in found]

    bush, shaft = "AP-12", "AP-11"
    assert offered() == [
        (bush, ""), (shaft, ""), ("", "carries no date"), ("", "is dated 2020-01-01: its clock was not set"),
        ("", "is dated 2026-12-09 12:00, which is still to come"), ("", "nothing was noted near its time"),
    ]  # fmt: skip
    assert set_camera(small_apron.store, keys[1], TAKEN - dt.timedelta(minutes=2)) == 3600.0
    assert offered()[:2] == [(bush, ""), (bush, "")]
    with small_apron.store.read() as connection:
        shown_at = {row.id: (row.taken_at, row.by_camera) for row in photos(connection, small_apron.machine)}
    two = dt.timedelta(minutes=2)
    assert shown_at[keys[1]] == (TAKEN - two, TAKEN + hour - two)
    assert shown_at[keys[0]] == (TAKEN - two, TAKEN - two), "another camera stays"
    small_apron.store.undo()
    assert offered()[1] == (shaft, "")
    with small_apron.store.act(Act.EDIT, "seconds") as tx:
        tx.session.connection().exec_driver_sql(
            "UPDATE photo SET taken_at = ? WHERE id = ?", ("2026-05-02T20:03:15", keys[1])
        )
    minute = dt.datetime(2026, 5, 2, 19, 3)
    assert set_camera(small_apron.store, keys[1], minute, to_the_minute=True) == 3600.0
    assert set_camera(small_apron.store, keys[1], minute) == 3615.0
    with refuses(small_apron.store, "carries no date of its camera", BadEntry):
        set_camera(small_apron.store, keys[2], TAKEN)


@pytest.mark.slow
def test_tags_are_read_with_tilt_blur_and_noise(small_apron: Apron, tmp_path: Path) -> None:
    """Source: the rates are this test's own count; zxing-cpp is the reader, the pictures are made here."""
    rnd = random.Random(14)
    tag = tag_picture(small_apron, "AP-12", tmp_path)
    read = 0
    for _ in range(12):
        seen = photographed(tag, rnd, blur=1.2, noise=12)
        read += bool(codes_on(seen))
    assert read >= 11
    with small_apron.store.read() as connection:
        code = part_labels(connection, [small_apron.parts["AP-12"]])[0].code
    assert set(codes_on(photographed(tag, rnd, blur=0.8, noise=6))) == {code}
    assert codes_on(photographed(tag, rnd, blur=14, noise=40)) == ()


def photographed(tag: Image.Image, rnd: random.Random, *, blur: float, noise: float) -> Image.Image:
    """A tag seen from a slant, out of focus, by a grainy camera, as a JPEG."""
    bench = on_bench(tag, turn=rnd.uniform(-40, 40))
    wide, high = bench.size
    lean = [rnd.uniform(0, 0.09) for _ in range(8)]
    quad = (
        lean[0] * wide, lean[1] * high, lean[2] * wide, (1 - lean[3]) * high,
        (1 - lean[4]) * wide, (1 - lean[5]) * high, (1 - lean[6]) * wide, lean[7] * high,
    )  # fmt: skip
    slanted = bench.transform(bench.size, Image.Transform.QUAD, quad, Image.Resampling.BICUBIC)
    grain = Image.effect_noise(bench.size, noise * 2).convert("RGB")
    seen = Image.blend(slanted.filter(ImageFilter.GaussianBlur(blur)), grain, 0.18)
    kept = io.BytesIO()
    seen.save(kept, "JPEG", quality=80)
    return Image.open(io.BytesIO(kept.getvalue()))


def test_a_code_of_the_world_is_passed_over(tmp_path: Path) -> None:
    import segno

    path = tmp_path / "world.png"
    segno.make("https://example.org/P7QF15T").save(str(path), scale=12)
    with Image.open(path) as picture:
        assert zxingcpp.read_barcodes(picture.convert("L"))
        assert codes_on(picture) == ()
