"""One reader of typed numbers: the few other places that may turn text into a number, each with its reason."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

import pytest

from tests.numbers_read import HOME, places

TABLE = "a cell of a table the program brings with it"
WORKED = "a number worked out exactly (Decimal, Fraction) or in an array becomes a plain one"
PIXELS = "a place on the screen or the paper"
KEY = "the number of a record, out of our own list, link or drag"
OURS = "reads back what the program itself wrote"
CLASS = "the digits of a class or code, few and already matched"
EXIT = "the exit code of a command"
CELL = "a cell of a workbook that is a number already, shown as text for the one reader"
ENUM = "a member of an enumeration"
READER = "the reader itself"
GIVEN = "a number given by a caller, not text (text is refused)"
MOUNTS = "the system's own list of mounted folders"
SQLITE = "a result code of SQLite"
SORTED = "a cell shown by us, read again only to sort by it; nothing is stored"
PINT = "a factor of the units library"

#: Path, why a number may be made there, and in which functions. Typed text goes through ``trade/sizes/number.py``:
#: no field, cell, import or command belongs in this list.
ALLOWED: dict[str, tuple[str, ...]] = {
    "window/figures/result_words.py": (WORKED, "_rounded"),
    "window/shell/window_state.py": ("the text size the window remembers, as it wrote it", "recall"),
    "cli/main.py": (EXIT, "main"),
    "cli/window.py": (EXIT, "show_window"),
    "exchange/workbook_in.py": (CELL, "shown"),
    "sheets/book/flow.py": (PIXELS, "least"),
    "sheets/book/measure.py": (PIXELS, "width"),
    "sheets/book/pages.py": (PIXELS, "printed_number", "lay_out"),
    "sheets/paper.py": (PIXELS, "build"),
    "store/beside.py": (OURS, "_is_stray"),
    "store/cell_rules.py": (OURS, "_stand_in"),
    "store/folders.py": (MOUNTS, "_is_mounted_from_elsewhere"),
    "store/repair/mend.py": (OURS, "_unsound"),
    "store/take_back.py": (OURS, "_look"),
    "store/sqlite_words.py": (SQLITE, "code_of"),
    "store/next_undo.py": (OURS, "rows_by_table"),
    "store/write_ahead.py": (OURS, "mark_on"),
    "trade/bearings/table.py": (CLASS, "bore_of_code", "_not_held"),
    "trade/figures/gear_trains.py": (WORKED, "_change_gears"),
    "trade/fits/b4_1.py": (CLASS, "parse_inch_class"),
    "trade/gears/blank.py": (WORKED, "gear_blank"),
    "trade/gears/change_gears.py": (WORKED, "_in_mm", "_train", "_working"),
    "trade/joints/bolts.py": (WORKED, "stress_area_mm2", "_inch"),
    "trade/joints/dowels.py": (TABLE, "_inch"),
    "trade/joints/keys.py": (TABLE, "key_inch"),
    "trade/limits/iso286.py": (TABLE, "_explain_upper"),
    "trade/sizes/own_temperature.py": ("a temperature in a caution of ours", "_both"),
    "trade/sizes/own_unit.py": ("the places of a format of ours", "__format__"),
    "trade/waiting/days_said.py": (OURS, "_days"),
    "trade/results/in_inch.py": (OURS, "_inch", "_thou"),
    "trade/limits/iso286_tables.py": (TABLE, "_by_step"),
    "trade/lubrication/duties.py": (TABLE, "duty"),
    "trade/lubrication/grades.py": (TABLE, "nearest_grade", "_band"),
    "trade/limits/inward.py": (WORKED, "_whole", "_round"),
    "trade/schedule/plan.py": (WORKED, "_by_week"),
    "trade/schedule/week.py": (WORKED, "dates", "begin_dates", "wait_dates"),
    "trade/schedule/simulate.py": (WORKED, "by", "simulate", "_drivers"),
    "trade/shop/cutting.py": (TABLE, "advice", "_feed"),
    "trade/shop/dividing.py": (WORKED, "_trains"),
    "trade/sizes/amounts.py": (WORKED, "exact_minutes"),
    "trade/sizes/given.py": (GIVEN, "_float"),
    "trade/sizes/exact.py": (READER, "exact", "plain_decimal", "ratio", "refuse_lost_space", "decimal"),
    "trade/sizes/show.py": (WORKED, "exact_text"),
    "trade/sizes/ticks.py": (WORKED, "ticks"),
    "trade/sizes/units.py": (PINT, "length_in_mm"),
    "trade/threads/acme.py": (WORKED, "limits", "increments"),
    "trade/threads/ba.py": (WORKED, "limits"),
    "trade/threads/designation.py": (WORKED, "_unified"),
    "trade/threads/lookup.py": (CLASS, "_limits"),
    "trade/threads/metric.py": (WORKED, "limits", "_parse"),
    "trade/threads/rounding.py": (WORKED, "", "dec"),
    "trade/threads/series.py": (WORKED, "_name"),
    "trade/threads/stub_acme.py": (WORKED, "limits"),
    "trade/threads/trapezoidal.py": (WORKED, "basic", "limits", "_pitch_tolerance", "_internal"),
    "trade/threads/unified.py": (WORKED, "_external", "_internal", "_as_printed", "_found"),
    "trade/threads/whitworth.py": (WORKED, "limits"),
    "trade/wear/rules.py": (TABLE, "_own_rules"),
    "window/documents/call_out_line.py": (KEY, "_said"),
    "window/entry/field.py": (KEY, "_quiet"),
    "window/fits/settings.py": (KEY, "act"),
    "window/joints/new_joint.py": (KEY, "where"),
    "window/forms/editors.py": (KEY, "put"),
    "window/forms/limit_dialog.py": (KEY, "act"),
    "window/forms/new.py": (KEY, "act"),
    "window/ink/sketch_view.py": (PIXELS, "draw"),
    "window/ink/zone_scale.py": (PIXELS, "round_step"),
    "window/layout/views.py": (KEY, "__init__"),
    "window/lists/plain_table.py": (SORTED, "sort_key"),
    "window/lists/section.py": (KEY, "_follow"),
    "window/parts/tree/lines.py": (ENUM, ""),
    "window/parts/tree/model.py": (KEY, "dragged"),
    "window/plan/finish_picture.py": (PIXELS, "draw"),
    "window/readings/columns.py": (ENUM, ""),
    "window/readings/cell_menu.py": (PIXELS, "copy_with_headings"),
    "window/readings/headings.py": (PIXELS, "save"),
    "window/steps/constraint_dialog.py": (KEY, "add"),
    "window/steps/model.py": (KEY, "dropMimeData"),
    "window/teardown/page.py": (KEY, "group"),
    "work/boxes/acts.py": (OURS, "_free_code"),
    "work/fits/acts_wanted.py": (OURS, "_size_of"),
    "work/making/rows_issue.py": (OURS, "read_issue"),
    "work/machines/rows_parts.py": (CLASS, "next_code"),
    "work/records/field.py": (OURS, "show"),
    "work/records/rows_history.py": (OURS, "_shown", "_reading"),
    "store/find/bites.py": (OURS, "_far"),
    "window/desk/memory.py": (OURS, "left_on"),
    "work/run_in/rows.py": (KEY, "_course"),
    "work/surveys/acts.py": (OURS, "_put"),
}


@cache
def _found() -> dict[tuple[str, str], list[str]]:
    """The calls by path and function. Migrations are left out: they read tables of the file, in SQL."""
    found: dict[tuple[str, str], list[str]] = {}
    for path in sorted(HOME.rglob("*.py")):
        if "migrations" not in path.parts:
            for inside, line, source in places(path):
                where = (path.relative_to(HOME).as_posix(), inside)
                found.setdefault(where, []).append(f"line {line}: {source}")
    return found


def _allowed() -> set[tuple[str, str]]:
    return {(path, inside) for path, (_reason, *names) in ALLOWED.items() for inside in names}


def test_typed_numbers_have_one_reader() -> None:
    new = {where: said for where, said in _found().items() if where not in _allowed()}
    assert not new, f"Read these by trade/sizes/number.py, or say why not: {new}"


def test_every_place_that_is_allowed_still_is_one() -> None:
    assert sorted(_allowed() - set(_found())) == []


@pytest.mark.parametrize(
    "line",
    [
        "float(text)", "int(match['teeth'])", "Decimal(edit.text())", "Fraction(self.typed)", "list(map(float, words))",
        "float(text.replace(',', '.'))", "parser.add_argument('--count', type=int)", "float('1' + text)",
        "int(parts[0])",
    ],
)  # fmt: skip
def test_a_new_place_is_found(line: str, tmp_path: Path) -> None:
    path = tmp_path / "new.py"
    path.write_text(f"def read(text: str) -> object:\n    return {line}\n", encoding="utf-8")
    ast.parse(path.read_text(encoding="utf-8"))
    assert [inside for inside, *_ in places(path)] == ["read"]


@pytest.mark.parametrize(
    "line", ["float(2 * size)", "int(len(text))", "float(size)", "float(row['bore_mm'])"]
)
def test_what_is_plainly_a_number_is_not(line: str, tmp_path: Path) -> None:
    path = tmp_path / "new.py"
    path.write_text(f"def read(size: float, text: str) -> object:\n    return {line}\n", encoding="utf-8")
    assert list(places(path)) == []
