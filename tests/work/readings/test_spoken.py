"""The verdicts counted without a working are the ones the grid works out; a machine is asked in few statements,
none of which walks the file.
"""

from __future__ import annotations

import random
from collections import Counter
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import event, insert

from rebuild.model.records.features import Feature, Station
from rebuild.model.records.parts import Part
from rebuild.model.records.readings import Instrument, Reading
from rebuild.store.act import Act
from rebuild.trade.limits.verdict import Rule, Verdict
from rebuild.words.readings import FeatureKind, InstrumentKind, SpecOrigin, Stage
from rebuild.work.readings import rows_grid as grid
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.readings.rows_spoken import spoken, verdict_counts
from rebuild.work.readings.rules_standing import standing_at
from rebuild.work.records.wall_clock import now
from tests.plans import plans_of

if TYPE_CHECKING:
    from tests.conftest import Shop

FEATURES = 60
MATERIALS = ("steel", "grey cast iron", "", "no such stuff")
#: Wide, narrow enough that both tails count, one-sided, and none.
SPANS = ((0.03, 0.05), (0.004, 0.002), (None, 0.02), (0.02, None), (None, None))


@pytest.fixture
def filled(shop: Shop) -> Shop:
    """Sixty features read in every way a verdict depends on, near their limits, where a small error shows."""
    chance = random.Random(14253)
    gauges: list[int | None] = [None]
    with shop.store.act(Act.IMPORT, "readings of every sort") as tx:
        put = tx.connection.execute
        part = tx.connection.exec_driver_sql("SELECT max(id) FROM part").scalar() or 0
        first = tx.connection.exec_driver_sql("SELECT max(id) FROM feature").scalar() or 0
        for name, told in (
            ("Blind", {}),
            ("Stated", {"uncertainty_mm": 0.002, "resolution_mm": 0.001}),
            ("Micrometer 25-50", {"kind": InstrumentKind.OUTSIDE_MICROMETER, "mpe_mm": 0.003}),
        ):
            put(insert(Instrument), {"id": len(gauges) + 90, "name": name, **told})
            gauges.append(len(gauges) + 90)
        put(
            insert(Part),
            [
                {"id": part + n + 1, "machine_id": shop.machine, "name": f"part {n}", "material": stuff}
                for n, stuff in enumerate(MATERIALS)
            ],
        )
        for n in range(1, FEATURES + 1):
            nominal = chance.uniform(10, 90)
            below, above = SPANS[n % len(SPANS)]
            low = None if below is None else round(nominal - below, 4)
            high = None if above is None else round(nominal + above, 4)
            put(
                insert(Feature),
                {"id": first + n, "part_id": part + 1 + n % len(MATERIALS), "name": f"size {n}", "unit": "mm",
                 "kind": chance.choice(list(FeatureKind)), "spec_origin": SpecOrigin.DRAWING, "low_mm": low,
                 "high_mm": high},
            )  # fmt: skip
            stations = [None]
            if n % 3 == 0:
                (key,) = put(
                    insert(Station), {"feature_id": first + n, "name": "near"}
                ).inserted_primary_key or (0,)
                stations.append(key)
            for _ in range(4):
                edge = chance.choice([end for end in (low, high) if end is not None] or [nominal])
                value = round(edge + chance.choice((-0.02, 0.0, 0.02)) + chance.uniform(-0.006, 0.006), 4)
                many = chance.random() < 0.25
                put(
                    insert(Reading),
                    {"feature_id": first + n, "station_id": chance.choice(stations),
                     "stage": chance.choice(list(Stage)), "unit": "mm", "value_mm": value,
                     "typed": f"{value - 0.001:.4f}; {value + 0.001:.4f}" if many else f"{value:.4f}",
                     "repeats": 2 if many else 1, "instrument_id": chance.choice((*gauges, *gauges[2:])),
                     "temperature_c": chance.choice((None, 20.0, 20.0, 27.5)),
                     "taken_at": now(), "struck": chance.choice((None, None, None, "slipped"))},
                )  # fmt: skip
    return shop


