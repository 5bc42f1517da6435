"""The shop of the demo: where parts lie, and what they are measured with."""

from __future__ import annotations

from rebuild.demo.records import InstrumentData, PlaceData
from rebuild.words.places import PlaceKind as K

PLACES = tuple(
    PlaceData(*row)
    for row in (
        ("bench", K.BENCH, "left bench, cloth tray", "2025-05-10", ""),
        ("bench2", K.BENCH, "right bench, surface plate", "2025-05-10", "granite plate 24 x 18 in under the lid"),
        ("floor", K.OTHER, "floor, on timber under the window", "2025-05-31", "heavy castings; keep the tarp on"),
        ("rack", K.SHELF, "long rack over the door", "2025-06-07", "screws and shafts lie flat, oiled, in paper"),
        ("A1", K.SHELF, "A1", "2025-05-17", ""),
        ("A2", K.SHELF, "A2", "2025-05-17", ""),
        ("B1", K.SHELF, "B1", "2025-06-28", ""),
        ("B2", K.SHELF, "B2, finished parts oiled", "2025-10-19", "wrapped and tagged; nothing unfinished goes here"),
        ("T1", K.TOTE, "1 red lid", "2025-05-25", ""),
        ("T2", K.TOTE, "2 grey", "2025-06-07", ""),
        ("T3", K.TOTE, "3 grey", "2025-07-12", ""),
        ("T4", K.TOTE, "4 blue, lathe", "2026-02-07", ""),
        ("T5", K.TOTE, "5 blue, lathe apron", "2026-02-21", ""),
        ("T6", K.TOTE, "6 blue, lathe gearbox", "2026-03-21", ""),
        ("bag1", K.BAG, "rail and table screws", "2025-05-31", "card in the bag"),
        ("bag2", K.BAG, "ram and head screws", "2025-06-07", "card in the bag"),
        ("bag3", K.BAG, "drive and clutch small parts", "2025-07-12", "double bag, wetted: lining dust"),
        ("bag4", K.BAG, "lathe apron screws and pins", "2026-02-21", "muffin tin sketch inside"),
        ("bag5", K.BAG, "lathe headstock screws", "2026-09-27", ""),
        ("bath", K.BATH, "rust bath, chelating", "2025-07-27", "tags dissolve: wire a stamped brass disc on"),
        ("box", K.TOTE, "loose box that came with the machine", "2025-05-10", ""),
        ("planer", K.AT_A_SHOP, "planing shop in the next town", "2025-11-04", "quote 2 h; bring the crank block"),
        ("gears", K.AT_A_SHOP, "gear cutting, by post", "2026-09-01", "drawing and sample sent"),
        ("lent", K.LENT, "neighbour with the mill", "2026-06-06", "back by Christmas"),
        ("shaper", K.ON_THE_MACHINE, "on the shaper", "2025-05-10", ""),
        ("lathe", K.ON_THE_MACHINE, "on the lathe", "2025-11-15", ""),
    )
)  # fmt: skip

_DIN_MIC = "DIN 863-1:1999, from memory; not calibrated since bought"
_DIN_CAL = "DIN 862:2005, from memory"
_HABIT = "common practice, no source: trials on a ring of known size"


def _tool(
    key: str, name: str, kind: str, unit: str, resolution: str, limit: str, source: str, **more: str
) -> InstrumentData:
    """An instrument; ``limit`` is its maximum permissible error, or a stated ``U = ...`` at k = 2."""
    stated = limit.startswith("U ")
    typed = {
        "kind": kind, "unit": unit, "resolution": resolution, "limit_source": source,
        "uncertainty" if stated else "mpe": limit.removeprefix("U "), **more,
    }  # fmt: skip
    return InstrumentData(key, name, typed)


