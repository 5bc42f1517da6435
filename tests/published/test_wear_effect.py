"""Way wear against a rebuilder's worked figures, and densities against the reference rows by weight."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rebuild.trade.geometry.wear_effect import carriage_drop, front_way_drop
from rebuild.trade.shop.lifting import weight_kg
from rebuild.trade.shop.materials import find_material

Rows = Callable[[str], list[dict[str, str]]]
INCH = 25.4


def test_front_way_and_equal_drop(published: Any) -> None:
    # Source: a rebuilder's notes: drop 0.0065 in, centre 4.6 in over ways 6.2 in apart: 0.0048 sideways,
    # about 0.0096 on diameter; and an equal drop of 0.010 in at 1 in diameter is 0.0002 in.
    source = "A rebuilder's notes on bed wear"
    effect = front_way_drop(0.0065 * INCH, 4.6 * INCH, 6.2 * INCH, INCH).value
    published.number(source, "sideways", effect.tool_out_mm / INCH, 0.0048, last_digit=1e-4)
    # Twice the rounded 0.0048; the equation itself gives 0.00965.
    published.number(
        source, "on diameter", effect.approximate_mm / INCH, 0.0096, last_digit=1e-4, why="twice 0.0048"
    )
    equal = carriage_drop(0.010 * INCH, INCH).value.diameter_error_mm / INCH
    published.number(source, "equal drop", equal, 0.0002, last_digit=1e-4)


def test_weights_by_density(published: Any, reference: Rows) -> None:
    for row in reference("density"):
        found = find_material(row["material"])
        if found is None:
            published.not_covered("Densities (from memory)", row["material"], "not in the table of materials")
            continue
        mass = weight_kg("flat", (100.0, 100.0, 100.0), found.material).value
        published.number(
            "Densities (from memory)", row["material"], mass, float(row["g_cm3"]), last_digit=0.01
        )
