"""Every row of the instrument reference file: the limits we start from, or why a row has none."""

from __future__ import annotations

import re

from rebuild.trade.limits.instruments import default_limits, instrument_limit, surface_plate_um
from rebuild.trade.results.working import Status

LIMIT = "limit (um) order: entire;1rev;half;tenth;repeat;retrace where listed"
KINDS = {
    "dial indicator 0.01": "dial indicator 0.01",
    "inside micrometer rod/sleeve": "inside micrometer rod",
    "tubular inside mic interchangeable": "inside micrometer tubular",
}
NO_NUMBER = {
    "dial indicator 0.001": "the row names no column order",
    "outside micrometer": "ISO 3611:2010 gives no numbers",
    "caliper": "ISO 13385-1:2019 gives no numbers",
    "precision level": "not a length: divisions of mm/m",
}


def _source(row):
    return f"instrument limits ({'found' if row['status'].startswith('found') else 'from memory'})"


def test_rows(published, reference):
    for row in reference("instruments"):
        name, span = row["instrument"], row["range_mm"]
        label = f"{name} {span}"
        if name in NO_NUMBER and span not in ("0-25",):
            published.not_covered(_source(row), label, NO_NUMBER[name])
        elif name.startswith("surface plate"):
            _plate(published, row, label)
        elif name.startswith("dial indicator 0.01"):
            _indicator(published, row, label)
        else:
            _single(published, row, label)


def _plate(published, row, label):
    # Source: 40 + D²/25 µin; the metric constants of the standard (1 + 1.6e-6·D² µm) differ by about 1 %.
    for diagonal in (300.0, 762.0, 1500.0):
        got = surface_plate_um(diagonal).value
        published.number(
            _source(row), label, got, (40 + (diagonal / 25.4) ** 2 / 25) * 0.0254, last_digit=1e-9
        )
        assert abs(got / (1 + 1.6e-6 * diagonal**2) - 1) < 0.02


def _indicator(published, row, label):
    reach = float(re.findall(r"[\d.]+", row["range_mm"])[-1])
    wanted = [float(part) for part in re.findall(r"(?<![/\d])\d+(?=;|$)", row[LIMIT].replace("entire ", ""))]
    if "entire" in row[LIMIT]:
        wanted = [float(text.split()[-1]) for text in row[LIMIT].split(";")]
    found = next(
        item for item in default_limits() if item.kind == "dial indicator 0.01" and item.to_mm == reach
    )
    got = [round(value * 1000, 6) for _, value in found.spans_mm]
    published.text(_source(row), label, got, wanted)
    assert found.source.status is Status.PUBLISHED


def _single(published, row, label):
    number = float(re.search(r"[\d.]+", row[LIMIT].replace("wide-range accuracy ", ""))[0])
    reach = float(re.findall(r"[\d.]+", row["range_mm"] or "100")[-1])
    name = row["instrument"]
    if "two heads" in row["range_mm"]:
        kind, reach = "inside micrometer tubular two heads", 800.0
    elif name in KINDS:
        kind = KINDS[name]
    elif name.startswith("outside micrometer"):
        kind = "outside micrometer 0.001"
        reach = float(re.findall(r"\d+", name)[-1])
    elif name.startswith("caliper"):
        kind, reach = ("caliper 0.05" if "0.05" in name else "caliper 0.02"), min(reach, 300.0)
    else:
        kind, reach = "bore gauge", 100.0
    limit = instrument_limit(kind, reach)
    published.number(_source(row), label, limit.mpe_mm * 1000, number, last_digit=0.1)
    found = row["status"].startswith("found")
    assert (limit.source.status is Status.PUBLISHED) is found
