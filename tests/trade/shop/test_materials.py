"""Materials: what a user types finds the right row, says how, and never guesses between two grades."""

from __future__ import annotations

import subprocess
import sys

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry
from rebuild.trade.results.working import Status
from rebuild.trade.shop.materials import find_material, material, names, wanted


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("SAE 660", "bearing bronze C93200"),
        ("sae660", "bearing bronze C93200"),
        ("bearing bronze C93200", "bearing bronze C93200"),
        ("cast iron", "grey cast iron"),
        ("Gray Iron", "grey cast iron"),
        ("EN-GJL-250", "grey cast iron EN-GJL-250"),
        ("ductile iron", "ductile iron 60-40-18"),
        ("1144", "steel 1144 high-strength bar"),
        ("4140", "alloy steel 4140 prehardened"),
        ("drill rod", "drill rod (soft)"),
        ("silver steel", "drill rod (soft)"),
        ("C45", "steel 1045 / C45"),
        ("16MnCr5", "case-hardening steel 16MnCr5"),
        ("aluminum", "aluminium 6061"),
        ("aluminium bronze", "aluminium bronze C62300"),
        ("stainless steel", "stainless 304"),
        ("brass", "free-cutting brass C36000"),
        ("steel", "steel"),
        ("1018 steel", "steel 1018 / 1020 cold drawn"),
        ("leaded bronze C93700", "high-leaded tin bronze C93700"),
    ],
)
def test_what_people_type_finds_its_row(typed: str, name: str) -> None:
    found = find_material(typed)
    assert found is not None
    assert found.material.name == name
    assert typed in found.note


def test_a_grade_that_is_not_in_the_table_is_said_to_be_missing() -> None:
    found = find_material("bronze C99999")
    assert found is not None
    assert "C99999" in found.note
    assert "not in the table" in found.note


@pytest.mark.parametrize("typed", ["", "  ", "unobtainium", "SAE 660 or C93700"])
def test_no_answer_and_two_answers_are_refused(typed: str) -> None:
    assert find_material(typed) is None
    with pytest.raises(BadEntry, match="names two"):
        wanted(typed)


@given(st.sampled_from(names()), st.sampled_from([str.upper, str.lower, str.title]))
def test_every_name_finds_itself_in_any_case(name: str, case: object) -> None:
    found = find_material(case(name))  # type: ignore[operator]
    assert found is not None
    assert found.material == material(name)


@given(st.text(max_size=80))
def test_any_text_is_taken_without_trouble(text: str) -> None:
    found = find_material(text)
    assert found is None or found.material.name in names()


def test_every_row_is_physically_sound_and_sourced() -> None:
    for name in names():
        row = material(name)
        assert row.alpha_range_per_K[0] <= row.alpha_per_K <= row.alpha_range_per_K[1], name
        assert row.density_range_kg_m3[0] <= row.density_kg_m3 <= row.density_range_kg_m3[1], name
        assert row.E_range_GPa[0] <= row.E_GPa <= row.E_range_GPa[1], name
        assert 0 < row.nu < 0.5, name
        if row.yield_MPa is not None and row.tensile_MPa is not None:
            assert row.yield_MPa <= row.tensile_MPa, name
        assert {key for key, _ in row.sources} == {"alpha", "density", "elastic", "strength"}
        assert row.source("elastic").status is Status.FROM_MEMORY


def test_grey_iron_is_brittle_and_judged_by_tensile_strength() -> None:
    iron = material("grey cast iron")
    assert iron.brittle
    assert iron.yield_MPa is None
    assert iron.E_range_GPa == (66.0, 150.0)


def test_an_unknown_name_lists_the_known_ones() -> None:
    with pytest.raises(BadEntry, match="bearing bronze C93200"):
        material("bronze")


def test_importing_materials_is_light() -> None:
    code = "import sys, rebuild.trade.shop.materials; print(sorted({'numpy','pint','PySide6'} & set(sys.modules)))"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.strip() == "[]"
