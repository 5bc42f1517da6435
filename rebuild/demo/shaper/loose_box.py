"""The loose box that came with the shaper, and the sets that must stay together."""

from __future__ import annotations

from rebuild.demo.words import (
    BORE,
    CLEANED,
    DEFER,
    FOUND,
    GEAR,
    LENGTH,
    OD,
    REUSE,
    THREAD,
    feat,
    kept_together,
    part,
    read,
    settle,
)  # fmt: skip

# One record to a few lines: a table reads better than a tower of single arguments.
# fmt: off
PARTS = (
    part("X-01", "long pin with a flat", "SAE 1045",
        feat("outside diameter", OD, "", None, "", read(FOUND, "2025-05-11", "m1", "0.4985")),
        feat("length", LENGTH, "", None, "", read(FOUND, "2025-05-11", "cal", "5.31")), identity="confirmed",
        suspects="interlock pin of the clutch lever", at="box", placed="2025-05-11",
        other_names="long pin, feed?",
        note="bag said: long pin, feed? Two months later the clutch lever hole was 1/2 in",
        settled=settle(REUSE, "2025-09-30", "it is the clutch lever's interlock pin")),
    part("X-02", "thick bronze washer", "bronze",
        feat("bore", BORE, "", None, "", read(FOUND, "2025-05-11", "cal", "1.255")), identity="suspected",
        suspects="stroke shaft or first gearbox shaft", origin="unknown", at="box", placed="2025-05-11"),
    part("X-03", "gear, 31 teeth", "steel",
        feat("outside diameter", GEAR, "", None, "",
            read(FOUND, "2025-05-11", "cal", "57.74 mm",
                note="31 teeth: 57.74/33 = module 1.75, no inch pitch")), identity="not ours",
        origin="unknown", at="box", placed="2025-05-11", note="module 1.75: from some metric machine",
        settled=settle(DEFER, "2025-09-30", "not ours; keep for trade")),
    part("X-04", "bracket with an oval hole", "cast iron", identity="unknown", origin="unknown", at="box",
        placed="2025-05-11", note="grey over green, no number; an owner's own guard bracket?"),
    part("X-05", "square-head screw with a brass tip", "steel",
        feat("thread", THREAD, "", None, "",
            read(CLEANED, "2025-05-11", "cal", "0.372", note="3/8-16, brass tip: locks something turned")),
        identity="suspected", suspects="vertical feed lock on the head", origin="unknown", at="box",
        placed="2025-05-11"),
    part("X-06", "spring, 14 coils", "music wire ASTM A228", identity="unknown", origin="unknown", at="box",
        placed="2025-05-11", condition="sound"),
    part("X-07", "key, gib head", "SAE 1018",
        feat("width", OD, "", None, "", read(FOUND, "2025-05-11", "m1", "0.3748")), identity="suspected",
        suspects="key of the lost flat-belt pulley", origin="original", at="box", placed="2025-05-11"),
)

SETS = (
    kept_together("bull gear, crank slide and gib", "BG-01 BG-04 BG-07",
        "scraped together; both castings stamped 07"),
    kept_together("ram and gib", "RAM-01 RAM-02", "one punch dot each"),
    kept_together("clapper box, block, bush and pin", "CB-01 CB-02 CB-04 CB-05", "reamed through together"),
    kept_together("rocker arm and crank block", "RK-01 RK-02", "block fitted to the planed slot"),
    kept_together("clutch discs", "CL-02 CL-03 CL-04", "same order back, first disc is marked"),
    kept_together("rail and saddle", "RL-01 RL-04 RL-14"),
)
