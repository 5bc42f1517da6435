"""Shared test set-up: offscreen Qt, no user settings touched, and real project files made fast.

A file is made once per session and copied for each test: no mocks of our own classes, no shared state.
"""

from __future__ import annotations

import gc
import os
import shutil
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

import pytest
from hypothesis import settings

from rebuild.store import connect
from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.words.readings import FeatureKind, SpecOrigin
from tests.support import Contents, read_contents
from tests.tally import pytest_terminal_summary as pytest_terminal_summary
from tests.work.teardown.apron import Apron, build as build_apron

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
# No deadline: the first example of a run may load a library, and CI shares its processors.
settings.register_profile("rebuild", deadline=None)
settings.load_profile("rebuild")
#: How far the program's commits go. Tests in this process let the disk follow; the kills run in their own.
SYNCHRONOUS = connect.SYNCHRONOUS
connect.SYNCHRONOUS = "OFF"


def pytest_configure(config: pytest.Config) -> None:
    """A worker that dies ends the run in red at once; one begun anew in its place would wait for ever."""
    if hasattr(config.option, "maxworkerrestart"):
        config.option.maxworkerrestart = "0"


def pytest_collection_finish(session: pytest.Session) -> None:
    """Thousands of collected tests are not walked again at every collection: a tenth of the run's processor time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000, 20, 50)


@dataclass(frozen=True)
class Shop:
    """A small project: one metric lathe with a headstock, its ids by name; ``store`` opens when first used."""

    path: Path
    machine: int
    headstock: int
    carriage: int
    spindle: int
    cap: int
    journal: int  # feature in mm, 60 -0.010/-0.029, stations near and far
    near: int
    far: int
    lost_motion: int  # feature in inches, high limit only
    micrometer: int
    strip: int  # steps of the headstock in order, each linked to the next
    measure: int
    remake: int
    refit: int
    question: int
    copied_at: int = 0  # when the file was last written to, if not since it was copied [ns]

    @cached_property
    def store(self) -> Store:
        """The project, open; as it was copied no cell of it is bad, so none is looked for."""
        return Store.open(self.path, looked_over=self.path.stat().st_mtime_ns != self.copied_at)

    def close(self) -> None:
        """Close the store, if any test opened it."""
        if "store" in self.__dict__:
            self.store.close()


def _fill(store: Store) -> dict[str, int]:
    from rebuild.work.decisions import acts as decide
    from rebuild.work.log import acts as notes
    from rebuild.work.machines import acts as identify
    from rebuild.work.readings import acts_features as spec
    from rebuild.work.steps import acts as tasks

    machine = identify.add_machine(store, "Toolroom lathe", {"kind": "lathe", "year": "1957"})
    headstock = identify.add_subassembly(store, machine, "Headstock", "HS")
    carriage = identify.add_subassembly(store, machine, "Carriage", "CA")
    spindle = identify.add_part(store, machine, headstock, "spindle", "HS-01", typed={"material": "C45"})
    cap = identify.add_part(store, machine, headstock, "bearing cap", "HS-02")
    journal = spec.add_feature(
        store,
        spindle,
        "front journal",
        FeatureKind.OUTSIDE_DIAMETER,
        spec="60 -0.010/-0.029",
        origin=SpecOrigin.DRAWING,
        stations=("near", "far"),
    )
    lost = spec.add_feature(store, cap, "lost motion", FeatureKind.LOST_MOTION, unit="in", spec="max 0.004")
    micrometer = spec.add_instrument(
        store, "Micrometer 50-75", {"kind": "outside micrometer", "resolution": "0.01", "mpe": "0.005"}
    )
    strip = tasks.add_task(store, machine, headstock, "Take the spindle out")
    measure = tasks.add_task(
        store, machine, headstock, "Measure the journals", part_id=spindle, after=[strip]
    )
    remake = tasks.add_task(
        store,
        machine,
        headstock,
        "Make a new cap",
        part_id=cap,
        after=[measure],
        typed={"kind": "make", "likely_min": "90"},
    )
    refit = tasks.add_task(store, machine, headstock, "Refit the spindle", after=[remake])
    decide.decide(store, [cap], Decision.REMAKE, reason="cracked through")
    question = notes.ask(store, machine, "Which oil did the maker print?", part_id=spindle, task_id=refit)
    notes.log_session(store, machine, {"did": "Stripped the headstock", "hours": "3"})
    with store.read() as connection:
        near, far = connection.exec_driver_sql("SELECT id FROM station ORDER BY position").scalars()
    return {
        "machine": machine,
        "headstock": headstock,
        "carriage": carriage,
        "spindle": spindle,
        "cap": cap,
        "journal": journal,
        "near": near,
        "far": far,
        "lost_motion": lost,
        "micrometer": micrometer,
        "strip": strip,
        "measure": measure,
        "remake": remake,
        "refit": refit,
        "question": question,
    }


@pytest.fixture(scope="session")
def empty_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An empty project file; copy it, never open it."""
    path = tmp_path_factory.mktemp("empty") / "empty.rebuild"
    Store.create(path).close()
    return path


