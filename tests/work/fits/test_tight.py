"""A press fit on the sizes its parts have: what was read goes in, what is missing is said, pushing comes first."""

from __future__ import annotations

import math
import re

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


def inch_press(store: Store, **of_gear: str) -> tuple[int, int, int, int]:
    """A gear of 2 in outside and 1 in width on a shaft, 0.0005 to 0.0012 in tight: gear, bore, seat and fit."""
    machine = identify.add_machine(store, "Bench lathe", {"unit": "in"})
    group = identify.add_subassembly(store, machine, "Feed", "F")
    gear = identify.add_part(store, machine, group, "gear", typed={"material": "steel 1045 / C45", **of_gear})
    shaft = identify.add_part(store, machine, group, "shaft", typed={"material": "steel 1045 / C45"})
    bore = spec.add_feature(store, gear, "bore", FeatureKind.BORE, unit="in")
    seat = spec.add_feature(store, shaft, "seat", FeatureKind.OUTSIDE_DIAMETER, unit="in")
    spec.add_feature(store, gear, "width", FeatureKind.WIDTH, unit="in", spec="1.000")
    spec.add_feature(store, gear, "outside", FeatureKind.OUTSIDE_DIAMETER, unit="in", spec="2.000")
    entry = FitEntry(bore, seat, FitKind.PRESS, wanted="-0.0012--0.0005", master=Side.OUTER)
    return gear, bore, seat, add_fit(store, entry, confirmed=True)


def told(store: Store, key: int) -> str:
    with store.read() as connection:
        return ways_in(connection, fit(connection, key)).working.text()


def test_before_pressing_on_an_inch_machine(store: Store) -> None:
    """The bore alone is enough; then both sides: pounds, psi and inches first, worked here by hand.

    Lamé, one steel (206 GPa) both sides, hub twice the bore, solid shaft: p = E (delta/d) (D² - d²) / (2 D²)
    = 206 000 x 0.001 x 3/8 = 77.25 MPa = 11 204 psi; x π 25.4² = 156.57 kN of normal force, 0.05 to 0.20 of it
    7.83 to 31.3 kN = 1 760 to 7 040 lbf. Two readings known to ± 0.0001 in each: ± 0.000141 in (GUM 5.1.2).
    """
    _gear, bore, seat, key = inch_press(store)
    with pytest.raises(
        BadEntry, match="Diameter of shaft seat in gear: is not known: neither side is measured"
    ):
        told(store, key)
    mike = spec.add_instrument(
        store, "micrometer", {"unit": "in", "resolution": ".0001", "uncertainty": ".0001", "coverage_k": "2"}
    )
    measure.record_reading(store, "1.0000", Entry(bore, None, Stage.CLEANED, mike))
    alone = told(store, key)
    assert "interference: 0.0012 in (0.030 mm)" in alone
    assert "shaft, seat has no reading yet: the greatest interference wanted is taken." in alone
    measure.record_reading(store, "1.0010", Entry(seat, None, Stage.CLEANED, mike))
    both = told(store, key)
    assert "not measured" not in both.lower()
    assert "shaft, seat is still to be decided; its readings are taken as they are." in both
    assert "pressure when home: 11,200 psi (77.2 MPa)" in both
    assert "force when home, over the friction there may be: 1,760 to 7,040 lbf (7.83 to 31.3 kN)" in both
    doubt = re.search(r"± (0\.\d+) in at 95 %: (0\.\d+) in to (0\.\d+) in", both)
    assert doubt is not None
    U, least, most = map(float, doubt.groups())
    assert pytest.approx(0.001 + U, abs=1.1e-5) == most
    assert pytest.approx(0.001 - U, abs=1.1e-5) == least
    low, high = 1760 * least / 0.001, 7040 * most / 0.001
    said = re.search(r"with that besides the friction: ([\d,]+) to ([\d,]+) lbf", both)
    assert said is not None
    assert [float(one.replace(",", "")) for one in said.groups()] == pytest.approx([low, high], rel=0.02)
    # Sizes, forces and stresses alike begin with the owner's unit.
    assert not re.search(r"(?<![\d.(-])[\d.]+ (?:kN|MPa) ", both.partition("µ p")[0].partition("mm/MPa")[0])


