"""The sides, stations and size of a fit, and who may sign it as looked at."""

from __future__ import annotations

import pytest

from rebuild.errors import Implausible
from rebuild.words.fits import FitKind, Side
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.fits import acts as fits, rows as lookup
from rebuild.work.fits.acts import FitEntry
from rebuild.work.fits.rows_stale import changes
from rebuild.work.readings import acts as measure, acts_features as spec
from tests.support import refuses
from tests.work.teardown.apron import Apron


@pytest.fixture
def apron(small_apron: Apron) -> Apron:
    return small_apron


@pytest.fixture
def pair(apron: Apron) -> tuple[int, int]:
    """A bore and a pin without nominal or limits."""
    parts = apron.parts
    return (
        spec.add_feature(apron.store, parts["AP-02"], "lever hole", FeatureKind.BORE, unit="in"),
        spec.add_feature(apron.store, parts["AP-11"], "lever end", FeatureKind.OUTSIDE_DIAMETER, unit="in"),
    )


def test_a_struck_reading_gives_a_fit_no_size(apron: Apron, pair: tuple[int, int]) -> None:
    outer, inner = pair
    small = measure.record_reading(apron.store, "0.0500", measure.Entry(outer))
    entry = FitEntry(outer, inner, FitKind.RUNNING, wanted="0.002-0.004")
    with refuses(apron.store, r"is 8% of the size 0\.0500 in", Implausible):
        fits.add_fit(apron.store, entry)
    measure.strike_reading(apron.store, small.reading_id, "jaws not clean")
    measure.record_reading(apron.store, "0.5000", measure.Entry(outer))
    key = fits.add_fit(apron.store, entry)
    wrong = measure.record_reading(apron.store, "0.0500", measure.Entry(outer), confirmed=True)
    measure.strike_reading(apron.store, wrong.reading_id, "jaws not clean")
    fits.set_wanted(apron.store, key, "0.002-0.005")


def test_sides_swapped_or_stations_of_another_feature_store_nothing(
    apron: Apron, pair: tuple[int, int]
) -> None:
    outer, inner = pair
    with refuses(apron.store, "Outer side: “lever end” is an outside diameter and “lever hole” is a bore"):
        fits.add_fit(apron.store, FitEntry(inner, outer))
    station = apron.stations("screw thread")[0]
    with refuses(apron.store, "lever hole: is not a station of this feature"):
        fits.add_fit(apron.store, FitEntry(outer, inner, outer_station_id=station))
    with refuses(apron.store, "lever end: is not a station of this feature"):
        fits.add_fit(apron.store, FitEntry(outer, inner, inner_station_id=station))
    fit = fits.add_fit(apron.store, FitEntry(outer, inner))
    with refuses(apron.store, "is the same feature as the other side"):
        fits.replace_side(apron.store, fit, Side.INNER, outer)


def test_changing_a_stale_fit_does_not_sign_it_and_changing_a_fresh_one_does(apron: Apron) -> None:
    def stale() -> bool:
        with apron.store.read() as connection:
            return bool(lookup.fit(connection, apron.press).stale)

    assert not stale()
    fits.change_fit(apron.store, apron.press, {"adjuster": "ream"})
    assert not stale()
    apron.read("outside", "0.8138", Stage.AS_MADE)
    assert stale()
    fits.change_fit(apron.store, apron.press, {"note": "seen at the bench"})
    assert stale()
    fits.look(apron.store, [apron.press])
    assert not stale()


@pytest.mark.parametrize("damaged", ['[["outer","feature","","1","bo\x01re"]]', "[[1]]", "[3]", "{", '[["a"'])
def test_a_fit_whose_last_look_is_damaged_is_stale_and_says_so(damaged: str) -> None:
    assert changes(damaged, ()) == ("what it was last looked at with cannot be read: look at it again",)
