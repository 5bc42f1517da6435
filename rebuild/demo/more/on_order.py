"""What is waited for in the demo: joints, clocks, orders and loans, stock, and where the hours went."""

from __future__ import annotations

from collections.abc import Mapping

Typed = Mapping[str, str]

#: Subassembly, joint, typed fields, day it was last set.
JOINTS: dict[str, tuple[tuple[str, str, dict[str, str], str], ...]] = {
    "shaper": (
        ("BAS", "column to base screws", {"location": "base, front and rear low", "thread": "3/4-10", "count": "8",
         "tight": "torqued", "wanted": "torqued", "torque_done": "180 lb-ft", "torque_wanted": "180 lb-ft",
         "torque_source": "the works' card in the door, pencil", "look_again": "yes"}, "2026-02-28"),
        ("RAM", "ram gib jam nuts", {"location": "ram, right side, top", "thread": "1/2-13", "count": "7",
         "tight": "finger", "wanted": "locked", "look_again": "yes"}, "2026-10-31"),
        ("RL", "rail clamp bolts", {"location": "rail, rear of the column, left and right", "thread": "3/4-10",
         "count": "4", "tight": "apart", "wanted": "torqued", "torque_wanted": "120 lb-ft",
         "torque_source": "common practice, no source"}, "2025-05-31"),
        ("BG", "bull gear shaft cap", {"location": "column, left, under the rear cover", "thread": "1/2-13",
         "count": "4", "tight": "torqued", "wanted": "torqued", "torque_done": "60 lb-ft", "dress": "oiled",
         "wanted_dress": "oiled"}, "2026-06-20"),
        ("OIL", "oil manifold", {"location": "column, inside, front top", "thread": "1/4-20", "count": "6",
         "tight": "snug", "wanted": "snug", "dress": "sealed", "wanted_dress": "sealed"}, "2026-07-25"),
        ("DR", "motor clamp", {"location": "motor, rear low", "thread": "M8", "count": "4", "grade": "8.8",
         "tight": "loose", "wanted": "torqued", "note": "metric strangers of an earlier owner"}, "2026-10-17"),
    ),
    "lathe": (
        ("BED", "bed feet", {"location": "bed feet, front and rear low", "thread": "M16", "count": "4",
         "tight": "snug", "wanted": "locked", "look_again": "yes"}, "2026-11-07"),
        ("AP", "cross feed gear end screw", {"location": "apron, front", "thread": "M6", "tight": "finger",
         "wanted": "locked", "note": "gear not seated to its shoulder yet"}, "2026-11-07"),
        ("AP", "apron taper pins 5 x 36", {"location": "apron, front", "count": "4", "tight": "loose",
         "wanted": "pinned", "note": "only pushed in"}, "2026-11-07"),
    ),
}  # fmt: skip

#: Kind, what, soonest, latest, day started, part, where the times come from.
CLOCKS: dict[str, tuple[tuple[str, str, str, str, str, str, str], ...]] = {
    "shaper": (
        ("in the bath", "rear cover, tag wired on", "1 d", "21 d", "2026-10-31", "BAS-05", "the bath's label"),
        ("recoat", "second grey coat on the rail", "6 h", "4 d", "2026-10-31", "RL-01", "the tin"),
        ("re-torque", "column to base screws", "30 d", "", "2026-10-03", "", "common practice, no source"),
    ),
    "lathe": (
        ("re-level", "bed, after the pads were moved", "4 h, 3 d, 30 d", "", "2026-11-07", "",
         "common practice, no source"),
        ("cure", "filler in the headstock foot", "72 h", "", "2026-11-07", "HS-04", "the tin"),
    ),
}  # fmt: skip

