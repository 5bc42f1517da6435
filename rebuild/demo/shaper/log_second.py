"""Bench log of the shaper, 2026: bushes, paint, ram and clapper in refit."""

from __future__ import annotations

from rebuild.demo.words import session

# One record to a few lines: a table reads better than a tower of single arguments.
# fmt: off
SESSIONS = (
    session("2026-01-24", "2", "6", "Fetched the rocker, checked the slot.",
        "3.0258-3.0261, parallel within 0.0006. Twelve weeks, not six.", next="block to the slot"),
    session("2026-02-01", "6", "8", "Finished the block to the slot, rocker shaft, both rocker bushes.",
        "Block slides with 0.0023 in.",
        mind="thermometer on the plate: 8 C and all together since yesterday"),
    session("2026-03-01", "5", "7", "Pressed out the bull gear bush.",
        "Went with a bang at 6 ton, stood aside.", next="new bush"),
    session("2026-03-07", "8", "9", "Bull gear bush turned; positioning shaft, its bush, link bushes.",
        "Reamer cut the positioning bush 0.0003 over: accepted.", left="bush wrapped on B2"),
    session("2026-03-28", "8", "10", "Pressed bull gear and rocker bushes, line-bored, line-reamed.",
        "Right rocker bush 0.0004 in large, accepted for now.", next="pinion bushes"),
    session("2026-04-06", "5", "11", "Pinion bushes, feed crank pin, stroke screw turned end for end.",
        left="everything finished on B2", next="paint when it is warm"),
    session("2026-06-06", "2", "20",
        "First evening after nine weeks: broke a wrist in April. Cleared the bench, read this log, looked "
        "at photos.", "Nothing rusted, oil held.", next="plug ports and paint",
        mind="tool holder lent to the neighbour"),
    session("2026-06-20", "6", "22", "Plugged every port, masked, filled, primed.", next="paint next week"),
    session("2026-06-27", "5", "24", "Two coats of grey.", left="a week to harden"),
    session("2026-07-04", "7", "25", "Ports opened and blown, crank pin pressed, bull gear in.",
        "Turns with one hand.", next="rocker"),
    session("2026-07-11", "7", "27", "Rocker, block and shaft in. Bronze strip bonded to the ram gib.",
        "Block falls down the slot by its own weight.", left="gib clamped between plates 24 h"),
    session("2026-07-25", "4", "26", "Pump and tubes in, turned by hand until all four dripped.",
        "Left way came last, thirty turns.", next="scrape the ram"),
    session("2026-08-15", "10", "25",
        "Scraped ram and gib, pressed the positioning bush, reamed the clapper box to 25/32, chased the gib "
        "hole.", "Ram bears on both faces.", next="trial"),
    session("2026-08-22", "6", "24", "Ram in dry, first trial. Clapper pin hardened and ground.",
        "Tight at 6 in, high spot on the gib. Gap 0.003 at the front.",
        left="ram on, gib screws finger tight", mind="NOT oiled"),
    session("2026-09-05", "7", "21", "Scraped swivel, slide and clapper cheeks.",
        "Cheeks parallel at 2.5062.", next="block"),
    session("2026-09-19", "7", "19",
        "Pinion bushes pressed and reamed, gearbox built on the bench and run by hand.",
        "Gear stamped 46 in the feed counts 48.", left="gearbox on the long bench, covered",
        blocked="thick washer: which shaft?"),
    session("2026-10-03", "6", "16",
        "Ram out, spotted the gib, ram back oiled, second trial. Level unchanged after ten months.",
        "Slides by hand end to end.", next="eighth gib screw, then set the gib"),
    session("2026-10-17", "7", "14",
        "Clapper block finished at the neighbour's mill and scraped here, bush pressed, reamed together.",
        "Dry it falls, oiled it hangs. Left cheek has a high spot.", left="clapper on the left bench"),
    session("2026-10-31", "3", "11",
        "Gib screws set by feel, seven of eight. Scraped two spots off the left cheek.",
        "Eighth screw is still missing: hole is chased, screw to be made.",
        left="ram on, jam nuts finger tight; rear cover in the rust bath",
        next="gib screw, cross-feed nut, elevating", blocked="cross-feed nut: everything on the rail waits",
        mind="jam nuts are only finger tight"),
)
