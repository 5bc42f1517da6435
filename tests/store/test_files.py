"""What is not a whole project of ours is refused in a sentence that says what it is and what to do."""

from __future__ import annotations

import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from rebuild.cli.main import main
from rebuild.errors import FileTrouble
from rebuild.store import write_ahead
from rebuild.store.journaling import journaled
from rebuild.store.photos import damaged_photos, photo_path
from rebuild.store.recognise import recognise
from rebuild.store.store import Store
from rebuild.work.machines import acts as identify
from rebuild.work.photos.rules_pictures import opened

if TYPE_CHECKING:
    from tests.conftest import Shop


def refused(path: Path) -> str:
    with pytest.raises(FileTrouble) as trouble:
        Store.open(path)
    sentence = str(trouble.value)
    assert path.name in sentence
    assert trouble.value.way_out
    return sentence


def test_a_missing_file(tmp_path: Path) -> None:
    assert "no such file" in refused(tmp_path / "gone.rebuild")


def test_a_folder(tmp_path: Path) -> None:
    assert "is a folder" in refused(tmp_path)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes with a name")
def test_a_pipe_is_not_waited_for(project: Path) -> None:
    """Reading one waits for ever: as the project, as the log beside it, as a photo, or as the source of a copy."""
    pipe = project.with_name("pipe.rebuild")
    os.mkfifo(pipe)
    assert "is no ordinary file" in refused(pipe)
    os.mkfifo(project.with_name(f"{project.name}-wal"))
    assert write_ahead.salts(project) == b""
    assert write_ahead.read_log(project) is None
    photo = photo_path(project, "a" * 64, ".jpg")
    photo.parent.mkdir(parents=True)
    os.mkfifo(photo)
    assert damaged_photos(project, [("a" * 64, ".jpg")]) == [f"{photo.name} is missing"]
    with pytest.raises(OSError, match="no ordinary file"):
        opened(photo)
    for command in ("check", "summary", "backup", "repair"):
        assert main([command, str(pipe)]) != 0