def test_no_material_is_a_sentence_and_not_the_whole_table(store: Store) -> None:
    _gear, bore, _seat, key = inch_press(store, material="")
    measure.record_reading(store, "1.0000", Entry(bore, None, Stage.CLEANED))
    with pytest.raises(BadEntry) as refused:
        told(store, key)
    assert str(refused.value) == (
        "Material of gear: is empty: how hard it holds and how it grows with heat go by it. "
        "Open gear in the parts and type its material, as steel, cast iron or SAE 660 bronze."
    )


def bush_in_iron(store: Store, **of_bush: str) -> tuple[int, int, int, int]:
    """A bronze bush, 1.000 in outside, 0.750 bore, 0.0040 in tight in an iron housing: bush, housing, bore, fit."""
    machine = identify.add_machine(store, "Bench lathe", {"unit": "in"})
    group = identify.add_subassembly(store, machine, "Feed", "F")
    housing = identify.add_part(store, machine, group, "housing", typed={"material": "cast iron"})
    bush = identify.add_part(store, machine, group, "bush", typed=of_bush)
    bore = spec.add_feature(store, housing, "bore", FeatureKind.BORE, unit="in")
    seat = spec.add_feature(store, bush, "outside", FeatureKind.OUTSIDE_DIAMETER, unit="in")
    entry = FitEntry(bore, seat, FitKind.PRESS, wanted="-0.005--0.001", master=Side.OUTER)
    return bush, bore, seat, add_fit(store, entry, confirmed=True)


def test_beyond_its_limit_the_force_is_told_all_the_same(store: Store) -> None:
    """Seen: `the shaft ... yields (112%)` and no force at all, though it is the bush that yields.

    Lamé, by hand, bush d = 1, bore 0.75, in a large casting (D infinite): with the table's E and nu
    delta/d = p [ (1 + nu_h)/E_h + ((1 + 0.5625)/(1 - 0.5625) - nu_s)/E_s ]; hoop at the bush's bore is
    2 p / (1 - 0.5625) = 4.5714 p. Force = mu p pi d L.
    """
    bush, bore, seat, key = bush_in_iron(store, material="bronze")
    spec.add_feature(store, bush, "length", FeatureKind.LENGTH, unit="in", spec="1.000")
    inner = spec.add_feature(store, bush, "bore", FeatureKind.BORE, unit="in", spec="0.750")
    assert inner
    mike = spec.add_instrument(
        store, "micrometer", {"unit": "in", "resolution": ".0001", "uncertainty": ".0001", "coverage_k": "2"}
    )
    measure.record_reading(store, "1.0000", Entry(bore, None, Stage.CLEANED, mike))
    measure.record_reading(store, "1.0040", Entry(seat, None, Stage.CLEANED), confirmed=True)
    text = told(store, key)
    assert re.search(
        r"is too much: the (?:F )?bush of bearing bronze C93200 yields \(\d+% of its yield\)", text
    )
    assert "the shaft" not in text
    assert text.index("worked elastically all the same") < text.index("lbf"), (
        "the warning stands before every force"
    )
    hub, shaft = material("grey cast iron"), material("bearing bronze C93200")
    slack = (1 + hub.nu) / (hub.E_GPa * 1000) + (1.5625 / 0.4375 - shaft.nu) / (shaft.E_GPa * 1000)
    pressure = 0.004 / slack
    force = [mu * pressure * math.pi * 25.4 * 25.4 / 4.4482216 for mu in (0.05, 0.20)]
    said = re.search(r"force when home, over the friction there may be: ([\d,]+) to ([\d,]+) lbf", text)
    assert said is not None
    assert [float(one.replace(",", "")) for one in said.groups()] == pytest.approx(force, rel=0.01)
    assert "bush: “bronze” names no known grade: taken as bearing bronze C93200" in text
    assert "known is not said" not in text
    assert "Not every reading names its instrument" in text
    assert "Two hard faces" not in text
    assert "Chilled iron" not in text, "bronze does not turn brittle in the cold"
    assert text.count("Stand out of the line of force") == 1


def test_everything_missing_is_said_at_once(store: Store) -> None:
    _bush, bore, _seat, key = bush_in_iron(store)
    measure.record_reading(store, "1.0000", Entry(bore, None, Stage.CLEANED))
    with pytest.raises(BadEntry) as refused:
        told(store, key)
    said = str(refused.value)
    assert "2 things are missing" in said
    assert "Length of" in said
    assert "Add a length to housing or bush" in said
    assert "Material of bush: is empty" in said
