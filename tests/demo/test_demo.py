"""The demo as a whole: how much, how true to its own calendar, and that it is an ordinary file."""

from __future__ import annotations

import datetime as dt
import sqlite3
from contextlib import closing
from itertools import pairwise
from pathlib import Path

import pytest
from sqlalchemy import text

from rebuild.demo.build import build_demo
from rebuild.demo.lathe.machine import LATHE
from rebuild.demo.shaper.machine import SHAPER
from rebuild.demo.where import demo_path, ensure_demo
from rebuild.store.check import examine
from rebuild.store.store import Store
from tests.depth import DEPTH
from tests.support import counts as demo_counts

WANTED = {
    "machine": 2, "subassembly": 16, "part": 250, "feature": 150, "reading": 400, "instrument": 12, "task": 200,
    "link": 200,
    "task_caution": 60, "task_constraint": 20, "concession": 3, "question": 12, "log_entry": 40, "place": 12,
}  # fmt: skip


def test_there_is_enough_of_everything(demo: Store) -> None:
    counts = demo_counts(demo)
    assert {name: counts[name] for name in WANTED if counts[name] < WANTED[name]} == {}
    assert len(SHAPER.groups) >= 8
    assert len(LATHE.groups) >= 8


def test_the_file_is_sound(demo_file: Path) -> None:
    with closing(sqlite3.connect(demo_file)) as raw:
        assert examine(raw, demo_file).findings == ()


def test_the_machines_are_invented(demo: Store) -> None:
    with demo.read() as connection:
        rows = connection.execute(text("SELECT name, maker FROM machine ORDER BY id")).all()
    assert [tuple(row) for row in rows] == [("Quarry shaper", ""), ("Tram lathe", "")]


def _rows(store: Store, sql: str) -> list[tuple[object, ...]]:
    with store.read() as connection:
        return [tuple(row) for row in connection.execute(text(sql))]


READ_ON = (
    "SELECT m.name, substr(r.taken_at, 1, 10) FROM reading r JOIN feature f ON f.id = r.feature_id "
    "JOIN part p ON p.id = f.part_id JOIN machine m ON m.id = p.machine_id"
)
TICKED_ON = "SELECT m.name, substr(t.done_at, 1, 10) FROM task t JOIN machine m ON m.id = t.machine_id WHERE t.done_at"
LOGGED_ON = "SELECT m.name, substr(l.at, 1, 10) FROM log_entry l JOIN machine m ON m.id = l.machine_id"
DECIDED_ON = (
    "SELECT m.name, substr(p.decided_at, 1, 10) FROM part p JOIN machine m ON m.id = p.machine_id "
    "WHERE p.decided_at"
)


@pytest.mark.parametrize("what", [READ_ON, TICKED_ON, DECIDED_ON], ids=["readings", "ticks", "decisions"])
def test_nothing_happened_on_a_day_the_log_does_not_know(demo: Store, what: str) -> None:
    logged = set(_rows(demo, LOGGED_ON))
    assert set(_rows(demo, what)) - logged == set()


def test_nothing_happened_before_a_machine_arrived(demo: Store) -> None:
    arrived = {data.name: data.arrived for data in (SHAPER, LATHE)}
    for sql in (READ_ON, TICKED_ON, LOGGED_ON):
        for name, day in _rows(demo, sql):
            assert arrived[str(name)] <= str(day)


def test_the_log_runs_over_eighteen_months_with_honest_gaps() -> None:
    days = sorted(dt.date.fromisoformat(s.day) for s in (*SHAPER.sessions, *LATHE.sessions))
    assert (days[-1] - days[0]).days >= 18 * 30
    gaps = [(later - earlier).days for earlier, later in pairwise(days)]
    assert sum(gap > 30 for gap in gaps) == 2, "a winter and a broken wrist"
    assert len(set(gaps)) >= 10, "nobody works by the calendar"


def test_no_step_is_done_before_one_it_waits_for_unless_noted(demo: Store) -> None:
    early = _rows(
        demo,
        "SELECT b.title, a.title, a.done_note FROM link l JOIN task b ON b.id = l.before_id "
        "JOIN task a ON a.id = l.after_id WHERE a.done_at IS NOT NULL "
        "AND (b.done_at IS NULL OR b.done_at > a.done_at)",
    )
    assert len(early) == 1, "one, on purpose"
    assert "before the latch was made" in str(early[0][2])


def test_questions_are_answered_after_they_were_asked(demo: Store) -> None:
    rows = _rows(demo, "SELECT state, asked_at, answered_at, task_id FROM question")
    assert {str(row[0]).lower().replace("_", " ") for row in rows} == {"open", "answered", "assumed"}
    assert all(str(row[1]) <= str(row[2]) for row in rows if row[2])
    assert sum(1 for row in rows if row[3]) >= 3, "some hold up a step"


def test_the_newest_act_can_be_taken_back_and_done_again(demo: Store) -> None:
    before = demo_counts(demo)
    assert "bench log" in str(demo.undo_label())
    demo.undo()
    assert demo_counts(demo)["log_entry"] == before["log_entry"] - 1
    demo.redo()
    assert demo_counts(demo) == before


@pytest.mark.slow
@pytest.mark.skipif(DEPTH == 1, reason="builds the demo once more; the whole check does")
def test_built_twice_it_is_the_same(demo_file: Path, tmp_path: Path) -> None:
    again = tmp_path / "again.rebuild"
    heard: list[str] = []
    build_demo(again, heard.append)
    assert _content(again) == _content(demo_file)
    assert heard[0] == "the shop"
    assert "May 2025" in heard


def _content(path: Path) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table that is not the journal."""
    with closing(sqlite3.connect(path)) as raw:
        names = [
            row[0] for row in raw.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
        ]
        own = [
            name for name in names if name not in ("act", "change") and not name.startswith(("j_", "sqlite_"))
        ]
        return {name: list(raw.execute(f'SELECT * FROM "{name}" ORDER BY 1')) for name in own}


def test_a_users_own_demo_is_never_written_over(demo: Store) -> None:
    path, before = demo.path, demo_counts(demo)
    demo.undo()
    assert not ensure_demo(path)
    assert demo_counts(demo)["log_entry"] == before["log_entry"] - 1


def test_a_build_cut_short_leaves_no_demo(tmp_path: Path) -> None:
    def stop(words: str) -> None:
        if words == "Quarry shaper":
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        ensure_demo(tmp_path / "demo.rebuild", stop)
    assert list(tmp_path.iterdir()) == []


def test_the_demos_name_carries_the_program_version() -> None:
    from rebuild import __version__

    assert __version__ in demo_path().name
    assert demo_path().suffix == ".rebuild"
