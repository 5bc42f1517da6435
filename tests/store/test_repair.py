"""``rebuild repair``: a new, sound file from a damaged one; all that can be read, and a list of what could not."""

from __future__ import annotations

import random
import shutil
import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest

from rebuild.cli.main import main
from rebuild.errors import FileTrouble
from rebuild.store.backup import backup
from rebuild.store.repair.repair import repair
from rebuild.store.store import Store
from rebuild.words.readings import Stage
from rebuild.work.checks.check import check
from rebuild.work.machines.acts import add_part
from rebuild.work.readings.acts import Entry, record_reading
from tests.conftest import Shop
from tests.store.test_unreadable import spoil
from tests.support import read_contents

PAGE = 4096


def pages_of(path: Path, table: str) -> list[int]:
    """The leaf pages of a table, by SQLite's own page statistics where it has them, else its root only."""
    raw = sqlite3.connect(path)
    try:
        rows = raw.execute(
            "SELECT pageno FROM dbstat WHERE name = ? AND pagetype = 'leaf'", (table,)
        ).fetchall()
        return [number for (number,) in rows]
    except sqlite3.Error:
        return [raw.execute("SELECT rootpage FROM sqlite_master WHERE name = ?", (table,)).fetchone()[0]]
    finally:
        raw.close()


def wreck(path: Path, pages: list[int]) -> None:
    """Overwrite whole pages with noise, as a dying disk does."""
    noise = random.Random(7)
    with path.open("r+b") as file:
        for page in pages:
            file.seek((page - 1) * PAGE)
            file.write(noise.randbytes(PAGE))


def fill(shop: Shop, count: int) -> None:
    for number in range(count):
        record_reading(
            shop.store, f"59.9{number:03d}", Entry(shop.journal, shop.near, Stage.AS_FOUND, shop.micrometer),
            confirmed=True,
        )  # fmt: skip


@pytest.fixture(scope="module")
def evening(
    filled_template: tuple[Path, dict[str, int]], tmp_path_factory: pytest.TempPathFactory
) -> tuple[Path, dict[str, int]]:
    """The small project after 300 readings, made once; copy it, never open it."""
    template, ids = filled_template
    path = Path(shutil.copy(template, tmp_path_factory.mktemp("evening") / "filled.rebuild"))
    made = Shop(path, **ids)
    fill(made, 300)
    made.close()
    return path, ids


@pytest.fixture
def busy(evening: tuple[Path, dict[str, int]], tmp_path: Path) -> Iterator[Shop]:
    """The small project after 300 readings, of this test's own."""
    path, ids = evening
    made = Shop(Path(shutil.copy(path, tmp_path / "filled.rebuild")), **ids)
    yield made
    made.close()


def test_a_sound_file_repaired_is_the_same_with_its_history(shop: Shop, tmp_path: Path) -> None:
    fill(shop, 20)
    shop.close()
    made = repair(shop.path, tmp_path / "new.rebuild")
    assert check(made.path) == []
    assert read_contents(made.path) == read_contents(shop.path)
    assert made.said == ("What was done before the repair can be read in the history, but no longer undone.",)
    store = Store.open(made.path)
    add_part(store, shop.machine, shop.headstock, "oil wick", "HS-07")
    assert store.undo()
    assert store.undo_label() is None
    store.close()
    assert read_contents(made.path) == read_contents(shop.path)


def test_rows_of_a_wrecked_page_come_back_from_the_journal(busy: Shop, tmp_path: Path) -> None:
    shop = busy
    shop.close()
    wanted = read_contents(shop.path)
    leaves = pages_of(shop.path, "reading")
    wreck(shop.path, leaves[1:2] or leaves)
    assert "damaged" in check(shop.path)[0]
    before = shop.path.read_bytes()
    made = repair(shop.path, tmp_path / "new.rebuild")
    assert check(made.path) == []
    assert read_contents(made.path) == wanted
    assert any("could not be read; it is as the journal has it" in line for line in made.said)
    assert shop.path.read_bytes() == before


def test_what_neither_table_nor_journal_has_comes_from_a_backup(busy: Shop, tmp_path: Path) -> None:
    shop = busy
    shop.close()
    wanted = read_contents(shop.path)
    kept = backup(shop.path)
    assert kept.name.startswith("filled backup ")
    wreck(shop.path, pages_of(shop.path, "reading") + pages_of(shop.path, "j_reading"))
    made = repair(shop.path, tmp_path / "new.rebuild")
    assert check(made.path) == []
    assert read_contents(made.path) == wanted
    assert any("comes from “filled backup" in line for line in made.said)


def test_what_was_removed_since_the_backup_stays_removed(shop: Shop, tmp_path: Path) -> None:
    from rebuild.work.editing.acts import remove

    backup(shop.path)
    remove(shop.store, "part", [shop.cap])
    shop.close()
    wanted = read_contents(shop.path)
    made = repair(shop.path, tmp_path / "new.rebuild")
    assert read_contents(made.path) == wanted