INSTRUMENTS = (
    _tool("m1", "Micrometer 0-1 in", "outside micrometer", "in", "0.0001", "4 µm", _DIN_MIC),
    _tool("m2", "Micrometer 1-2 in", "outside micrometer", "in", "0.0001", "4 µm", _DIN_MIC),
    _tool("m3", "Micrometer 2-3 in", "outside micrometer", "in", "0.0001", "5 µm", _DIN_MIC),
    _tool("m4", "Micrometer 3-4 in", "outside micrometer", "in", "0.0001", "5 µm", _DIN_MIC),
    _tool("cal", "Dial caliper 6 in", "caliper", "in", "0.001", "0.03 mm", _DIN_CAL),
    _tool("tel", "Telescoping gauges and micrometer", "telescoping gauge and micrometer", "in", "0.0001",
          "13 µm", _HABIT, note="three tries each; keep the middle one"),
    _tool("sh", "Small-hole gauges and micrometer", "small-hole gauge and micrometer", "in", "0.0001", "0.0005",
          _HABIT),
    _tool("bg", "Dial bore gauge 1.4-6 in", "bore gauge", "in", "0.0001", "5 µm",
          "JIS B 7515, from memory, low confidence; set in the micrometer"),
    _tool("dm", "Depth micrometer 0-6 in", "depth micrometer", "in", "0.001", "0.0004",
          "as entered; rods checked on the plate"),
    _tool("dti", "Test indicator 0.0001 in", "test indicator", "in", "0.0001", "0.0002",
          "as entered: reversed on a gauge-block step"),
    _tool("di", "Dial indicator 1 in travel", "dial indicator", "in", "0.001", "0.001", "as entered"),
    _tool("fe", "Feeler gauges 0.0015-0.035 in", "feeler gauge", "in", "0.0005", "0.0003",
          "common practice, no source"),
    _tool("strip", "Crushable plastic strip", "crushable strip", "in", "0.0005", "0.0005",
          "common practice, no source"),
    _tool("rule", "Steel rule 24 in", "rule", "in", "1/64", "0.3 mm", "shop practice"),
    _tool("lvl", "Precision level, 0.0005 in per ft", "precision level", "in", "0.0001", "0.0002",
          "as entered: end for end; readings are inches per foot"),
    _tool("k1", "Micrometer 0-25 mm, digital", "outside micrometer", "mm", "0.001", "U 0.0016",
          "calibration certificate, k = 2", calibrated_on="2025-09-02"),
    _tool("k2", "Micrometer 25-50 mm", "outside micrometer", "mm", "0.001", "4 µm", _DIN_MIC),
    _tool("k3", "Micrometer 50-75 mm", "outside micrometer", "mm", "0.001", "5 µm", _DIN_MIC),
    _tool("k4", "Micrometer 75-100 mm", "outside micrometer", "mm", "0.01", "5 µm", _DIN_MIC),
    _tool("kz", "Disc micrometer 25-50 mm, for tooth spans", "outside micrometer", "mm", "0.01", "0.008",
          "as entered: twice a plain micrometer"),
    _tool("kc", "Digital caliper 150 mm", "caliper", "mm", "0.01", "0.02", _DIN_CAL),
    _tool("kb", "Dial bore gauge 18-35 mm", "bore gauge", "mm", "0.001", "5 µm",
          "JIS B 7515, from memory, low confidence; set in a ring"),
    _tool("kb2", "Dial bore gauge 35-160 mm", "bore gauge", "mm", "0.001", "U 0.005",
          "calibration certificate, k = 2", calibrated_on="2025-09-02"),
    _tool("kd", "Dial indicator 10 mm", "dial indicator", "mm", "0.01", "15 µm", "JIS B 7503:2011"),
    _tool("kl", "Lever indicator 0.002 mm", "test indicator", "mm", "0.002", "0.003", "as entered"),
    _tool("kf", "Feeler gauges 0.03-1 mm", "feeler gauge", "mm", "0.01", "0.005", "common practice, no source"),
    _tool("kv", "Precision level 0.02 mm per m", "precision level", "mm", "0.005", "0.01",
          "as entered: end for end; readings are mm per metre"),
    _tool("kt", "Test bar 30 x 300 mm in MT 5, lever indicator on the carriage", "test indicator", "mm", "0.002",
          "0.005", "as entered: bar turned half way and averaged"),
    _tool("wires", "Thread wires and micrometer", "thread wires and micrometer", "mm", "0.001", "0.006", "as entered"),
)  # fmt: skip
