"""What is exported can be imported into an empty file with every value exactly as it was."""

from __future__ import annotations

import csv
import json
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from itertools import count
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings, strategies as st
from openpyxl import load_workbook

from rebuild.errors import BadEntry, FileTrouble, RebuildError, Stopped
from rebuild.exchange.folder import EVERYTHING, NOTE, export_folder
from rebuild.exchange.guess import batches_of
from rebuild.exchange.whole_in import bring_in_folder, is_whole
from rebuild.exchange.workbook import export_workbook
from rebuild.model.tables.every import whole
from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.words.parts import Origin
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.checks.check import check
from rebuild.work.decisions import acts as decide
from rebuild.work.lists import acts_whole
from rebuild.work.lists.acts import bring_in, look_over
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure, acts_features as spec
from tests.conftest import Shop, demo_copy
from tests.depth import examples
from tests.support import read_contents, refuses

#: Everything a part, feature, station and reading says, with names in place of numbers.
PARTS = """
SELECT m.name, m.unit, g.code, g.name, p.code, p.name, p.other_names, p.quantity, p.identity, p.suspects, p.origin,
  p.material, p.condition, p.decision, p.decision_reason, p.decision_criterion, p.decision_would_change, p.decided_at,
  p.decision_method, p.decision_value, p.decision_cost, p.decision_work_min, p.decision_wait_days, l.kind, l.name,
  p.placed_at, p.match_mark, p.orientation, k.name, p.figure_item, p.maker_number, p.stamped, p.handedness, s.code,
  s.name, p.note
FROM part p JOIN machine m ON m.id = p.machine_id LEFT JOIN subassembly g ON g.id = p.subassembly_id
LEFT JOIN place l ON l.id = p.place_id LEFT JOIN matched_set k ON k.id = p.matched_set_id
LEFT JOIN part s ON s.id = p.spare_of_id ORDER BY p.id
"""
FEATURES = """
SELECT p.code, p.name, f.name, f.kind, f.unit, f.thread, f.nominal_text, f.nominal_unit, f.nominal_mm, f.low_text,
  f.low_unit, f.low_mm, f.high_text, f.high_unit, f.high_mm, f.spec_text, f.sense, f.spec_origin, f.spec_note, f.note,
  t.name, t.at_text, t.at_unit, t.at_mm, t.position
FROM feature f JOIN part p ON p.id = f.part_id LEFT JOIN station t ON t.feature_id = f.id
ORDER BY f.id, t.position, t.id
"""
READINGS = """
SELECT p.code, p.name, f.name, t.name, r.stage, r.typed, r.unit, r.value_mm, r.repeats, r.spread_mm, i.name,
  r.temperature_text, r.temperature_c, r.taken_at, r.taken_by, r.note, r.struck
FROM reading r JOIN feature f ON f.id = r.feature_id JOIN part p ON p.id = f.part_id
LEFT JOIN station t ON t.id = r.station_id LEFT JOIN instrument i ON i.id = r.instrument_id ORDER BY r.id
"""


def told(path: Path) -> list[list[tuple[object, ...]]]:
    """Parts, features with stations, and readings, floats exact."""
    with closing(sqlite3.connect(path)) as raw:
        return [raw.execute(query).fetchall() for query in (PARTS, FEATURES, READINGS)]


