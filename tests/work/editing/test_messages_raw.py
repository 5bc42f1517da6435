"""What is answered to a wrong entry in any field of any record: nothing raw, and no mm first on an inch machine.

Pages, dialogs and cards all read a field by these acts, so the sentence they show is the one asked for here.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from rebuild.errors import RebuildError
from rebuild.store.store import Store
from rebuild.work.editing.acts import edit
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.readings.acts_features import set_spec
from rebuild.work.records.fields import FIELDS
from tests.conftest import Shop, demo_copy
from tests.depth import DEPTH
from tests.window.lists.test_words_shown import MM_FIRST
from tests.window.raw_words import raw

#: None is a date, a count, a temperature and a size at once: each is refused somewhere.
WRONG = ("12.5 furlongs", "-7.5", "1/0", "99999 in", "2..5", "1,500", "-40 mm", "half past nine", "1e9", "")
LEAST_SAID = 30


def row_of(store: Store, table: str, machine: int | None) -> int | None:
    """A row of a table, of the machine where the table knows one."""
    with store.read() as connection:
        columns = {row[1] for row in connection.exec_driver_sql(f"PRAGMA table_info({table})")}
        where = f" WHERE machine_id = {machine}" if machine is not None and "machine_id" in columns else ""
        found = connection.exec_driver_sql(f"SELECT id FROM {table}{where} ORDER BY id LIMIT 1").scalar()
    return int(found) if found is not None else None


def refusals(store: Store, machine: int | None) -> Iterator[tuple[str, str]]:
    """Field and sentence of every entry that is refused."""
    for table, fields in FIELDS.items():
        key = row_of(store, table, machine)
        if key is None:
            continue
        for at, field in enumerate(fields):
            for turn in range(len(WRONG) if DEPTH > 1 else 2):
                text = WRONG[(at + 3 * turn) % len(WRONG)]
                try:
                    edit(store, table, [key], {field.name: text})
                except RebuildError as trouble:
                    yield f"{table}.{field.name}", str(trouble)


def readings_refused(store: Store, feature: int, station: int | None) -> Iterator[tuple[str, str]]:
    """The same for a reading and a spec: those far off the size are asked about, with sizes in the sentence."""
    for text in (*WRONG, "1.5", "250 mm", "9.9 in", "0.001"):
        for act in (
            lambda text=text: record_reading(store, text, Entry(feature, station)),
            lambda text=text: set_spec(store, [feature], f"{text} {text}"),
        ):
            try:
                act()
            except RebuildError as trouble:
                yield f"feature {feature}", str(trouble)


def judged(said: list[tuple[str, str]], *, inch: bool) -> list[str]:
    found = [f"{where}: {one} in {words!r}" for where, words in said for one in raw(words)]
    if inch:
        found += [f"{where}: mm first in {words!r}" for where, words in said if MM_FIRST.search(words)]
    # A way out is named in each: a sentence behind the one that says what is wrong.
    found += [f"{where}: no way out in {words!r}" for where, words in said if words.count(". ") < 1]
    return sorted(set(found))


def test_no_refusal_on_the_demos_inch_machine_is_raw(demo_template: Path, tmp_path: Path) -> None:
    store = Store.open(demo_copy(demo_template, tmp_path / "demo"))
    with store.read() as connection:
        (inch,) = connection.exec_driver_sql("SELECT id FROM machine WHERE unit = 'in' LIMIT 1").one()
    said = list(refusals(store, inch))
    store.close()
    assert not (found := judged(said, inch=True)), "\n".join(found)
    assert len({words for _where, words in said}) >= LEAST_SAID
    assert len({where.split(".")[0] for where, _words in said}) >= 20, "as many kinds of records"


@pytest.mark.parametrize("inch", [True, False], ids=["inch file", "metric file"])
def test_no_refusal_of_a_small_file_is_raw(shop: Shop, *, inch: bool) -> None:
    if inch:
        edit(shop.store, "machine", [shop.machine], {"unit": "in"})
        edit(shop.store, "feature", [shop.journal], {"unit": "in"})
        set_spec(shop.store, [shop.journal], "2.3618 -0.0004/-0.0011")
    said = list(readings_refused(shop.store, shop.journal, shop.near))
    assert any("far from" in words for _where, words in said), said
    said += refusals(shop.store, shop.machine)
    assert not (found := judged(said, inch=inch)), "\n".join(found)
    assert len({words for _where, words in said}) >= LEAST_SAID
