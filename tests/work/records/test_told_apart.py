"""Two parts of one name and no code are told apart wherever a list shows both. Source: none, ours."""

from __future__ import annotations

import pytest

from rebuild.store.store import Store
from rebuild.words.places import PlaceKind
from rebuild.work.decisions.rows_proposals import to_decide
from rebuild.work.machines import acts as identify
from rebuild.work.records.rows import choices
from rebuild.work.records.rows_like import told_apart
from rebuild.work.teardown.acts_line import say_removal
from rebuild.work.teardown.line_read import read_line
from rebuild.work.teardown.rows_candidates import candidates
from tests.support import refuses


@pytest.fixture
def machine(store: Store) -> int:
    return identify.add_machine(store, "Bench lathe")


def test_each_list_says_what_tells_them_apart(store: Store, machine: int) -> None:
    apron, tail = (identify.add_subassembly(store, machine, name, "") for name in ("Apron", "Tailstock"))
    bag = identify.add_place(store, "2", PlaceKind.BAG)
    lies = {"place_id": str(bag)}
    keys = [
        identify.add_part(store, machine, apron, "washer", typed=lies),
        identify.add_part(store, machine, apron, "Washer"),
        identify.add_part(store, machine, tail, "washer"),
        identify.add_part(store, machine, tail, "washer"),
        identify.add_part(store, machine, tail, "washer", "TS-01"),
        identify.add_part(store, machine, tail, "quill"),
    ]
    with store.read() as connection:
        said = told_apart(connection, machine)
        chosen = {one.id: one.label for one in choices(connection, "part", machine)}
        decided = {one.part_id: one.title for one in to_decide(connection, machine)}
        off = {one.part_id: one.beside for one in candidates(connection, machine, None).every}
    assert said == {
        keys[0]: "of Apron, in bag 2", keys[1]: "of Apron",
        keys[2]: "of Tailstock, no. 1 of 2", keys[3]: "of Tailstock, no. 2 of 2",
    }  # fmt: skip
    assert {key: words for key, words in off.items() if words} == said
    assert chosen == decided
    assert len(set(chosen.values())) == len(keys)
    assert (chosen[keys[0]], chosen[keys[4]], chosen[keys[5]]) == (
        "washer (of Apron, in bag 2)", "TS-01 washer", "quill",
    )  # fmt: skip
    with refuses(store, r"could be .*washer \(of Tailstock, no. 1 of 2\).*TS-01 washer"):
        read_line(store, machine, tail, "washer l")
    assert read_line(store, machine, apron, "washer l").part_ids == (keys[1],), "the other lies in its bag"


def test_of_two_that_no_word_tells_apart_the_next_one_comes_off(store: Store, machine: int) -> None:
    apron = identify.add_subassembly(store, machine, "Apron", "")
    two = [identify.add_part(store, machine, apron, "washer") for _ in range(2)]
    for key in two:
        assert read_line(store, machine, apron, "washer l").part_ids == (key,)
        say_removal(store, machine, apron, "washer l")


def test_a_second_of_a_name_said_at_the_log_has_a_code_of_its_own(store: Store, machine: int) -> None:
    for code, name in (("AP", "Apron"), ("TS", "Tailstock")):
        group = identify.add_subassembly(store, machine, name, code)
        say_removal(store, machine, group, "new washer l", make=True)
    with store.read() as connection:
        assert told_apart(connection, machine) == {}
        assert [one.label for one in choices(connection, "part", machine)] == ["AP-01 washer", "TS-01 washer"]
