"""The table of acts: every name is there, and is called with the desk and a window."""

from __future__ import annotations

import inspect

import pytest
from PySide6.QtWidgets import QWidget

from rebuild.window.commands.dispatch import act_named, do_act
from rebuild.window.commands.menu_lines import ACTIONS
from rebuild.window.desk.desk import Desk
from rebuild.work.machines import rows_tree as tree

ACTS = {row.key: row.act for row in ACTIONS if row.act}

#: Done by the frame itself: they need its files, its pages or its tree.
FRAMES_OWN = {
    "bench_mode", "new_file", "open_file", "try_demo", "close_file", "mend_file", "quit", "undo", "redo", "find",
    "rename", "remove", "next_pane", "find_all", "text_larger", "text_smaller", "text_usual",
}  # fmt: skip


@pytest.mark.parametrize("key", ACTS)
def test_every_act_is_a_function_of_the_desk_and_a_window(key: str) -> None:
    act = act_named(ACTS[key])
    assert inspect.isfunction(act)
    assert f"{act.__module__}:{act.__name__}" == ACTS[key], "an act is named by its own home"
    bound = inspect.signature(act).bind(object(), object())
    first, second = list(bound.signature.parameters.values())[:2]
    assert first.annotation == "Desk"
    assert second.annotation in ("QWidget", "QWidget | None")


def test_what_has_no_act_is_done_by_the_frame() -> None:
    assert {row.key for row in ACTIONS if row.key and not row.act} == FRAMES_OWN


def test_an_act_is_named_once() -> None:
    assert len(set(ACTS.values())) == len(ACTS)


def test_an_act_is_done_by_its_key(desk: Desk, qapp: object) -> None:
    window = QWidget()
    do_act("remove_machine", desk, window)
    with desk.store.read() as connection:
        assert tree.machines(connection) == []
    desk.undo()
    with desk.store.read() as connection:
        assert [machine.name for machine in tree.machines(connection)] == ["Toolroom lathe"]
