"""A shaper's pages speak of no lathe: every page and view of a file that holds one shaper, its hints and tips too."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from rebuild.store.store import Store
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.shell.frame import Frame
from rebuild.work.charts import acts as charts
from rebuild.work.controls import acts as controls
from rebuild.work.gates.acts_checks import lay_out_checks
from rebuild.work.machines import acts as identify
from rebuild.work.run_in import acts as run_in
from tests.window.conftest import close_all_windows
from tests.window.walk import every_page, texts

#: What a lathe has and a shaper has not.
LATHE = re.compile(
    r"\b(lathe|headstock|tailstock|apron|half.?nuts?|leadscrew|lead screw|chuck|top slide|compound slide|quill|"
    r"between centres|height of centres|collars?|along the bed|spindle|carriage (?!cost))",
    re.IGNORECASE,
)
#: The handbook answers for every machine of the shop.
_FOR_ALL = ("figures",)
#: What is carried by a carrier, not along a bed.
_FREIGHT = "Carriage"


def lathe_words(text: str) -> list[str]:
    return [] if text == _FREIGHT else LATHE.findall(text)


@pytest.mark.parametrize(
    "text", ["On the lathe", "distance from the headstock end", "Two collars", "Drive spindle"]
)
def test_such_a_word_is_found(text: str) -> None:
    assert lathe_words(text)


def test_no_page_of_a_shaper_has_a_lathe_word(qapp: QApplication, tmp_path: Path) -> None:
    path = tmp_path / "shaper.rebuild"
    store = Store.create(path)
    machine = identify.add_machine(store, "Crank shaper", {"kind": "shaper"})
    group = identify.add_subassembly(store, machine, "Ram", "RM")
    identify.add_part(store, machine, group, "ram")
    charts.lay_out(store, machine)
    controls.lay_out_controls(store, machine)
    lay_out_checks(store, machine)
    run_in.lay_out_run(store, machine, 12, 90)
    store.close()
    desk = Desk()
    frame = Frame(desk, Memory(tmp_path / "window.ini"))
    frame.resize(1280, 800)
    frame.show()
    desk.open(path)
    found, seen = [], 0
    for where in every_page(frame):
        for widget, text in texts(frame):
            seen += bool(text)
            if where not in _FOR_ALL and (words := lathe_words(text)):
                found.append(f"{where}: {widget}: {words} in {text!r}")
    close_all_windows()
    desk.close()
    assert seen > 2_000
    assert sorted(set(found)) == []