@pytest.mark.parametrize("content", [b"", b"spindle,24.98\n", b"\x00" * 4096, b"SQLite format"])
def test_another_kind_of_file(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(content)
    assert "not a Rebuild project" in refused(path)
    assert path.read_bytes() == content


def test_a_database_of_another_program(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    raw = sqlite3.connect(path)
    raw.execute("CREATE TABLE part (id INTEGER)")
    raw.commit()
    raw.close()
    assert "database of another program" in refused(path)


@pytest.mark.parametrize("share", [0.3, 0.9])
def test_a_truncated_file(project: Path, share: float) -> None:
    whole = project.read_bytes()
    project.write_bytes(whole[: int(len(whole) * share)])
    assert "cut short" in refused(project)


def test_a_file_cut_in_its_header(project: Path) -> None:
    project.write_bytes(project.read_bytes()[:60])
    assert "cut short" in refused(project)


def test_a_damaged_file(project: Path) -> None:
    whole = bytearray(project.read_bytes())
    whole[100:4096] = b"\xa5" * (4096 - 100)
    project.write_bytes(bytes(whole))
    assert "damaged" in refused(project)


def test_a_project_cut_short_while_sqlite_moved_its_pages_is_opened(shop: Shop, tmp_path: Path) -> None:
    """Killed in a checkpoint: page 1 already tells the new length, the rest is still in the WAL."""
    shop.store.close()
    grown = tmp_path / "grown.rebuild"
    shutil.copy(shop.path, grown)
    engine = journaled(grown)
    raw = engine.raw_connection()
    raw.cursor().execute("PRAGMA wal_autocheckpoint = 0")
    raw.close()
    store = Store(grown)
    store._writer.dispose()
    store._writer = engine
    for number in range(60):
        identify.add_place(store, f"tote {number} " + "x" * 150)
    killed = tmp_path / "killed.rebuild"
    shutil.copy(grown, killed)
    shutil.copy(f"{grown}-wal", f"{killed}-wal")
    short = killed.stat().st_size
    store.close()
    assert grown.stat().st_size > short
    with grown.open("rb") as whole, killed.open("r+b") as cut:
        cut.write(whole.read(4096))
    recognise(killed)
    again = Store.open(killed)
    with again.read() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM place").scalar() == 60
    again.close()


@pytest.mark.parametrize(
    "name", ["50% done.rebuild", "what?.rebuild", "bag #3.rebuild", "Ärger & so.rebuild"]
)
def test_any_file_name_will_do(empty_template: Path, tmp_path: Path, name: str) -> None:
    from rebuild.store.backup import backup

    path = Path(shutil.copy(empty_template, tmp_path / name))
    store = Store.open(path)
    identify.add_place(store, "shelf")
    kept = backup(path)
    store.close()
    assert {found.name for found in tmp_path.iterdir()} == {name, kept.name}


def test_a_new_file_does_not_overwrite(project: Path) -> None:
    before = project.read_bytes()
    with pytest.raises(FileTrouble, match="already there"):
        Store.create(project)
    assert project.read_bytes() == before


def test_a_new_file_makes_its_folder(tmp_path: Path) -> None:
    Store.create(tmp_path / "shop" / "lathe.rebuild").close()
    assert (tmp_path / "shop" / "lathe.rebuild").is_file()


def test_a_new_file_that_cannot_be_finished_is_not_left_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from rebuild.store import schema

    (tmp_path / "versions").mkdir()
    monkeypatch.setattr(schema, "migrations_folder", lambda: tmp_path)
    with pytest.raises(Exception, match="env"):
        schema.create(tmp_path / "new.rebuild", "0001")
    assert not (tmp_path / "new.rebuild").exists()
    cut = tmp_path / "cut.sql"
    cut.write_text("BEGIN;\nCREATE TABLE place (id INTEGER);\nCREATE TABLE", encoding="utf-8")
    monkeypatch.setattr(schema, "made_by_script", lambda _revision: cut)
    with pytest.raises(FileTrouble, match="damaged"):
        Store.create(tmp_path / "new.rebuild")
    assert not list(tmp_path.glob("new.rebuild*"))


# A folder one may not write to: also when the tests run as the system's administrator, who may


@pytest.fixture
def plain_user() -> Iterator[Path]:
    """A folder of one's own outside pytest's, and no more rights than an ordinary user has."""
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o755)
    was = os.geteuid() if hasattr(os, "geteuid") else 1
    if was == 0:
        os.chown(folder, 65534, 65534)
        os.seteuid(65534)
    yield folder
    if was == 0:
        os.seteuid(0)
    folder.chmod(0o755)
    shutil.rmtree(folder)


@pytest.mark.skipif(os.name == "nt", reason="rights of a folder are kept another way on Windows")
@pytest.mark.parametrize("locked", ["file", "folder"])
def test_a_read_only_file_or_folder(empty_template: Path, plain_user: Path, locked: str) -> None:
    path = plain_user / "shop.rebuild"
    path.write_bytes(_bytes_of(empty_template))
    (path if locked == "file" else plain_user).chmod(0o444 if locked == "file" else 0o555)
    assert "may not be written" in refused(path)


@pytest.mark.skipif(os.name == "nt", reason="rights of a folder are kept another way on Windows")
def test_a_new_file_in_a_read_only_folder(plain_user: Path) -> None:
    plain_user.chmod(0o555)
    with pytest.raises(FileTrouble, match=r"cannot be made.*Choose a folder you may write to"):
        Store.create(plain_user / "shop.rebuild")


@pytest.mark.skipif(os.name == "nt", reason="rights of a folder are kept another way on Windows")
def test_an_unreadable_file(empty_template: Path, plain_user: Path) -> None:
    path = plain_user / "shop.rebuild"
    path.write_bytes(_bytes_of(empty_template))
    path.chmod(0o000)
    assert "cannot be read" in refused(path)


def _bytes_of(path: Path) -> bytes:
    """Read as whoever made the file."""
    was = os.geteuid()
    if os.getuid() == 0:
        os.seteuid(0)
    content = path.read_bytes()
    if os.getuid() == 0:
        os.seteuid(was)
    return content
