"""Expansion and density of materials against the reference tables."""

from __future__ import annotations

from typing import Any

from rebuild.trade.shop.materials import Material, material

CTE = {
    "gray cast iron G1800/G3000/G4000": "grey cast iron", "gray cast iron (other tables)": "grey cast iron",
    "ductile iron 60-40-18": "ductile iron 60-40-18", "ductile iron 80-55-06": "ductile iron 80-55-06",
    "plain carbon steel 1020": "steel 1018 / 1020 cold drawn", "plain carbon steel 1040": "steel 1040",
    "alloy steel 4140": "alloy steel 4140 prehardened",
    "gauge-block steel (ISO 3650 / GUM H.1)": "gauge-block steel", "stainless 304": "stainless 304",
    "stainless 316": "stainless 316", "stainless 440A/martensitic": "stainless 440A",
    "phosphor bronze C51000": "phosphor bronze C51000", "bearing bronze C93200": "bearing bronze C93200",
    "aluminium bronze C62300": "aluminium bronze C62300", "cartridge brass C26000": "cartridge brass C26000",
    "free-cutting brass C36000": "free-cutting brass C36000", "red brass C23000": "red brass C23000",
    "aluminium 6061": "aluminium 6061", "aluminium 2024": "aluminium 2024",
    "aluminium 356.0 cast": "cast aluminium 356.0", "zinc (pure)": "zinc alloy casting", "invar": "invar",
    "granite": "granite",
}  # fmt: skip
DENSITY = {
    "grey cast iron": "grey cast iron", "ductile iron": "ductile iron 60-40-18", "carbon steel": "steel",
    "stainless 304": "stainless 304", "brass C360": "free-cutting brass C36000",
    "bronze C932": "bearing bronze C93200", "phosphor bronze": "phosphor bronze C51000",
    "aluminium 6061": "aluminium 6061", "aluminium A356": "cast aluminium 356.0", "copper": "copper",
    "zinc alloy ZA": "zinc alloy casting", "lead": "lead", "granite": "granite",
    "babbitt (tin)": "babbitt (tin)",
}  # fmt: skip


def test_expansion(published: Any, reference: Any) -> None:
    for row in reference("cte"):
        one = material(CTE[row["material"]])
        found = row["status"].startswith("found") or "range 9.9-11.7 found" in row["status"]
        source = "Thermal expansion, textbook and public tables" + ("" if found else " (from memory)")
        told = row["alpha_1e-6_per_C"]
        if "-" in told:
            for end, got in zip(told.split("-"), one.alpha_range_per_K, strict=True):
                _range_end(published, source, one, end, got)
        else:
            published.number(source, one.name, one.alpha_per_K * 1e6, float(told), last_digit=0.1)


def _range_end(published: Any, source: str, one: Material, end: str, got: float) -> None:
    # A printed range must lie inside the range we show for the material.
    low, high = (value * 1e6 for value in one.alpha_range_per_K)
    inside = low - 1e-9 <= float(end) <= high + 1e-9
    published.text(source, f"{one.name} range end {end} in {low:g} to {high:g}", inside, True)
    assert got > 0


def test_density(published: Any, reference: Any) -> None:
    source = "Density, handbook values (from memory)"
    for row in reference("density"):
        one = material(DENSITY[row["material"]])
        published.number(source, one.name, one.density_kg_m3 / 1000, float(row["g_cm3"]), last_digit=0.01)
        pounds = one.density_kg_m3 * 1e-9 * 25.4**3 / 0.45359237
        published.number(
            "Density in lb/in³ (from memory)",
            one.name,
            pounds,
            float(row["lb_in3"]),
            last_digit=1e-4,
            why="the table rounds its own g/cm³ first",
        )
        if row["range"]:
            low, high = (float(end) * 1000 for end in row["range"].split("-"))
            assert one.density_range_kg_m3[0] <= low + 200
            assert one.density_range_kg_m3[1] >= high