@pytest.fixture(scope="module")
def demo_file(demo_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return demo_copy(demo_template, tmp_path_factory.mktemp("demo"))


@pytest.mark.parametrize("by", ["folder", "workbook"])
def test_the_whole_demo_goes_out_and_comes_back(by: str, demo_file: Path, tmp_path: Path) -> None:
    target = tmp_path / ("out" if by == "folder" else "out.xlsx")
    if by == "folder":
        export_folder(demo_file, target)
    else:
        export_workbook(demo_file, target)
    store = Store.create(tmp_path / "again.rebuild")
    brought = bring_in(store, None, batches_of(target), confirmed=True)
    assert brought.kept == 0
    store.close()
    assert told(tmp_path / "again.rebuild") == told(demo_file)
    assert check(tmp_path / "again.rebuild") == []


def test_everything_of_the_demo_comes_back_in_one_act_whatever_table(demo_file: Path, tmp_path: Path) -> None:
    export_folder(demo_file, tmp_path / "out", photos=True)
    assert is_whole(tmp_path / "out")
    again = tmp_path / "again.rebuild"
    store = Store.create(again)
    came = bring_in_folder(store, tmp_path / "out")
    before, after = read_contents(demo_file), read_contents(again)
    renumbered = {
        name for name in before if [row[0] for row in before[name]] != [row[0] for row in after[name]]
    }
    counts = {name: len(rows) for name, rows in before.items()}
    assert {name: len(rows) for name, rows in after.items()} == counts
    assert sum(counts.values()) > 2_000
    assert (came.photos > 0, came.lacking) == (True, 0)
    for name in set(before) - _touching(renumbered):
        assert after[name] == before[name], name
    assert _words(after) == _words(before)
    store.undo()
    assert not any(read_contents(again).values()), "one undo takes it all back"
    store.redo()
    store.close()
    assert check(again) == []


def _words(told_rows: dict[str, list[tuple[object, ...]]]) -> dict[str, list[tuple[object, ...]]]:
    """Rows without the numbers they are counted and referred to by."""
    numbered = {
        name: [
            at for at, one in enumerate(whole().tables[name].columns) if one.foreign_keys or one.name == "id"
        ]
        for name in told_rows
    }
    return {
        name: [tuple(value for at, value in enumerate(row) if at not in numbered[name]) for row in rows]
        for name, rows in told_rows.items()
    }


def _touching(names: set[str]) -> set[str]:
    """The tables and those that refer to them."""
    refers = {
        table.name
        for table in whole().sorted_tables
        for column in table.columns
        for key in column.foreign_keys
        if key.column.table.name in names
    }
    return names | refers


def test_an_export_comes_into_a_file_that_holds_things_already(shop: Shop, tmp_path: Path) -> None:
    export_folder(shop.path, tmp_path / "out")
    before = read_contents(shop.path)
    bring_in_folder(shop.store, tmp_path / "out")
    after = read_contents(shop.path)
    shared = {"instrument", "place", "stock_item", "wear_rule", "day_off", "work_spell"}
    for name, rows in before.items():
        assert after[name][: len(rows)] == rows, "what was there stays"
        assert len(after[name]) == len(rows) * (1 if name in shared else 2), name
    assert [row[1] for row in after["machine"]] == ["Toolroom lathe", "Toolroom lathe (2)"]
    assert check(shop.path) == []


@pytest.mark.parametrize("after", [1, 2, 6])
def test_an_export_stopped_on_its_way_in_leaves_nothing(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, after: int
) -> None:
    monkeypatch.setattr(acts_whole, "EACH", 3)
    export_folder(shop.path, tmp_path / "out")
    heard: list[float] = []
    with refuses(shop.store, "It was stopped; nothing was stored", Stopped):
        bring_in_folder(
            shop.store, tmp_path / "out", lambda share, _at: bool(heard.append(share)) or len(heard) < after
        )
    assert len(heard) == after
    heard.clear()
    bring_in_folder(shop.store, tmp_path / "out", lambda share, _at: not heard.append(share))
    assert heard == sorted(heard)
    assert 0.8 < heard[-1] < 1.0
    assert check(shop.path) == []


def test_an_export_somebody_spoiled_is_refused_by_its_value(shop: Shop, tmp_path: Path) -> None:
    export_folder(shop.path, tmp_path / "out")
    path = tmp_path / "out" / EVERYTHING
    said = json.loads(path.read_text(encoding="utf-8"))
    good = json.dumps(said)
    spoiled = {
        "part": ("quantity", "two", "Quantity|quantity"),
        "feature": ("part_id", 999, "is no part of the export"),
        "machine": ("kind", "rocket", "“rocket” is not what stands there"),
    }
    for name, (column, value, words) in spoiled.items():
        said = json.loads(good)
        said["records"][name][0][column] = value
        path.write_text(json.dumps(said), encoding="utf-8")
        with refuses(shop.store, words):
            bring_in_folder(shop.store, tmp_path / "out")
    path.write_text(json.dumps(json.loads(good) | {"schema": "9999"}), encoding="utf-8")
    with pytest.raises(FileTrouble, match="written by a newer program"):
        bring_in_folder(shop.store, tmp_path / "out")


def test_a_list_edited_after_the_export_speaks_for_itself(shop: Shop, tmp_path: Path) -> None:
    import os

    export_folder(shop.path, tmp_path / "out")
    edited = tmp_path / "out" / "part list.csv"
    written = (tmp_path / "out" / EVERYTHING).stat().st_mtime
    os.utime(edited, (written + 60, written + 60))
    assert not is_whole(tmp_path / "out")


TEXTS = st.text(
    alphabet=st.characters(codec="utf-8", exclude_categories=("Cs",)), min_size=0, max_size=40
).map(str.strip)
NAMES = TEXTS.filter(bool)
SIZES = st.one_of(
    st.decimals(-500, 500, places=4).map(str),
    st.builds(
        "{}-{}/{}".format, st.integers(1, 9), st.sampled_from([1, 3, 5]), st.sampled_from([8, 16, 32])
    ).map(lambda text: f"{text} in"),
    st.integers(1, 90).map(lambda thou: f"{thou} thou"),
    st.tuples(st.integers(1, 9), st.integers(100, 999)).map(lambda pair: f"{pair[0]},{pair[1]}"),
    st.lists(st.decimals(20, 30, places=3).map(str), min_size=2, max_size=4).map("; ".join),
    st.integers(1, 400).map(lambda um: f"{um} µm"),
)
SPECS = st.sampled_from(
    [
        "",
        "25 H7",
        "60 -0.010/-0.029",
        "max 0.05",
        "min 1.2",
        "±0.02",
        "12.5-12.7",
        "1.2505 ±0.0005 in",
        "3/4 in",
    ]
)
PART = st.fixed_dictionaries(
    {
        "name": NAMES, "note": TEXTS, "condition": TEXTS, "match_mark": TEXTS, "suspects": TEXTS,
        "quantity": st.integers(1, 10**6).map(str), "origin": st.sampled_from([one.value for one in Origin]),
        "decision_cost": st.one_of(st.just(""), st.floats(0, 1e6).map(repr)),
        "decision_work_min": st.one_of(st.just(""), st.integers(0, 9000).map(str)),
    }
)  # fmt: skip
READING = st.tuples(
    SIZES, st.sampled_from(list(Stage)), st.integers(0, 2), TEXTS, TEXTS,
    st.one_of(st.just(""), st.integers(-20, 40).map(lambda c: f"{c} C"), st.integers(10, 90).map(lambda f: f"{f} F")),
)  # fmt: skip
SHOPS = st.lists(
    st.tuples(
        PART,
        st.sampled_from(["", "GB", "HS"]),
        st.booleans(),
        st.lists(st.tuples(NAMES, st.sampled_from(["mm", "in"]), SPECS, st.integers(0, 2),
                           st.lists(READING, max_size=3)), max_size=2),
    ),
    min_size=1, max_size=4,
)  # fmt: skip
NUMBER = count()


def fill(
    store: Store, shop: list[tuple[dict[str, str], str, bool, list[tuple[str, str, str, int, list[object]]]]]
) -> None:
    """Build what was drawn, through the acts; what an act refuses is left out."""
    machine = identify.add_machine(store, "Machine = 1", {"unit": "in", "kind": "mill"})
    groups = {code: identify.add_subassembly(store, machine, f"group {code}", code) for code in ("GB", "HS")}
    place = identify.add_place(store, "A, 1")
    tool = spec.add_instrument(store, "Micrometer; 0-25")
    made: list[int] = []
    for at, (typed, group, settled, features) in enumerate(shop):
        part = identify.add_part(store, machine, groups.get(group), typed["name"], f"P-{at}", typed=typed)
        if made and settled:
            identify.add_matched_set(store, machine, f"set {at}", [part, made[-1]])
            decide.decide(store, [part], Decision.REWORK, reason="worn, “so”\nto say")
            identify.put(store, [part], place)
        made.append(part)
        for name, unit, limits, stations, readings in features:
            try:
                feature = spec.add_feature(
                    store,
                    part,
                    name,
                    FeatureKind.OTHER,
                    unit=unit,
                    spec=limits,
                    stations=[f"{12 * (n + 1)} {unit}" if n else "near" for n in range(stations)],
                )
            except RebuildError:
                continue
            ids = [None, *_stations(store, feature)]
            for number, (text, stage, where, note, by, warm) in enumerate(readings):
                entry = measure.Entry(
                    feature,
                    ids[where % len(ids)],
                    stage,
                    tool if number % 2 else None,
                    warm,
                    taken_by=by,
                    note=note,
                )
                try:
                    taken = measure.record_reading(store, text, entry, confirmed=True)
                except BadEntry:
                    continue
                if number == 2:
                    measure.strike_reading(store, taken.reading_id, "dirty, read again")


def _stations(store: Store, feature: int) -> list[int]:
    with closing(sqlite3.connect(store.path)) as raw:
        rows = raw.execute("SELECT id FROM station WHERE feature_id = ? ORDER BY position", (feature,))
        return [row[0] for row in rows]


@settings(
    max_examples=examples(8),
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(shop=SHOPS, comma=st.sampled_from(["ask", "decimal", "thousands"]))
def test_parts_features_and_readings_come_back_exactly(
    shop: list[tuple[dict[str, str], str, bool, list[tuple[str, str, str, int, list[object]]]]],
    comma: str,
    empty_template: Path,
    tmp_path: Path,
) -> None:
    folder = tmp_path / f"{next(NUMBER)}"
    folder.mkdir()
    first, second = (Path(shutil.copy(empty_template, folder / name)) for name in ("a.rebuild", "b.rebuild"))
    store = Store.open(first)
    store.set_setting("comma", comma)
    fill(store, shop)
    store.close()
    export_folder(first, folder / "out")
    again = Store.open(second)
    bring_in(again, None, batches_of(folder / "out"), confirmed=True)
    again.close()
    assert told(second) == told(first)
    shutil.rmtree(folder)


# What is in the folder


def rows_of(path: Path) -> Iterator[dict[str, str]]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        yield from csv.DictReader(file)


def test_every_record_of_the_file_is_in_the_folder(demo_file: Path, tmp_path: Path) -> None:
    made = export_folder(demo_file, tmp_path / "out", photos=True)
    assert made.photos > 0
    with closing(sqlite3.connect(demo_file)) as raw:
        names = [
            name
            for (name,) in raw.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
            if not name.startswith(("sqlite_", "j_", "find_"))  # the index is made of the rows
            and name not in ("change", "current_act", "alembic_version")
        ]
        counted = {name: raw.execute(f'SELECT COUNT(*) FROM "{name}"').fetchone()[0] for name in names}
    assert {path.stem for path in (tmp_path / "out" / "records").iterdir()} == set(counted)
    whole = json.loads((tmp_path / "out" / EVERYTHING).read_text(encoding="utf-8"))
    for name, wanted in counted.items():
        assert len(list(rows_of(tmp_path / "out" / "records" / f"{name}.csv"))) == wanted, name
        assert len(whole["records"][name]) == wanted, name


def test_json_holds_numbers_to_the_last_digit(demo_file: Path, tmp_path: Path) -> None:
    export_folder(demo_file, tmp_path / "out")
    whole = json.loads((tmp_path / "out" / EVERYTHING).read_text(encoding="utf-8"))["records"]
    with closing(sqlite3.connect(demo_file)) as raw:
        for key, value in raw.execute("SELECT id, value_mm FROM reading ORDER BY id"):
            row = whole["reading"][key - 1]
            assert (row["id"], row["value_mm"]) == (key, value)


def test_the_note_names_every_file_and_every_column(demo_file: Path, tmp_path: Path) -> None:
    export_folder(demo_file, tmp_path / "out")
    said = (tmp_path / "out" / NOTE).read_text(encoding="utf-8")
    for path in (tmp_path / "out").rglob("*.csv"):
        assert f"{path.relative_to(tmp_path / 'out').as_posix()} (" in said
        with path.open(encoding="utf-8-sig", newline="") as file:
            heads = next(csv.reader(file))
        assert len(set(heads)) == len(heads), path.name
        for head in heads:
            assert f"    {head} " in said, (path.name, head)


def test_human_columns_carry_text_unit_and_millimetres(shop: Shop, tmp_path: Path) -> None:
    measure.record_reading(shop.store, "1/64", measure.Entry(shop.lost_motion), confirmed=True)
    export_folder(shop.path, tmp_path / "out")
    row = next(rows_of(tmp_path / "out" / "readings.csv"))
    assert (row["Part code"], row["Feature"], row["Reading, as typed"], row["Unit"], row["Value [mm]"]) == (
        "HS-02",
        "lost motion",
        "1/64",
        "in",
        "0.396875",
    )


def test_a_folder_with_something_in_it_is_left_alone(shop: Shop, tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "mine.txt").write_text("precious")
    with pytest.raises(FileTrouble, match="not empty"):
        export_folder(shop.path, tmp_path / "out")
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["mine.txt"]


def test_an_export_can_be_stopped(shop: Shop, tmp_path: Path) -> None:
    with pytest.raises(FileTrouble, match="stopped"):
        export_folder(shop.path, tmp_path / "out", tell=lambda _share, words: words != "features")


def test_text_that_looks_like_a_formula_stays_text(shop: Shop, tmp_path: Path) -> None:
    from rebuild.work.editing.acts import edit

    edit(
        shop.store,
        "part",
        [shop.spindle],
        {"note": "=1+1", "condition": "bell \u0007 rings", "name": "+spindle"},
    )
    export_workbook(shop.path, tmp_path / "out.xlsx")
    sheet = load_workbook(tmp_path / "out.xlsx")["part list"]
    heads = [cell.value for cell in sheet[1]]
    row = dict(zip(heads, sheet[2], strict=True))
    assert (row["Note"].value, row["Note"].data_type) == ("=1+1", "s")
    assert row["Name"].value == "+spindle"
    assert "rings" in row["Condition"].value
    assert row["Quantity"].value == 1


def test_looking_at_an_import_stores_nothing(shop: Shop, demo_file: Path, tmp_path: Path) -> None:
    export_folder(demo_file, tmp_path / "out")
    before, label = told(shop.path), shop.store.undo_label()
    looked = look_over(shop.store, None, batches_of(tmp_path / "out"))
    assert len(looked) > 1000
    assert told(shop.path) == before
    assert shop.store.undo_label() == label
    assert check(shop.path) == []