def test_what_is_lost_is_listed(busy: Shop, tmp_path: Path) -> None:
    shop = busy
    shop.close()
    wreck(shop.path, pages_of(shop.path, "reading") + pages_of(shop.path, "j_reading"))
    made = repair(shop.path, tmp_path / "new.rebuild")
    assert check(made.path) == []
    assert any(line.startswith("Reading no") and "cannot be read there" in line for line in made.said)
    assert len(read_contents(made.path)["part"]) == 2


def test_bad_cells_are_mended_from_the_journal_and_said(shop: Shop, tmp_path: Path) -> None:
    wanted = read_contents(shop.path)
    spoil(shop.path, f"UPDATE task SET state = 'zeppelin' WHERE id = {shop.strip}")
    made = repair(shop.path, tmp_path / "new.rebuild")
    assert check(made.path) == []
    assert read_contents(made.path) == wanted
    assert made.said[0].startswith(
        f"Task no. {shop.strip} was not as the journal has it: state “zeppelin” is “"
    )


def test_bad_cells_the_journal_cannot_mend_go_out_with_what_belongs_to_them(
    shop: Shop, tmp_path: Path
) -> None:
    spoil(
        shop.path,
        f"UPDATE task SET state = 'zeppelin' WHERE id = {shop.strip}",
        f"UPDATE j_task SET a_state = 'zeppelin' WHERE a_id = {shop.strip}",
        "UPDATE feature SET part_id = 'x' WHERE id = 1",
        "UPDATE j_feature SET a_part_id = 'x' WHERE a_id = 1",
    )
    made = repair(shop.path, tmp_path / "new.rebuild")
    assert check(made.path) == []
    said = "\n".join(made.said)
    assert "state was “zeppelin”, none of the words for it; it is “" in said
    assert "Feature no. 1: part_id was “x”, no whole number; the row is left out." in said
    assert "Station no. 1 is left out with what it belongs to." in said


def test_a_stranger_s_trigger_stays_behind(shop: Shop, tmp_path: Path) -> None:
    wanted = read_contents(shop.path)
    spoil(shop.path, "CREATE TRIGGER t AFTER INSERT ON reading BEGIN UPDATE reading SET value_mm = 25; END")
    with pytest.raises(FileTrouble, match="trigger “t”"):
        Store.open(shop.path)
    made = repair(shop.path, tmp_path / "new.rebuild")
    assert check(made.path) == []
    assert read_contents(made.path) == wanted


@pytest.mark.parametrize("hurt", ["header", "half", "quarter"])
def test_a_lost_header_and_a_file_cut_short(busy: Shop, tmp_path: Path, hurt: str) -> None:
    shop = busy
    shop.close()
    wanted = read_contents(shop.path)
    content = shop.path.read_bytes()
    cut = {
        "header": b"\xff" * 100 + content[100:],
        "half": content[: len(content) // 2],
        "quarter": content[: len(content) * 3 // 4],
    }
    shop.path.write_bytes(cut[hurt])
    made = repair(shop.path, tmp_path / "new.rebuild")
    assert check(made.path) == []
    if hurt == "header":
        assert read_contents(made.path) == wanted
    else:
        assert made.rows > 0


def test_an_evening_that_lies_in_the_wal_is_saved(shop: Shop, tmp_path: Path) -> None:
    fill(shop, 5)
    copy = tmp_path / "copied" / "filled.rebuild"
    copy.parent.mkdir()
    shutil.copy(shop.path, copy)
    shutil.copy(f"{shop.path}-wal", f"{copy}-wal")
    shop.close()
    made = repair(copy, tmp_path / "new.rebuild")
    assert read_contents(made.path) == read_contents(shop.path)


def test_the_commands(shop: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    shop.close()
    assert main(["new", str(tmp_path / "my machine")]) == 0
    assert check(tmp_path / "my machine.rebuild") == []
    assert main(["new", str(tmp_path / "my machine")]) == 2
    assert "already there" in capsys.readouterr().err
    assert main(["repair", str(shop.path)]) == 0
    assert "filled repaired.rebuild, with" in capsys.readouterr().out
    assert main(["repair", str(shop.path), "--to", str(shop.path)]) == 2
    assert main(["repair", str(tmp_path / "gone.rebuild")]) == 2


def test_a_schema_that_is_no_text_is_a_sentence_and_repair_goes_on(shop: Shop, tmp_path: Path) -> None:
    shop.close()
    content = shop.path.read_bytes()
    at = content.index(b"CREATE TABLE place")
    shop.path.write_bytes(content[:at] + b"CREATE \x91\xc4\xff\x81E" + content[at + 12 :])
    with pytest.raises(FileTrouble, match="is damaged"):
        Store.open(shop.path)
    assert "is damaged" in check(shop.path)[0]
    made = repair(shop.path, tmp_path / "new.rebuild")
    assert check(made.path) == []
    assert len(read_contents(made.path)["part"]) == 2
