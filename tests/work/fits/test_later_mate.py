"""A nut must pass the worn screw today and is made for the new one: limits to both or to one, the promise open."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry, OutOfRange
from rebuild.store.store import Store
from rebuild.words.fits import LimitsTo, Side
from rebuild.words.readings import FeatureKind, SpecOrigin, Stage
from rebuild.work.fits.acts import FitEntry, add_fit, name_later_mate
from rebuild.work.fits.rows import fit
from rebuild.work.fits.rows_follower import limits_in
from rebuild.work.machines import acts as identify
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.readings.acts import Entry
from tests.support import refuses

INCH = 25.4


def limits(store: Store, key: int) -> tuple[float, float]:
    with store.read() as connection:
        found = limits_in(fit(connection, key)).value
    return round((found.low_mm or 0) / INCH, 4), round((found.high_mm or 0) / INCH, 4)


def remarks(store: Store, key: int) -> str:
    with store.read() as connection:
        return " ".join(fit(connection, key).remarks)


def promised(store: Store, machine: int) -> list[str]:
    """What the plan still holds open of mates that come later."""
    with store.read() as connection:
        found = work_graph(connection, machine)
    return [node.title for node in found.graph.nodes if "promised to fit it later" in node.title]


def test_limits_to_both_or_to_one(store: Store) -> None:
    """By hand: bore = shaft + 0.002 to 0.006. Worn 0.9970: 0.9990 to 1.0030. New 0.9990 to 1.0000: 1.0020 to 1.0050.
    Both: the larger least, the smaller greatest: 1.0020 to 1.0030."""
    machine = identify.add_machine(store, "Bench shaper", {"unit": "in"})
    group = identify.add_subassembly(store, machine, "Feed", "F")
    worn, new, bush = (
        identify.add_part(store, machine, group, name) for name in ("shaft", "new shaft", "bush")
    )
    journal = spec.add_feature(store, worn, "journal", FeatureKind.OUTSIDE_DIAMETER, unit="in")
    fresh = spec.add_feature(store, new, "journal", FeatureKind.OUTSIDE_DIAMETER, unit="in")
    bore = spec.add_feature(store, bush, "bore", FeatureKind.BORE, unit="in")
    measure.record_reading(store, "0.9970", Entry(journal, None, Stage.CLEANED))
    key = add_fit(store, FitEntry(bore, journal, wanted="0.002-0.006"))
    with refuses(store, "is not chosen", BadEntry):
        name_later_mate(store, key, fresh)
    from rebuild.work.fits.acts import change_fit

    change_fit(store, key, {"master": Side.INNER.value})
    assert limits(store, key) == (0.9990, 1.0030)
    with refuses(store, "is a side of this fit already", BadEntry):
        name_later_mate(store, key, journal)
    name_later_mate(store, key, fresh)
    assert store.undo_label().startswith("later mate")
    assert "Promise open" in remarks(store, key)
    assert promised(store, machine) == [
        "Measure new shaft, journal with shaft journal in bush: promised to fit it later"
    ]
    with store.read() as connection, pytest.raises(BadEntry, match="neither a reading nor a spec"):
        limits_in(fit(connection, key))
    spec.set_spec(store, [fresh], "0.9990-1.0000", SpecOrigin.DRAWING)
    assert limits(store, key) == (1.0020, 1.0030)
    assert "Limits suit both mates" in remarks(store, key)
    change_fit(store, key, {"limits_to": LimitsTo.LATER.value})
    assert limits(store, key) == (1.0020, 1.0050)
    change_fit(store, key, {"limits_to": LimitsTo.NOW.value})
    assert limits(store, key) == (0.9990, 1.0030)
    change_fit(store, key, {"limits_to": LimitsTo.BOTH.value})
    spec.set_spec(store, [fresh], "1.0010-1.0020", SpecOrigin.DRAWING)
    with store.read() as connection, pytest.raises(OutOfRange, match="no single size"):
        limits_in(fit(connection, key))
    measure.record_reading(store, "0.9992", Entry(fresh, None, Stage.AS_MADE), confirmed=True)
    assert limits(store, key) == (1.0012, 1.0030)
    assert "is made and measured" in remarks(store, key)
    assert promised(store, machine) == []
    name_later_mate(store, key, None)
    assert limits(store, key) == (0.9990, 1.0030)
    store.undo()
    assert limits(store, key) == (1.0012, 1.0030)
