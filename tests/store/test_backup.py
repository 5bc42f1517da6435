"""A backup is whole under its name or not there, and verified means every value compared."""

from __future__ import annotations

import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from rebuild.errors import FileTrouble
from rebuild.store import backup as module
from rebuild.store.backup import backup
from rebuild.store.beside import part_of, sweep, written_beside
from rebuild.store.photo_copies import backup_with_photos, wanted_photos
from rebuild.store.photos import damaged_photos, photo_folder, put_photo
from rebuild.store.same_pages import copy_pages, pages_alike
from rebuild.store.same_values import compare
from rebuild.store.store import Store
from rebuild.work.checks.check import check
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure
from tests.faults.backing_up import BEGINS
from tests.faults.older import FIRST, ROWS, make_older

if TYPE_CHECKING:
    from tests.conftest import Shop


def databases(*statements: str) -> tuple[sqlite3.Connection, sqlite3.Connection]:
    """Two databases with one table, the second changed by statements."""
    made = []
    for more in ((), statements):
        raw = sqlite3.connect(":memory:", isolation_level=None)
        raw.execute("CREATE TABLE reading (id INTEGER PRIMARY KEY, mm, typed TEXT)")
        raw.execute(
            "INSERT INTO reading VALUES (1, 0.30000000000000004, '0.3'), (2, 1, NULL), (3, x'41', 'A')"
        )
        for statement in more:
            raw.execute(statement)
        made.append(raw)
    return made[0], made[1]


@pytest.mark.parametrize(
    ("statement", "differs"),
    [
        ("UPDATE reading SET typed = typed", ""),
        ("UPDATE reading SET mm = 0.3 WHERE id = 1", "the rows of reading"),
        ("UPDATE reading SET mm = 1.0 WHERE id = 2", "the rows of reading"),
        ("UPDATE reading SET mm = 'A' WHERE id = 3", "the rows of reading"),
        ("UPDATE reading SET typed = '' WHERE id = 2", "the rows of reading"),
        ("UPDATE reading SET typed = CAST(x'ff' AS TEXT) WHERE id = 3", "the rows of reading"),
        ("DELETE FROM reading WHERE id = 3", "the rows of reading"),
        ("INSERT INTO reading VALUES (4, 1, '')", "the rows of reading"),
        ("CREATE INDEX i ON reading (mm)", "its tables"),
    ],
)
def test_every_value_is_compared(statement: str, differs: str) -> None:
    one, other = databases(statement)
    assert compare(one, other, lambda _share: None) == differs


def test_a_bad_text_that_is_the_same_on_both_sides_is_no_difference() -> None:
    one, other = databases()
    for raw in (one, other):
        raw.execute("UPDATE reading SET typed = CAST(x'ff' AS TEXT)")
    assert compare(one, other, lambda _share: None) == ""


def test_a_copy_that_differs_in_one_value_is_not_kept(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near))
    real = module.read_only

    def spoiled(path: Path, more: str = "") -> sqlite3.Connection:
        if path.suffix == ".part":
            raw = sqlite3.connect(path)
            raw.execute("UPDATE reading SET value_mm = value_mm + 1e-9")
            raw.commit()
            raw.close()
        return real(path, more)

    monkeypatch.setattr(module, "read_only", spoiled)
    with pytest.raises(FileTrouble, match="the copy differs from the file: the rows of reading"):
        backup(shop.path, to=tmp_path / "copy.rebuild")
    assert not list(tmp_path.glob("copy*"))


def test_a_sound_copy_is_known_by_its_bytes_and_no_value_is_read_again(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near))
    asked: list[str] = []

    def compared(*_both: object) -> str:
        asked.append("every value")
        return ""

    monkeypatch.setattr(module, "compare", compared)
    copy = backup(shop.path, to=tmp_path / "copy.rebuild")
    assert asked == []
    assert check(copy) == []
    # Where there is no room for a second copy every value is read instead.
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path / "not there"))
    assert check(backup(shop.path, to=tmp_path / "second.rebuild")) == []
    assert asked == ["every value"]


def test_a_byte_changed_in_no_row_is_a_difference_too(shop: Shop, tmp_path: Path) -> None:
    copy = tmp_path / "copy.sqlite"
    with closing(sqlite3.connect(shop.path)) as raw:
        copy_pages(raw, copy, 7, lambda _share: None)
        assert pages_alike(raw, copy, 7, lambda _share: None)
        for at in (92, copy.stat().st_size - 1):
            said = bytearray(copy.read_bytes())
            said[at] ^= 1
            copy.write_bytes(said)
            assert not pages_alike(raw, copy, 7, lambda _share: None), at
            said[at] ^= 1
            copy.write_bytes(said)


def test_a_backup_is_stopped_in_the_middle_of_the_check(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "_STEPS", 100)
    with pytest.raises(FileTrouble, match="it was stopped; nothing was kept"):
        backup(shop.path, to=tmp_path / "copy.rebuild", tell=lambda _share, words: "Checking" not in words)
    assert not list(tmp_path.glob("copy*"))


