"""A press fit on the sizes its parts have: what was read goes in, what is missing is said, pushing comes first."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry
from rebuild.store.store import Store
from rebuild.trade.joints.interference import press_fit
from rebuild.trade.shop.materials import material
from rebuild.words.fits import FitKind, Side
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.fits.acts import FitEntry, add_fit, change_fit
from rebuild.work.fits.rows import fit
from rebuild.work.fits.rows_tight import ways_in
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.readings.acts import Entry


def test_the_real_sizes_of_both_parts(store: Store) -> None:
    machine = identify.add_machine(store, "Bench lathe", {"unit": "in"})
    group = identify.add_subassembly(store, machine, "Feed", "F")
    gear = identify.add_part(store, machine, group, "gear", typed={"material": "steel 1045 / C45"})
    shaft = identify.add_part(store, machine, group, "shaft", typed={"material": "steel 1045 / C45"})
    bore = spec.add_feature(store, gear, "bore", FeatureKind.BORE, unit="in")
    seat = spec.add_feature(store, shaft, "seat", FeatureKind.OUTSIDE_DIAMETER, unit="in")
    for feature, typed in ((bore, "1.0000"), (seat, "1.0010")):
        measure.record_reading(store, typed, Entry(feature, None, Stage.AS_MADE))
    key = add_fit(
        store,
        FitEntry(bore, seat, FitKind.PRESS, wanted="-0.0012--0.0005", master=Side.OUTER),
        confirmed=True,
    )

    def found():  # type: ignore[no-untyped-def]
        with store.read() as connection:
            return ways_in(connection, fit(connection, key))

    with pytest.raises(BadEntry, match="is not known: force and times go by it"):
        found()
    spec.add_feature(store, gear, "width", FeatureKind.WIDTH, unit="in", spec="1.000")
    assert "taken as a large casting" in found().working.text()
    outside = spec.add_feature(store, gear, "outside", FeatureKind.OUTSIDE_DIAMETER, unit="in", spec="2.5")
    measure.record_reading(store, "2.000", Entry(outside, None, Stage.CLEANED), confirmed=True)
    worked = found()
    assert "large casting" not in worked.working.text()
    assert "taken as solid" in worked.working.text()
    first = worked.value[0]
    steel = material("steel 1045 / C45")
    by_itself = press_fit(25.4, 0.0010 * 25.4, 25.4, 50.8, steel, steel).value
    assert first.method.name == "pressed cold"
    assert first.force_N == pytest.approx(by_itself.force_range_N, rel=1e-6)
    assert "lbf" in first.words("in")
    change_fit(store, key, {"kind": FitKind.SHRINK.value})
    assert found().value[0].method.name == "oven"
