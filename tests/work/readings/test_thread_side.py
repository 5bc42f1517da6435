"""Wires lie over an outside thread, pins between the flanks of an inside one; a crest is no pitch diameter."""

from __future__ import annotations

import pytest
from sqlalchemy import text

from rebuild.errors import Implausible
from rebuild.store.store import Store
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.readings.acts import Entry
from tests.support import refuses


def _thread(store: Store, part: str) -> int:
    machine = identify.add_machine(store, f"Bench shaper of {part}", {"unit": "in"})
    key = identify.add_part(store, machine, None, part, "RL-1")
    typed = {"thread": "1/2-10 ACME LH"}
    return spec.add_feature(store, key, "thread", FeatureKind.THREAD, unit="in", typed=typed)


@pytest.mark.parametrize(
    ("part", "typed", "told"),
    [
        ("crosshead nut", "0.5353 over 0.0577 wires", "Wires are for an outside thread"),
        ("crosshead screw", "0.3900 between 0.0577 pins", "Pins are for an inside thread"),
        ("crosshead screw", "0.4975", "looks like its outside diameter"),
    ],
)
def test_a_way_that_does_not_suit_the_side_is_asked_about(
    store: Store, part: str, typed: str, told: str
) -> None:
    thread = _thread(store, part)
    entry = Entry(thread, None, Stage.CLEANED)
    with refuses(store, told, Implausible):
        measure.record_reading(store, typed, entry)
    measure.record_reading(store, typed, entry, confirmed=True)
    with store.read() as connection:
        assert connection.execute(text("SELECT count(*) FROM reading")).scalar() == 1


def test_what_suits_the_side_is_taken(store: Store) -> None:
    measure.record_reading(
        store, "0.5353 over 0.0577 wires", Entry(_thread(store, "crosshead screw"), None, Stage.CLEANED)
    )
    measure.record_reading(
        store, "0.3700 between 0.0577 pins", Entry(_thread(store, "crosshead nut"), None, Stage.CLEANED)
    )
