"""One file is whole, a foreign log is found before opening, and a shared folder is recognised."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from rebuild.errors import FileTrouble
from rebuild.store.backup import backup
from rebuild.store.folders import risk
from rebuild.store.foreign_log import is_foreign
from rebuild.store.reading import reading
from rebuild.store.recognise import recognise
from rebuild.store.store import Store
from rebuild.store.write_ahead import belongs, log_path, next_mark, read_log
from rebuild.work.checks.check import check
from rebuild.work.machines import acts as identify
from tests.store.test_elsewhere import places

if TYPE_CHECKING:
    from tests.conftest import Shop


def copy_as_killed(path: Path, to: Path) -> Path:
    """The file and its log as a killed program leaves them."""
    shutil.copy(path, to)
    shutil.copy(log_path(path), log_path(to))
    return to


def test_a_copy_of_the_one_file_holds_the_evening(shop: Shop, tmp_path: Path) -> None:
    for number in range(60):
        identify.add_place(shop.store, f"tote {number}")
    alone = Path(shutil.copy(shop.path, tmp_path / "too early.rebuild"))
    assert len(places(alone)) < 60
    assert shop.store.make_whole()
    alone = Path(shutil.copy(shop.path, tmp_path / "alone.rebuild"))
    assert len(places(alone)) == 60
    assert log_path(shop.path).stat().st_size == 0


def test_closing_makes_it_whole_also_beside_another_window(shop: Shop) -> None:
    other = Store.open(shop.path)
    identify.add_place(shop.store, "shelf")
    shop.store.close()
    assert places(shop.path) == ["shelf"]
    other.close()


def test_a_reader_in_the_middle_is_not_waited_for(shop: Shop) -> None:
    other = Store.open(shop.path)
    with other.read() as connection:
        connection.exec_driver_sql("SELECT COUNT(*) FROM place").scalar()
        identify.add_place(shop.store, "shelf")
        assert not shop.store.make_whole()
    assert shop.store.make_whole()
    other.close()


def test_a_long_log_is_moved_in_by_the_way(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    from rebuild.store import same_file

    monkeypatch.setattr(same_file, "LOG_BYTES", 100_000)
    longest = 0
    for number in range(30):
        identify.add_place(shop.store, f"tote {number}")
        longest = max(longest, log_path(shop.path).stat().st_size)
    assert longest < 300_000


@pytest.mark.parametrize("moved", [False, True])
def test_a_killed_file_and_its_own_log_belong_together(shop: Shop, tmp_path: Path, moved: bool) -> None:
    identify.add_place(shop.store, "first")
    if moved:
        shop.store.make_whole()
        identify.add_place(shop.store, "second")
    killed = copy_as_killed(shop.path, tmp_path / "killed.rebuild")
    assert not is_foreign(killed)
    again = Store.open(killed)
    assert again.log_set_aside is None
    again.close()
    assert places(killed) == (["first", "second"] if moved else ["first"])


def test_half_of_the_pages_moved_still_belong(shop: Shop, tmp_path: Path) -> None:
    """Page 1 has been moved into the file already, the rest lies in the log."""
    identify.add_place(shop.store, "first")
    killed = copy_as_killed(shop.path, tmp_path / "killed.rebuild")
    shop.store.make_whole()
    with shop.path.open("rb") as whole, killed.open("r+b") as half:
        half.write(whole.read(4096))
    assert not is_foreign(killed)
    Store.open(killed).close()
    assert check(killed) == []


def test_a_backup_copied_over_the_name_beside_a_stale_log(shop: Shop, tmp_path: Path) -> None:
    identify.add_place(shop.store, "in the backup")
    kept = backup(shop.path, to=tmp_path / "kept.rebuild")
    for number in range(40):
        identify.add_place(shop.store, f"later {number}")
    killed = copy_as_killed(shop.path, tmp_path / "killed.rebuild")
    shutil.copy(kept, killed)
    assert is_foreign(killed)
    findings = check(killed)
    assert findings[0].startswith("Beside the file lies the log (-wal) of another state of it")
    assert log_path(killed).stat().st_size > 0, "a check only reads"
    with pytest.raises(FileTrouble, match=r"the log .-wal. of another state"), reading(killed):
        pass
    again = Store.open(killed)
    assert again.log_set_aside is not None
    assert "set aside" in again.log_set_aside.name
    assert again.log_set_aside.stat().st_size > 0
    identify.add_place(again, "goes on")
    again.close()
    assert places(killed) == ["in the backup", "goes on"]
    assert check(killed) == []


def test_a_plain_older_copy_beside_a_stale_log(shop: Shop, tmp_path: Path) -> None:
    """Copied by hand while it was whole; since then the log was begun anew twice."""
    identify.add_place(shop.store, "in the copy")
    shop.store.make_whole()
    older = Path(shutil.copy(shop.path, tmp_path / "older.rebuild"))
    identify.add_place(shop.store, "later")
    shop.store.make_whole()
    identify.add_place(shop.store, "latest")
    killed = copy_as_killed(shop.path, tmp_path / "killed.rebuild")
    shutil.copy(older, killed)
    again = Store.open(killed)
    assert again.log_set_aside is not None
    again.close()
    assert places(killed) == ["in the copy"]


def test_a_foreign_log_is_left_while_another_window_uses_it(shop: Shop, tmp_path: Path) -> None:
    import subprocess
    import sys

    kept = backup(shop.path, to=tmp_path / "kept.rebuild")
    code = (
        "import sys; from pathlib import Path; from rebuild.store.store import Store\n"
        "from rebuild.work.machines import acts as identify\n"
        "store = Store.open(Path(sys.argv[1])); identify.add_place(store, 'theirs'); print('in', flush=True)\n"
        "sys.stdin.read()"
    )
    with subprocess.Popen(
        [sys.executable, "-c", code, str(shop.path)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as other:
        assert other.stdout is not None
        assert other.stdout.readline() == "in\n"
        shop.path.write_bytes(kept.read_bytes())
        with pytest.raises(Exception, match="Close the other window first"):
            Store.open(shop.path)
        assert log_path(shop.path).stat().st_size > 0
        other.kill()


def test_marks_follow_each_other() -> None:
    first = next_mark(0)
    second = next_mark(first)
    assert first & 0xFFFF == 0
    assert second & 0xFFFF == first >> 16
    assert first >> 16


def test_a_log_without_marks_is_not_judged_by_them(shop: Shop, tmp_path: Path) -> None:
    shop.store.close()
    import sqlite3

    raw = sqlite3.connect(shop.path, isolation_level=None)
    raw.execute("PRAGMA journal_mode = WAL")
    raw.execute("UPDATE part SET note = 'by hand' WHERE id = 1")
    killed = copy_as_killed(shop.path, tmp_path / "killed.rebuild")
    log = read_log(killed)
    assert log is not None
    assert belongs(0, log) is None
    raw.close()
    assert not is_foreign(killed)


@pytest.mark.parametrize(
    ("folder", "kind"),
    [
        ("home/me/Sync/shop", "synced"),
        ("home/me/My Cloud", "synced"),
        ("home/me/network share", "network"),
        ("home/me/machines", ""),
        ("home/me/.local/share/rebuild", ""),
        ("home/me/screwdrivers", ""),
    ],
)
def test_a_shared_folder_by_its_words(tmp_path: Path, folder: str, kind: str) -> None:
    none = tmp_path / "mounts"
    none.write_text("")
    told = risk(Path("/") / folder / "shop.rebuild", none)
    assert (kind in told) if kind else told == ""


@pytest.mark.parametrize(
    ("kind", "network"),
    [("nfs4", True), ("cifs", True), ("fuse.anything", True), ("ext4", False), ("fuseblk", False)],
)
def test_a_network_folder_by_its_mount(tmp_path: Path, kind: str, network: bool) -> None:
    mounts = tmp_path / "mounts"
    mounts.write_text(f"disk / ext4 rw 0 0\nserver:/x /work\\040shop {kind} rw 0 0\n")
    assert bool(risk(Path("/work shop/lathe.rebuild"), mounts)) is network
    assert risk(Path("/home/lathe.rebuild"), mounts) == ""


#: Tries for the bytes every open connection of a WAL database holds shared (SQLite, os_unix.c: PENDING_BYTE + 2).
_TAKE = """
import fcntl, sys
with open(sys.argv[1], "r+b") as file:
    try:
        fcntl.lockf(file, fcntl.LOCK_EX | fcntl.LOCK_NB, 510, 0x40000002)
    except OSError:
        print("held")
    else:
        print("free")
"""


@pytest.mark.skipif(sys.platform == "win32", reason="POSIX locks")
def test_looking_at_an_open_file_lets_go_of_no_lock_on_it(shop: Shop) -> None:
    """A closed handle drops every POSIX lock of the process on that file: the open file is never opened by itself."""
    identify.add_place(shop.store, "shelf")

    def lock() -> str:
        asked = [sys.executable, "-c", _TAKE, str(shop.path)]
        return subprocess.run(asked, capture_output=True, text=True, check=True).stdout.strip()

    assert lock() == "held"
    recognise(shop.path)
    assert check(shop.path) == []
    with reading(shop.path):
        pass
    other = Store.open(shop.path)
    other.close()
    recognise(shop.path)
    assert lock() == "held"
    shop.store.close()
    assert lock() == "free"
    recognise(shop.path)
