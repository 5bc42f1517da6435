"""Do an act of the table by its name: its module is imported when it is first asked for."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from typing import cast

from PySide6.QtWidgets import QWidget

from rebuild.window.commands.menu_lines import row_of
from rebuild.window.desk.desk import Desk

#: What every act takes: the desk, and the window its dialog stands on.
Act = Callable[[Desk, QWidget], object]


def act_named(name: str) -> Act:
    """The function behind ``module:function``."""
    module, _, function = name.partition(":")
    return cast(Act, getattr(import_module(module), function))


def do_act(key: str, desk: Desk, window: QWidget) -> object:
    """Do the act of one action; returns what it made, such as its dialog."""
    return act_named(row_of(key).act)(desk, window)
