"""Many readings at once: two statements a reading, whatever is in the file, and never on the wrong row."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import Engine, event

from rebuild.store.act import Act
from rebuild.words.readings import FeatureKind
from rebuild.work.editing.acts import edit
from rebuild.work.lists.acts import Batch, Line, bring_in, look_over
from rebuild.work.lists.acts_measured import FEW
from rebuild.work.lists.fields import What
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts_features as spec
from tests.conftest import Shop
from tests.support import read_contents

#: Each reading asks what it is compared with and puts itself in.
A_READING = 2


def lines(parts: Sequence[str], each: int, instrument: str = "Micrometer 50-75") -> tuple[Line, ...]:
    """So many readings of the journal of each part."""
    return tuple(
        Line(
            2 + number,
            {
                "part_code": code,
                "feature_name": "Journal",
                "typed": "24.99",
                "unit": "mm",
                "stage": "cleaned",
                "instrument": instrument,
            },
        )
        for number, code in enumerate(code for code in parts for _ in range(each))
    )


def shafts(shop: Shop, many: int) -> list[str]:
    """Parts with a journal each, by code."""
    codes = [f"SH-{number:03}" for number in range(many)]
    for code in codes:
        part = identify.add_part(shop.store, shop.machine, shop.headstock, f"shaft {code}", code)
        spec.add_feature(shop.store, part, "journal", spec="25 h6", kind=FeatureKind.OUTSIDE_DIAMETER)
    return codes


def asked_by(shop: Shop, batch: Sequence[Line]) -> int:
    """The statements an import sends."""
    said: list[str] = []

    def hear(_connection, _cursor, statement, *_rest):  # type: ignore[no-untyped-def]
        said.append(statement)

    event.listen(Engine, "before_cursor_execute", hear)
    try:
        brought = bring_in(shop.store, shop.machine, [Batch(What.READINGS, tuple(batch))])
    finally:
        event.remove(Engine, "before_cursor_execute", hear)
    assert brought.stored == {What.READINGS: len(batch)}
    return len(said)


def test_more_readings_cost_two_statements_each(shop: Shop) -> None:
    codes = shafts(shop, FEW + 10)
    bring_in(shop.store, shop.machine, [Batch(What.READINGS, lines(codes[:1], 1))])  # the instrument is known
    few, many = asked_by(shop, lines(codes, 1)), asked_by(shop, lines(codes, 3))
    assert many - few == A_READING * 2 * len(codes)


def test_a_code_two_parts_bear_is_refused_however_far_down_the_list_it_stands(shop: Shop) -> None:
    codes = shafts(shop, 2)
    twin = identify.add_part(shop.store, shop.machine, shop.headstock, "twin", "TW-1")
    spec.add_feature(shop.store, twin, "journal", spec="25 h6", kind=FeatureKind.OUTSIDE_DIAMETER)
    with shop.store.act(Act.IMPORT, "") as tx:
        tx.connection.exec_driver_sql("UPDATE part SET code = ? WHERE id = ?", (codes[1], twin))
    batch = [Batch(What.READINGS, lines(codes[:1], FEW + 5) + lines(codes[1:], 1))]
    before = read_contents(shop.path)
    looked = look_over(shop.store, shop.machine, batch)
    assert [row.clear for row in looked] == [True] * (FEW + 5) + [False]
    assert f"Several parts are called “{codes[1]}”" in looked[-1].trouble
    assert read_contents(shop.path) == before


def test_a_refused_reading_adds_no_instrument(shop: Shop) -> None:
    codes = shafts(shop, 1)
    line = lines(codes, 1, "Nobody's gauge")[0]
    for name, text in (("stage", "upside down"), ("taken_at", "never"), ("temperature", "warm")):
        bad = Line(2, {**line.typed, name: text})
        brought = bring_in(shop.store, shop.machine, [Batch(What.READINGS, (bad,))], keep_bad=True)
        assert (brought.stored, brought.kept) == ({}, 1)
    with shop.store.read() as connection:
        found = connection.exec_driver_sql(
            "SELECT count(*) FROM instrument WHERE name LIKE 'Nobody%'"
        ).scalar()
    assert found == 0


def test_names_are_looked_up_anew_once_other_rows_came_in(shop: Shop) -> None:
    codes = shafts(shop, 1)
    reading = lines(codes, 1)
    batch = [Batch(What.READINGS, reading)]
    bring_in(shop.store, shop.machine, batch)
    with shop.store.read() as connection:
        feature = connection.exec_driver_sql(
            "SELECT f.id FROM feature AS f JOIN part AS p ON p.id = f.part_id WHERE p.code = ?", (codes[0],)
        ).scalar_one()
    edit(shop.store, "feature", [feature], {"name": "seat"})
    assert "has no feature “Journal”" in look_over(shop.store, shop.machine, batch)[0].trouble
    fresh = Line(2, {"part_code": codes[0], "name": "Journal", "kind": "outside diameter", "spec": "25 h6"})
    both = [*batch, Batch(What.FEATURES, (fresh,)), *batch]
    assert [row.clear for row in look_over(shop.store, shop.machine, both)] == [False, True, True]
