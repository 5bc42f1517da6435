"""A start maps no record and loads no act; what the first act needs comes after the first paint."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.work.decisions import acts as decisions
from rebuild.work.joints import acts as joints
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts_features as spec
from rebuild.work.where_was_i import acts as reentry

#: Opens the file as a start does, paints, gets ready, then takes one reading; tells what was loaded when.
PROGRAM = """
import json, sys
HEAVY = ("alembic", "pint", "numpy", "reportlab", "ezdxf", "openpyxl", "PIL")
from pathlib import Path
from PySide6.QtTest import QTest
import rebuild.window.shell.start as start

def loaded():
    return sorted(name for name in sys.modules if name.startswith(("rebuild.", "sqlalchemy.")) or name in HEAVY)

app = start.application()
frame = start._frame(Path(sys.argv[1]), demo=False)
frame.show()
QTest.qWaitForWindowExposed(frame)
page, at_start = frame.page_shown, loaded()
from rebuild.model.asked import metadata
built = sorted(metadata.tables)

from rebuild.window.shell import readiness
readiness.get_ready(frame)
waited = 0
while frame.findChildren(readiness._Ready) and waited < 400:
    QTest.qWait(25)
    waited += 1
ready = loaded()

from rebuild.work.readings.entry import Entry
from rebuild.work.readings import acts as measure
measure.record_reading(frame.desk.store, "24.98", Entry(1))
print(json.dumps({"page": page, "start": at_start, "built": built, "ready": ready, "acted": loaded()}))
frame.close()
"""


def tell(path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> dict[str, list[str]]:
    monkeypatch.setenv("QT_QPA_PLATFORM", "offscreen")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    said = subprocess.run(
        [sys.executable, "-c", PROGRAM, str(path)], capture_output=True, text=True, check=False, timeout=120
    )
    assert said.returncode == 0, said.stderr[-2000:]
    told: dict[str, list[str]] = json.loads(said.stdout)
    return told


@pytest.fixture
def project(tmp_path: Path) -> Path:
    path = tmp_path / "lathe.rebuild"
    store = Store.create(path)
    machine = identify.add_machine(store, "Lathe")
    part = identify.add_part(store, machine, None, "spindle")
    spec.add_feature(store, part, "front journal", unit="mm")
    store.close()
    return path


@pytest.mark.parametrize("page", ["bench", "where"])
def test_a_start_maps_nothing_and_the_first_act_finds_all_it_needs(
    project: Path, page: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if page == "where":
        store = Store.open(project)
        reentry.end_session(store, 1, did="took the apron off")
        cap = joints.add_joint(store, 1, None, "bearing cap", {"thread": "3/8-16", "count": "4"})
        joints.set_joints(store, [cap], joints.parse_joint("torqued", "15 lb-ft"))
        decisions.decide(
            store, [1], Decision.BUY, reason="bent"
        )  # the page names the finish, and an order is a wait
        store.close()
    told = tell(project, tmp_path, monkeypatch)
    assert told["page"] == page
    assert "rebuild.work.machines.rows_tree" in told["start"]
    assert "sqlalchemy.orm" not in told["start"]
    heavy = [name for name in told["start"] if "." not in name]
    assert not heavy, "a heavy library was loaded at the start"
    mapping = {name for name in told["start"] if name.startswith("rebuild.model.records")}
    assert not mapping, "a record was mapped at the start"
    assert not told["built"], "a question made the file's own table, with its indexes and references"
    acts = {"readings.acts", "readings.acts_features", "editing.acts", "steps.acts", "steps.rules_closing",
            "machines.acts", "decisions.acts", "where_was_i.acts", "joints.acts", "waiting.acts"}  # fmt: skip
    assert not {f"rebuild.work.{act}" for act in acts} & set(told["start"]), "an act was loaded at the start"
    assert {"rebuild.model.records.waiting", "rebuild.work.readings.acts", "sqlalchemy.orm"} <= set(
        told["ready"]
    )
    assert set(told["acted"]) == set(told["ready"]), "the first act had to load something"