@pytest.fixture(scope="session")
def filled_template(
    empty_template: Path, tmp_path_factory: pytest.TempPathFactory
) -> tuple[Path, dict[str, int]]:
    """A small project built through the acts, and its ids; copy it, never open it."""
    path = tmp_path_factory.mktemp("filled") / "filled.rebuild"
    shutil.copy(empty_template, path)
    store = Store.open(path)
    ids = _fill(store)
    store.close()
    return path, ids


@pytest.fixture(scope="session")
def demo_template(tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest) -> Path:
    """The demo as a first start makes it, with its photos; built once a run, however many processes share it.

    Copy it with ``demo_copy``, never open it.
    """
    from rebuild.demo.where import ensure_demo

    own = tmp_path_factory.getbasetemp()
    shared = (own.parent if hasattr(request.config, "workerinput") else own) / "demo"
    try:
        shared.mkdir()
    except FileExistsError:
        deadline = time.monotonic() + 600
        while not (shared / "built").exists() and time.monotonic() < deadline:
            time.sleep(0.2)
        assert (shared / "demo.rebuild").exists(), (
            "the process that began to build the demo did not finish it"
        )
    else:
        try:
            assert ensure_demo(shared / "demo.rebuild")
        finally:
            (shared / "built").touch()
    return shared / "demo.rebuild"


def demo_copy(template: Path, folder: Path) -> Path:
    """A copy of the demo with its photos in ``folder``; returns its path."""
    shutil.copytree(template.parent, folder, dirs_exist_ok=True, ignore=shutil.ignore_patterns("built"))
    return folder / template.name


@pytest.fixture
def project(empty_template: Path, tmp_path: Path) -> Path:
    """The path of an empty project file of this test's own."""
    return Path(shutil.copy(empty_template, tmp_path / "shop.rebuild"))


@pytest.fixture
def store(project: Path) -> Iterator[Store]:
    """An open, empty project."""
    opened = Store.open(project, looked_over=False)
    yield opened
    opened.close()


@pytest.fixture
def shop(filled_template: tuple[Path, dict[str, int]], tmp_path: Path) -> Iterator[Shop]:
    """A small project of this test's own, with ids by name."""
    template, ids = filled_template
    copy = Path(shutil.copy(template, tmp_path / "filled.rebuild"))
    earlier = (
        copy.stat().st_mtime_ns - 2_000_000_000
    )  # the disk's clock may tick more slowly than a test writes
    os.utime(copy, ns=(earlier, earlier))
    made = Shop(copy, **ids, copied_at=earlier)
    yield made
    made.close()


@pytest.fixture(scope="session")
def apron_template(empty_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Apron:
    """The inch shop of ``tests.work.teardown.apron``, built once and closed; copy it."""
    path = tmp_path_factory.mktemp("apron") / "apron.rebuild"
    shutil.copy(empty_template, path)
    built = build_apron(Store.open(path))
    built.store.close()
    return built


@pytest.fixture
def small_apron(apron_template: Apron, tmp_path: Path) -> Iterator[Apron]:
    """The inch shop for fits, open, of this test's own."""
    opened = Store.open(
        Path(shutil.copy(apron_template.store.path, tmp_path / "shop.rebuild")), looked_over=False
    )
    yield replace(
        apron_template,
        store=opened,
        parts=dict(apron_template.parts),
        features=dict(apron_template.features),
    )
    opened.close()


@pytest.fixture
def contents() -> Callable[[Path], Contents]:
    """Reads every journaled row of a file, floats exact, for comparing whole states."""
    return read_contents


@pytest.fixture
def own_reports(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Reports of faults go into a folder of the test, not of the user."""
    import platformdirs

    monkeypatch.setattr(platformdirs, "user_log_dir", lambda *_args, **_more: str(tmp_path / "logs"))
