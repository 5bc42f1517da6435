"""BED: bed, feet, rack; everything else is measured from it."""

from __future__ import annotations

from rebuild.demo.words import (
    CLEANED,
    COMMON,
    DEFER,
    FOUND,
    GEAR,
    HANDBOOK,
    JUDGED,
    NEEDS,
    REUSE,
    REWORK,
    WAY,
    T,
    feat,
    group,
    need,
    part,
    read,
    settle,
    step,
)  # fmt: skip

# One record to a few lines: a table reads better than a tower of single arguments.
# fmt: off
BED = "100/200/300/400/500/600/750 mm"

PARTS = (
    part("BED-01", "bed", "EN-GJL-250",
        feat("front V way, drop from the tailstock end", WAY, "max 0.05", JUDGED, BED,
            read(FOUND, "2025-12-14", "kl", "0.112|0.128|0.094|0.058|0.030|0.012|0.000", temp="9 C",
                note="lever indicator on a bridge from the tailstock ways"), sense="low",
            spec_note="0.03-0.05 mm near the chuck: " + COMMON),
        feat("rear flat way, drop from the tailstock end", WAY, "max 0.05", JUDGED, BED,
            read(FOUND, "2025-12-14", "kl", "0.052|0.060|0.048|0.030|0.016|0.006|0.000", temp="9 C"),
            sense="low", spec_note=COMMON),
        feat("twist, level across the ways", WAY, "±0.02", HANDBOOK, "headstock/middle/tailstock",
            read(FOUND, "2025-12-14", "kv", "0.035|0.010|0.000", note="mm per metre"),
            sense="rear high", spec_note="0.02-0.04 mm per m; ISO 1708"), at="lathe",
        placed="2025-11-15", stamped="418",
        condition="ridge under the chuck, scraping marks whole from 600 mm on",
        settled=settle(DEFER, "2026-06-13", "0.128 mm worst, 100-300 mm only; my parts are short",
            "taper over 150 mm under 0.02 mm", "a long shaft has to come out straight: regrind quote")),
    part("BED-02", "foot, headstock end", "EN-GJL-200", at="lathe", placed="2025-11-15"),
    part("BED-03", "foot, tailstock end", "EN-GJL-200", at="lathe", placed="2025-11-15"),
    part("BED-04", "machine mount", "C45", quantity="4", origin="bought", at="lathe", placed="2025-12-14",
        note="M16 x 1.5"),
    part("BED-05", "rack, module 2", "C45",
        feat("tooth thickness, headstock end", GEAR, "3.00-3.14", JUDGED, "used/unused",
            read(CLEANED, "2026-06-13", "kc", "3.02|3.12")), quantity="2",
        handedness="two lengths, joint at 410 mm", at="lathe", placed="2025-11-15",
        condition="hooked where the carriage stands most"),
    part("BED-06", "rack screw", "steel 8.8", quantity="10", note="M6 x 25", at="lathe", placed="2025-11-15"),
    part("BED-07", "chip tray", "S235", at="A2", placed="2026-02-14"),
    part("BED-08", "feet to bed screw", "steel 8.8", quantity="8", note="M14 x 60", at="lathe",
        placed="2025-11-15"),
)

STEPS = (
    step("BED.survey", T.MEASURE, "Survey the bed from the tailstock ways as found", "2 h/3 h/4 h",
        "2025-12-14", part="BED-01"),
    step("BED.mounts", T.REFIT, "Set on four mounts, rough level", "1 h/2 h/3 h", "2025-12-14",
        cautions="lifting"),
    step("BED.clean", T.CLEAN, "Clean the bed and the tray", "2 h/3 h/4 h", "2026-06-13", after="SD.off"),
    step("BED.decide", T.DECIDE, "Decide: live with the bed, scrape, or have it ground", "30/45/60",
        "2026-06-13", after="BED.survey", part="BED-01"),
    step("BED.ridge", T.REWORK, "Stone the ridge off under the chuck", "1 h/2 h/3 h", after="BED.clean",
        part="BED-01"),
    step("BED.rackswap", T.REWORK, "Change the rack lengths over, unused teeth to the headstock",
        "1.5 h/2 h/3 h", after="BED.clean", part="BED-05"),
    step("BED.level", T.ALIGN, "Untwist the bed, leave a week, look again", "1.5 h/2 h/3 h",
        after="HS.on BED.ridge", needs=(need(NEEDS.CURE, "a week", rest="7 d"),)),
)

GROUP = group(
    "BED", "Bed, feet and rack", PARTS, STEPS,
    settle(REUSE, "2026-06-13", "sound", codes="BED-02 BED-03 BED-04 BED-06 BED-07 BED-08"),
    settle(REWORK, "2026-06-13", "change the two lengths over", codes="BED-05"),
)