@pytest.mark.parametrize("rule", list(Rule))
def test_each_verdict_is_the_one_of_the_grid(filled: Shop, rule: Rule) -> None:
    with filled.store.read() as connection:
        limits = instrument_limits(connection)
        keys = grid.keys(connection, grid.Asked(filled.machine), rule, limits)
        rows = [row for row in grid.rows(connection, keys, rule, limits) if row.speaking is not None]
        read = spoken(connection, filled.machine, rule, limits)
    assert {row.key for row in rows} == read.keys()
    assert len({one.verdict for one in read.values()}) == 4
    for row in rows:
        assert row.speaking is not None
        verdict = row.judgement.verdict if row.judgement is not None else Verdict.NO_SPEC
        assert (read[row.key].verdict, read[row.key].value_mm) == (verdict, row.speaking.value_mm), row


def test_what_is_counted_is_what_stands(filled: Shop) -> None:
    with filled.store.read() as connection:
        read = spoken(connection, filled.machine, Rule.SIMPLE, instrument_limits(connection))
        stands = connection.exec_driver_sql(
            "SELECT count(*) FROM reading JOIN feature ON feature.id = feature_id JOIN part ON part.id = part_id "
            f"WHERE struck IS NULL AND machine_id = {filled.machine}"
        ).scalar()
    assert sum(one.standing for one in read.values()) == stands


@pytest.mark.parametrize("rule", list(Rule))
def test_verdicts_are_counted_as_they_stand(filled: Shop, rule: Rule) -> None:
    with filled.store.read() as connection:
        limits = instrument_limits(connection)
        read = spoken(connection, filled.machine, rule, limits).values()
        counts, standing = verdict_counts(connection, filled.machine, rule, limits)
    assert counts == Counter(one.verdict for one in read)
    assert standing == sum(one.standing for one in read)


def test_worst_first_puts_what_fails_by_most_first(filled: Shop) -> None:
    rule = Rule.CONFORMANCE_95
    with filled.store.read() as connection:
        limits = instrument_limits(connection)
        worst = grid.keys(connection, grid.Asked(filled.machine, sort=grid.SortBy.WORST), rule, limits)
        only = grid.Asked(filled.machine, verdicts=frozenset({Verdict.DOES_NOT}))
        failing = grid.keys(connection, only, rule, limits)
        rows = {row.key: row for row in grid.rows(connection, worst, rule, limits)}
    verdicts = [row.judgement.verdict if row.judgement else None for row in rows.values()]
    assert set(worst[: len(failing)]) == set(failing)
    assert verdicts[: len(failing)] == [Verdict.DOES_NOT] * len(failing)
    assert failing


def test_a_machine_is_judged_in_three_statements_whatever_else_lies_in_the_file(filled: Shop) -> None:
    said: list[str] = []
    with filled.store.read() as connection:
        limits = instrument_limits(connection)
        event.listen(connection, "before_cursor_execute", lambda *args: said.append(str(args[2])))
        spoken(connection, filled.machine, Rule.SIMPLE, limits)
        assert len(said) == 3  # the third for the repeats among them
        for plan in plans_of(connection, said):
            assert not any(step.startswith("SCAN") or "TEMP B-TREE" in step for step in plan), plan


def test_a_reading_of_the_whole_feature_is_looked_for_among_its_own(filled: Shop) -> None:
    with filled.store.act(Act.IMPORT, "") as tx:
        query = str(standing_at(filled.journal, None).compile(compile_kwargs={"literal_binds": True}))
        asked = f"SELECT typed FROM reading WHERE {query} ORDER BY id DESC LIMIT 1"
        ((step, *_),) = plans_of(tx.connection, [asked])
    assert "ix_reading_feature_station_stage (feature_id=?" in step


def test_the_rows_of_one_part_are_asked_of_it_alone(filled: Shop) -> None:
    said: list[str] = []
    with filled.store.read() as connection:
        event.listen(connection, "before_cursor_execute", lambda *args: said.append(str(args[2])))
        asked = grid.Asked(filled.machine, part_ids=frozenset({filled.spindle}))
        assert grid.keys(connection, asked, Rule.SIMPLE, {})
        (query,) = [words for words in said if "UNION ALL" in words]
        (plan,) = plans_of(connection, [query])
    of_parts = [step for step in plan if step.startswith("SEARCH part ")]
    assert len(of_parts) == 3
    assert all("INTEGER PRIMARY KEY" in step for step in of_parts), plan
    assert not any(step.startswith("SCAN") and "pairs" not in step and "anon" not in step for step in plan), (
        plan
    )
