"""The kill run itself: it sees what is missing, and a few kills of it."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from pathlib import Path

from rebuild.store.store import Store
from rebuild.work.checks.check import check
from tests.conftest import Shop
from tests.faults.acknowledged import Known, newest_act, print_of, unsound_backups, unsound_upgrade
from tests.faults.mixed_acts import KINDS
from tests.faults.older import make_older


def acknowledged(path: Path) -> Known:
    raw = sqlite3.connect(path)
    known = Known({act: print_of(raw, act) for act in range(1, newest_act(raw) + 1)})
    raw.close()
    return known


def spoil(path: Path, statement: str) -> None:
    raw = sqlite3.connect(path)
    raw.execute(statement)
    raw.commit()
    raw.close()


def test_it_sees_an_act_that_is_gone_or_other_than_it_was(shop: Shop) -> None:
    shop.store.close()
    known = acknowledged(shop.path)
    assert len(known.acts) > 10
    assert known.lost(shop.path) == []
    spoil(
        shop.path,
        "UPDATE j_part SET a_name = 'another' WHERE change_id = (SELECT MIN(change_id) FROM j_part)",
    )
    assert len(known.lost(shop.path)) == 1
    spoil(shop.path, "DELETE FROM change WHERE act_id = 2")
    spoil(shop.path, "DELETE FROM act WHERE id = 3")
    assert len(known.lost(shop.path)) == 3
    known.kept.add("typed")
    assert known.lost(shop.path)[-1] == "kept entry typed is not there"


def test_it_sees_a_backup_that_is_missing_or_unsound(shop: Shop, tmp_path: Path) -> None:
    shop.store.close()
    half = tmp_path / "filled backup 2026.rebuild"
    half.write_bytes(shop.path.read_bytes())
    spoil(half, "DELETE FROM part WHERE id = 1")
    lost, findings = unsound_backups(tmp_path, {"filled backup 2027.rebuild"})
    assert lost == ["backup filled backup 2027.rebuild is not there"]
    assert findings
    assert not half.exists()


def test_it_sees_an_upgrade_that_did_not_hold(tmp_path: Path) -> None:
    old = tmp_path / "old.rebuild"
    make_older(old)
    assert unsound_upgrade(old, acknowledged=False) == ([], [])
    assert unsound_upgrade(old, acknowledged=True)[0]
    store = Store.open(old)
    assert store.upgraded_from is not None
    store.close()
    assert check(old) == []
    assert unsound_upgrade(old, acknowledged=True) == ([], [])
    spoil(old, "DELETE FROM place WHERE id = 5")
    assert unsound_upgrade(old, acknowledged=True)[1]


def test_the_mix_is_wide() -> None:
    assert len(KINDS) >= 40


def test_a_few_kills() -> None:
    said = subprocess.run(
        [sys.executable, "-m", "tests.faults.kill_mix", "5", "--seed", "7"],
        capture_output=True,
        text=True,
        check=False,
    )
    last = said.stdout.splitlines()[-1]
    assert said.returncode == 0, said.stdout + said.stderr
    assert last.startswith("5 kills, ")
    assert last.endswith(", 0 lost, 0 findings")