#: Kind, what, part, step, typed fields.
WAITING: dict[str, tuple[tuple[str, str, str, str, Typed], ...]] = {
    "shaper": (
        ("order", "V-belts B75, set of 3", "DR-04", "", {"who": "belt house", "price": "41", "carriage": "7",
         "ordered_at": "2026-10-05", "promised_at": "2026-10-26"}),
        ("order", "bronze bar SAE 660, 1-1/2 in x 12 in", "RL-05", "", {"who": "metal by the foot", "price": "62.5",
         "tax": "5", "ordered_at": "2026-09-20", "arrived_at": "2026-09-29", "inspected_at": "2026-10-03",
         "inspected_note": "1.507 in, sound"}),
        ("order", "no. 8 taper pins, pack of 10", "BAS-04", "", {"who": "fastener counter", "price": "14",
         "ordered_at": "2026-03-01", "arrived_at": "2026-03-06", "inspected_at": "2026-03-07"}),
        ("quote", "grinding of the cross rail", "RL-01", "", {"who": "planing shop in the next town",
         "asked_at": "2026-02-14", "good_until": "2026-05-14", "price": "380"}),
        ("lent out", "extension tool holder", "AC-09", "", {"who": "neighbour with the mill",
         "ordered_at": "2026-06-06", "promised_at": "2026-12-24"}),
        ("borrowed", "3/4 in drive torque wrench", "", "", {"who": "garage across the road",
         "ordered_at": "2026-09-05", "promised_at": "2026-09-19"}),
    ),
    "lathe": (
        ("sent out", "worm wheel, 30 teeth module 2, cut to the worm", "AP-07", "AP.wheel",
         {"who": "gear cutting, by post", "price": "165", "carriage": "18", "ordered_at": "2026-09-01",
          "promised_at": "2026-11-24", "sent_with": "worm, old wheel, drawing 3", "lead_low_days": "70",
          "lead_likely_days": "84", "lead_high_days": "120"}),
        ("order", "felt for the wicks, 1 set", "HS-19", "HS.wicks", {"who": "felt shop", "price": "28",
         "ordered_at": "2026-10-30", "promised_at": "2026-11-09"}),
        ("order", "thrust ball bearing 51110", "HS-13", "", {"who": "bearing house", "price": "23.4",
         "ordered_at": "2026-10-13", "arrived_at": "2026-10-20"}),
        ("quote", "front journal ground", "HS-01", "HS.quote", {"who": "cylindrical grinder, county works",
         "asked_at": "2026-10-17", "good_until": "2027-01-17", "price": "140"}),
    ),
}  # fmt: skip

#: Name, place, typed fields.
STOCK: tuple[tuple[str, str, Typed], ...] = (
    ("taper pins no. 8", "T1", {"quantity": "8", "counted_in": "pcs", "note": "pack of 10, two used"}),
    ("taper pins No. 4", "T1", {"quantity": "24", "counted_in": "pcs"}),
    ("bar, leaded tin bronze", "A2", {"material": "SAE 660", "sizes": "1-1/8 in x 6 in", "quantity": "1"}),
    ("bar, grey iron", "A2", {"material": "EN-GJL-250", "sizes": "60 mm x 180 mm", "quantity": "1"}),
    (
        "socket screws",
        "bag2",
        {"thread": "1/2-13", "sizes": "1-3/4 in", "quantity": "5", "counted_in": "pcs"},
    ),
    ("felt strip", "A1", {"sizes": "1/4 in x 1 in", "quantity": "3", "counted_in": "ft"}),
    ("shim brass", "B1", {"sizes": "0.001 in to 0.010 in", "quantity": "1", "counted_in": "book"}),
)

#: Day of a session, and where its hours went.
SESSIONS_SPLIT: dict[str, tuple[tuple[str, str], ...]] = {
    "shaper": (
        ("2026-08-22", "RAM 4, CB 2"), ("2026-09-05", "HD 4, CB 3"), ("2026-10-03", "RAM 6"),
        ("2026-10-31", "RAM-03 1, CB 1.5"),
    ),
    "lathe": (
        ("2026-08-03", "AP-11 5"), ("2026-08-05", "AP-12 3, AP-14 3"), ("2026-09-27", "HS 9"), ("2026-11-07", "AP 4"),
    ),
}  # fmt: skip
