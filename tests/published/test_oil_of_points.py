"""The oil of a point against the reference rows of old Saybolt figures, typed in a manual's words."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rebuild.trade.lubrication.oil_today import oil_today

Rows = Callable[[str], list[dict[str, str]]]
SOURCE = "old Saybolt figures at 100 °F, viscosity index 95"


def test_old_figures_in_words(published: Any, reference: Rows) -> None:
    for row in reference("old_sus100f_to_isovg"):
        said = f"{row['SUS_at_100F']} SUS at 100 F machine oil"
        found = oil_today(said).value
        published.text(SOURCE, said, found.grade, int(row["nearest_VI95"]))
        published.text(SOURCE, f"{said}, doubt", bool(found.doubt), row["band_VI95"] == "gap")
