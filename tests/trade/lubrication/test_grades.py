"""Classes of oil, old figures and duties: gaps are shown, scales kept apart, no oil chosen."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.lubrication.duties import duty, duty_names, for_duty
from rebuild.trade.lubrication.grades import agma, iso_band, iso_bands, iso_place, nearest_grade, nlgi, sae
from rebuild.trade.lubrication.old_oil import read_old_oil, today


@given(st.floats(1.98, 3520.0))
def test_a_viscosity_has_one_place(nu: float) -> None:
    place = iso_place(nu).value
    inside = [band.iso_vg for band in iso_bands() if band.min_cSt <= nu <= (band.max_cSt or 0)]
    assert ([place.grade] if place.grade else []) == inside
    if place.grade is None:
        assert place.below is not None
        assert place.above is not None
        assert (iso_band(place.below).max_cSt or 0) < nu < iso_band(place.above).min_cSt
        assert place.nearest in (place.below, place.above)


@given(st.floats(2.0, 3500.0), st.floats(2.0, 3500.0))
def test_nearest_grade_rises_with_viscosity(one: float, two: float) -> None:
    low, high = sorted((one, two))
    assert nearest_grade(low) <= nearest_grade(high)


def test_trap_a_band_gaps_are_real() -> None:
    place = iso_place(38.0).value
    assert place.grade is None
    assert (place.below, place.above) == (32, 46)
    assert "between VG 32 (to 35.2) and VG 46 (from 41.4)" in place.text


def test_trap_a_315_saybolt_is_below_the_68_band() -> None:
    found = today("315 SUS at 100 °F").value
    assert found.low_40C_cSt == pytest.approx(60.76, abs=0.01)
    assert found.exact == ()
    assert found.usual == 68


def test_trap_a_engine_and_gear_numbers_are_two_scales() -> None:
    gear, engine = today("SAE 90").value, today("SAE 50").value
    assert gear.low_40C_cSt < engine.high_40C_cSt
    assert "gear scale" in " ".join(gear.old.assumed)
    with pytest.raises(OutOfRange):
        sae("90", "engine")
    with pytest.raises(BadEntry):
        sae("90", "tractor")


def test_trap_a_sae_20_and_90_changed() -> None:
    assert [band.min_cSt for band in sae("20", "engine")] == [5.6, 6.9]
    assert [band.max_cSt for band in sae("90", "gear")] == [24.0, 18.5]
    assert today("SAE 20").value.old.low_cSt == 5.6


def test_trap_a_agma_suffixes_are_kept_and_ranges_left() -> None:
    found = today("AGMA 7 Comp").value
    assert found.exact == (460,)
    assert "compounded" in " ".join(found.old.assumed)
    assert "historical" in agma("7 EP").source.name
    assert agma("5EP").iso_vg == 220


def test_trap_a_bronze_is_cautioned_and_not_chosen() -> None:
    worked = today("AGMA 8 EP", for_duty="worm")
    cautions = " ".join(worked.working.cautions())
    assert "bronze" in cautions
    assert "not a choice made for you" in cautions
    assert "friction modifier" in " ".join(for_duty("gear").working.cautions())


def test_the_issues_own_example() -> None:
    assert "falls between VG 46 (to 50.6) and VG 68 (from 61.2)" in today("300 SUS at 100 °F").value.text


@pytest.mark.parametrize(
    "text",
    [
        "300 SUS at 100 °F",
        "300 ssu @ 100F",
        "300 Saybolt seconds at 37.78 °C",
        "Saybolt 300 at 100 °F",
        "300 SUS",
    ],
)
def test_spellings_read_alike(text: str) -> None:
    assert read_old_oil(text).low_cSt == pytest.approx(64.64, abs=0.02)


@pytest.mark.parametrize("text", ["", "thick", "300", "SAE", "300 SUS at noon", "AGMA", "ISO VG", "-5 cSt"])
def test_what_cannot_be_read_says_how_to_type_it(text: str) -> None:
    with pytest.raises(BadEntry, match="Type it as 300 SUS"):
        today(text)


def test_unknown_classes_list_the_known() -> None:
    with pytest.raises(OutOfRange, match=r"Known: 0, 1, 2"):
        today("AGMA 14")
    with pytest.raises(OutOfRange, match=r"Grades: 2, 3, 5"):
        today("ISO VG 50")
    with pytest.raises(OutOfRange, match="000"):
        nlgi("7")
    with pytest.raises(OutOfRange, match="3520"):
        iso_place(5000.0)


def test_a_missing_temperature_is_said() -> None:
    assert "no temperature given" in today("150 SUS").working.text()


@given(st.floats(120.0, 3000.0), st.floats(120.0, 3000.0))
def test_thicker_old_oil_is_thicker_today(one: float, two: float) -> None:
    low, high = sorted((round(one, 1), round(two, 1)))
    assert today(f"{low} SUS").value.low_40C_cSt <= today(f"{high} SUS").value.low_40C_cSt


@given(st.floats(40.0, 1000.0))
def test_a_figure_at_40_stays_as_it_is(nu: float) -> None:
    assert today(f"{nu:.3f} cSt at 40 °C").value.low_40C_cSt == pytest.approx(round(nu, 3))


def test_every_duty_names_symbols_of_the_standard() -> None:
    for name in duty_names():
        found = duty(name)
        assert found.symbols
        assert all(symbol.startswith("L-") for symbol in found.symbols)
        for grade in found.grades:
            iso_band(grade)
    with pytest.raises(BadEntry, match="Duties: spindle"):
        duty("soup")


def test_a_duty_that_does_not_fit_is_said() -> None:
    assert "not among the grades usual" in today("300 SUS", for_duty="spindle").working.text()
    assert "is among the grades usual" in today("300 SUS", for_duty="way").working.text()
    assert "NLGI" in today("300 SUS", for_duty="grease").working.text()


def test_grease() -> None:
    assert (nlgi("NLGI 2").min_tenths, nlgi("000").max_tenths) == (265, 475)
