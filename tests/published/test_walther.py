"""Viscosity at temperature against the rows of ASTM D341's equation, found and computed."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from rebuild.trade.lubrication.walther import line_through

Rows = Callable[[str], list[dict[str, str]]]
LINE = re.compile(r"(?P<nu>[\d.]+)@(?P<t>[\d.]+)")


def test_every_row(published: Any, reference: Rows) -> None:
    for row in reference("walther_d341"):
        (nu1, t1), (nu2, t2) = ((float(m["nu"]), float(m["t"])) for m in LINE.finditer(row["points"]))
        kelvin = float(row["kelvin_offset"].split()[0])
        line = line_through(t1, nu1, t2, nu2, kelvin=kelvin)
        source = "A published D341 worksheet (T = t + 273)" if kelvin == 273 else "ASTM D341 equation"
        digits = 1e-4 if row["A"].split(".")[1].__len__() == 4 else 1e-5
        published.number(source, f"{row['points']} A", line.A, float(row["A"]), last_digit=digits)
        published.number(source, f"{row['points']} B", line.B, float(row["B"]), last_digit=digits)
        if kelvin == 273:
            # Trap A: the print used 273; the value at 80 °C is the same to its four digits.
            true = line_through(t1, nu1, t2, nu2)
            published.number(source, "at 80 °C", true.viscosity_cSt(80.0), 8.5, last_digit=0.1)
            continue
        for item in row["values"].split(";"):
            name, _, value = item.partition("=")
            at, want = (80.0, name) if not value else (float(name.removesuffix("C")), value)
            last = 10.0 ** -len(want.split(".")[1])
            published.number(
                source, f"{row['points']} at {at}", line.viscosity_cSt(at), float(want), last_digit=last
            )
