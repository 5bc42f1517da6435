"""The state of a file worked out by two processes is what one finds."""

from __future__ import annotations

import os
from collections.abc import Callable

import pytest

from rebuild.cli import side_by_side
from rebuild.cli.side_by_side import state_of_file
from rebuild.work.machines import acts as identify
from rebuild.work.plan import rows_summary
from tests.conftest import Shop


@pytest.fixture
def four(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> Shop:
    for name in ("second", "third", "fourth"):
        identify.add_machine(shop.store, name)
    monkeypatch.setattr(side_by_side, "A_SHARE", 2)
    return shop


def _worked_out_in(monkeypatch: pytest.MonkeyPatch, hear: Callable[[str], None]) -> None:
    """Tell the name of every machine this process works out, not what the other does."""
    real = rows_summary._machine

    def heard(connection: object, row: object, *rest: object) -> object:
        hear(row.name)  # type: ignore[attr-defined]
        return real(connection, row, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(rows_summary, "_machine", heard)


def test_two_processes_find_what_one_does(four: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    alone = rows_summary.shop_state(four.store)
    assert len(alone.machines) == 4
    here: list[str] = []
    _worked_out_in(monkeypatch, here.append)
    assert state_of_file(four.store.path, processors=2) == alone
    assert len(here) == 2  # the other two by the other process
    assert state_of_file(four.store.path, processors=1) == alone
    assert len(here) == 6


def test_what_another_process_stumbles_over_is_worked_out_here(
    four: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    alone = rows_summary.shop_state(four.store)
    here, own = [], os.getpid()

    def hear(name: str) -> None:
        here.append(name)
        if os.getpid() != own:
            raise ValueError(name)

    _worked_out_in(monkeypatch, hear)
    assert state_of_file(four.store.path, processors=2) == alone
    assert len(here) == 4


def test_a_process_that_ends_is_made_up_for(four: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    alone, own = rows_summary.shop_state(four.store), os.getpid()
    _worked_out_in(monkeypatch, lambda _name: None if os.getpid() == own else os._exit(9))
    assert state_of_file(four.store.path, processors=2) == alone