@pytest.mark.parametrize("after", [1, 2, 5, 20])
def test_a_backup_can_be_stopped_and_leaves_nothing(shop: Shop, after: int) -> None:
    put_photo(shop.path, b"a photo", ".png")
    identify.add_place(shop.store, "shelf")
    before = sorted(shop.path.parent.iterdir())
    heard = 0

    def tell(share: float, _words: str) -> bool:
        nonlocal heard
        assert 0 <= share <= 1
        heard += 1
        return heard < after

    with pytest.raises(FileTrouble, match="it was stopped; nothing was kept"):
        backup_with_photos(shop.path, tell=tell)
    assert heard == after
    assert sorted(shop.path.parent.iterdir()) == before


def test_a_failed_upgrade_leaves_the_file_and_no_debris(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """All migrations ran, and the last look before the commit refuses: the file and its folder are as they were."""
    from rebuild.store import schema

    old = tmp_path / "old.rebuild"
    make_older(old)
    before = sorted(path.name for path in tmp_path.iterdir())

    def refuse(*_args: object) -> None:
        raise FileTrouble("upgrading would lose 1 row of place.", where=old.name)

    monkeypatch.setattr(schema, "_refuse_lost_rows", refuse)
    with pytest.raises(FileTrouble, match="would lose 1 row"):
        schema.upgrade(old)
    assert sorted(path.name for path in tmp_path.iterdir()) == before
    assert schema.revision_of(old) == FIRST
    raw = sqlite3.connect(old)
    assert raw.execute("SELECT COUNT(*) FROM place").fetchone() == (ROWS,)
    raw.close()


def test_part_files_of_killed_programs_are_swept_and_no_others(shop: Shop, tmp_path: Path) -> None:
    gone = subprocess.Popen([sys.executable, "-c", ""])
    gone.wait()
    shop.store.close()
    stray = tmp_path / f"a backup.rebuild.{gone.pid}-0123abcd.part"
    ours = part_of(tmp_path / "being made.rebuild")
    strangers = tmp_path / "film.mp4.part"
    for path in (stray, ours, strangers, Path(f"{stray}-journal")):
        path.write_bytes(b"half")
    in_photos = photo_folder(shop.path) / "ab" / f"ab.png.{gone.pid}-0123abcd.part"
    in_photos.parent.mkdir(parents=True)
    in_photos.write_bytes(b"half")
    Store.open(shop.path).close()
    assert not stray.exists()
    assert not Path(f"{stray}-journal").exists()
    assert not in_photos.exists()
    assert ours.exists()
    assert strangers.exists()


def test_photos_of_a_copy_killed_before_its_last_step_are_swept(shop: Shop, tmp_path: Path) -> None:
    gone = subprocess.Popen([sys.executable, "-c", ""])
    gone.wait()
    half, done, plain = (tmp_path / f"{name} photos" for name in ("half", "done", "plain"))
    for folder in (half, done, plain):
        (folder / "ab").mkdir(parents=True)
        (folder / "ab" / "ab.png").write_bytes(b"photo")
    for folder in (half, done):
        name = folder.name.removesuffix(" photos")
        (folder / f"{name}.rebuild.{gone.pid}-0123abcd.part").touch()
    (tmp_path / "done.rebuild").write_bytes(b"whole")
    sweep(shop.path)
    assert not half.exists()
    assert [path.name for path in done.iterdir()] == ["ab"]
    assert plain.exists()


def test_a_name_that_was_taken_meanwhile_is_not_written_over(tmp_path: Path) -> None:
    target = tmp_path / "copy.rebuild"

    def write_while_another_does() -> None:
        with written_beside(target) as part:
            part.write_text("ours")
            target.write_text("theirs")

    with pytest.raises(FileExistsError):
        write_while_another_does()
    assert target.read_text() == "theirs"
    assert list(tmp_path.iterdir()) == [target]


#: Windows has but one way to end a process at once.
KILL = getattr(signal, "SIGKILL", signal.SIGTERM)
KILLS = 8


def test_a_killed_backup_leaves_nothing_under_a_final_name_that_is_not_whole(shop: Shop) -> None:
    """``kill -9`` at random moments: what has a name opens, checks clean and has its photos."""
    from PIL import Image

    from rebuild.work.photos.acts_take import take_in

    pictures = []
    for shade in range(6):
        picture = shop.path.parent / f"{shade}.png"
        Image.new("L", (400, 300), 20 * shade).save(picture)
        pictures.append(picture)
    take_in(shop.store, shop.machine, pictures)
    identify.add_place(shop.store, "shelf")
    wanted = list(wanted_photos(shop.path))
    assert len(wanted) == 6
    rng = random.Random(5)
    with subprocess.Popen(
        [sys.executable, "-m", "tests.faults.backing_up", str(shop.path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as parent:
        assert parent.stdin is not None
        assert parent.stdout is not None
        for _ in range(KILLS):
            parent.stdin.write("another\n")
            parent.stdin.flush()
            begun = next(line for line in parent.stdout if line.startswith(BEGINS))
            time.sleep(rng.uniform(0.0, 0.5))
            os.kill(int(begun.split()[1]), KILL)
        parent.stdin.close()
        assert parent.wait(60) == 0
    shop.store.close()
    Store.open(shop.path).close()
    assert not list(shop.path.parent.rglob("*.part*"))
    named = sorted(shop.path.parent.glob("* backup *.rebuild"))
    assert named
    for path in named:
        assert damaged_photos(path, wanted) == []
        assert check(path) == []
    folders = {photo_folder(path) for path in (*named, shop.path)}
    assert set(shop.path.parent.glob("* photos")) == folders
