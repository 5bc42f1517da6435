"""A full disk, a locked file, a failing device: a sentence, nothing by halves, and the store goes on."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from rebuild.errors import Bug, FileTrouble
from rebuild.store import connect
from rebuild.store.act import Act
from rebuild.store.backup import backup
from rebuild.store.store import Store
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure

if TYPE_CHECKING:
    from tests.conftest import Shop


def pages(store: Store, most: int) -> None:
    raw = store._writer.raw_connection()
    raw.cursor().execute(f"PRAGMA max_page_count = {most}")
    raw.close()


def test_a_full_disk_stores_nothing_by_halves_and_says_so(shop: Shop) -> None:
    pages(shop.store, 1)  # SQLite takes the present size instead: no page may be added
    stored = 0
    trouble = ""
    while not trouble and stored < 5000:
        try:
            identify.add_place(shop.store, f"tote {stored} " + "x" * 150)
            stored += 1
        except FileTrouble as full:
            trouble = str(full)
    assert "disk is full. Free some space" in trouble
    with shop.store.read() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM place").scalar() == stored
        assert (
            connection.exec_driver_sql("SELECT COUNT(*) FROM act WHERE kind = 'ADD_PLACE'").scalar() == stored
        )
    pages(shop.store, 1_000_000)
    identify.add_place(shop.store, "after the space was freed")
    assert shop.store.undo() == "new place after the space was freed"


FILL = """
import resource, signal, sys
from pathlib import Path
from rebuild.errors import Bug, FileTrouble
from rebuild.store.store import Store
from rebuild.work.machines import acts as identify
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
store = Store.open(Path(sys.argv[1]))
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[2]), resource.RLIM_INFINITY))
for number in range(5000):
    try:
        identify.add_place(store, f"tote {number} " + "x" * 150)
    except FileTrouble as trouble:
        print(trouble)
        resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
        identify.add_place(store, "after")
        break
    print(number, flush=True)
store.close()
"""


@pytest.mark.skipif(sys.platform == "win32", reason="limits of file size are set another way on Windows")
def test_a_write_refused_by_the_system_loses_nothing_acknowledged(project: Path) -> None:
    """The system itself refuses to let the file grow, in the middle of a commit."""
    room = project.stat().st_size + 300_000
    said = subprocess.run(
        [sys.executable, "-c", FILL, str(project), str(room)], capture_output=True, text=True, check=True
    )
    *acknowledged, sentence = said.stdout.splitlines()
    assert len(acknowledged) > 10
    assert "shop.rebuild: the disk" in sentence
    raw = sqlite3.connect(project)
    names = [name for (name,) in raw.execute("SELECT name FROM place ORDER BY id")]
    assert names.pop() == "after"
    assert [name.split()[1] for name in names] == acknowledged
    assert raw.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    raw.close()


def test_a_file_locked_by_another_writer(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(connect, "BUSY_MS", 50)
    impatient = Store.open(shop.path)
    raw = sqlite3.connect(shop.path, isolation_level=None)
    raw.execute("BEGIN IMMEDIATE")
    with pytest.raises(FileTrouble, match=r"another program has been writing.*enter it again"):
        measure.record_reading(impatient, "59.98", measure.Entry(shop.journal, shop.near))
    with impatient.read() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM reading").scalar() == 0
    raw.execute("ROLLBACK")
    measure.record_reading(impatient, "59.98", measure.Entry(shop.journal, shop.near))
    raw.close()
    impatient.close()


def test_opening_a_file_another_program_holds_alone(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(connect, "BUSY_MS", 50)
    raw = sqlite3.connect(project, isolation_level=None)
    raw.execute("PRAGMA locking_mode = EXCLUSIVE")
    raw.execute("BEGIN EXCLUSIVE")
    with pytest.raises(FileTrouble, match="another program"):
        Store.open(project)
    raw.close()


def test_setting_and_keeping_say_when_they_cannot(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(connect, "BUSY_MS", 50)
    impatient = Store.open(shop.path)
    raw = sqlite3.connect(shop.path, isolation_level=None)
    raw.execute("BEGIN IMMEDIATE")
    with pytest.raises(FileTrouble):
        impatient.set_setting("owner", "me")
    with pytest.raises(FileTrouble):
        impatient.keep_entry("journal", "24.98", "why")
    raw.close()
    impatient.close()


def test_a_failed_act_does_not_spoil_the_next(shop: Shop) -> None:
    with pytest.raises(Bug, match="SQLITE_ERROR"), shop.store.act(Act.EDIT, "") as tx:
        tx.connection.exec_driver_sql("SELECT no_such_column FROM part")
    assert identify.add_place(shop.store, "shelf") == 1


def test_a_backup_is_a_whole_project(shop: Shop, contents: object, tmp_path: Path) -> None:
    measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near))
    kept = backup(shop.path, to=tmp_path / "copy.rebuild")
    assert callable(contents)
    assert contents(kept) == contents(shop.path)
    assert not Path(f"{kept}-wal").exists()
    copy = Store.open(kept)
    assert copy.undo() == "reading 59.98 mm on HS-01 spindle, front journal, near, as found"
    copy.close()


def test_backups_of_one_second_do_not_meet(shop: Shop) -> None:
    names = {backup(shop.path).name for _ in range(4)}
    assert len(names) == 4


def test_a_backup_does_not_overwrite(shop: Shop) -> None:
    with pytest.raises(FileTrouble, match="already there"):
        backup(shop.path, to=shop.path)


def test_a_backup_in_a_folder_that_is_not_there(shop: Shop, tmp_path: Path) -> None:
    with pytest.raises(FileTrouble, match="could not be made"):
        backup(shop.path, to=tmp_path / "nowhere" / "copy.rebuild")


def test_a_backup_made_while_another_window_writes_is_one_moment(shop: Shop, tmp_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path; from rebuild.store.store import Store\n"
        "from rebuild.work.machines import acts as identify\n"
        "store = Store.open(Path(sys.argv[1]))\n"
        "for number in range(400): identify.add_place(store, str(number)); print(number, flush=True)"
    )
    with subprocess.Popen(
        [sys.executable, "-c", code, str(shop.path)], stdout=subprocess.PIPE, text=True
    ) as writing:
        assert writing.stdout is not None
        writing.stdout.readline()
        for number in range(5):
            kept = backup(shop.path, to=tmp_path / f"{number}.rebuild")
            raw = sqlite3.connect(kept)
            names = [int(name) for (name,) in raw.execute("SELECT name FROM place ORDER BY id")]
            assert names == list(range(len(names)))
            raw.close()
        writing.communicate()
