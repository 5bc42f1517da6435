"""The inch machine: a 16-inch crank shaper of 1938 out of a quarry's repair shop."""

from __future__ import annotations

from rebuild.demo.records import MachineData
from rebuild.demo.shaper import (
    base_column,
    bull_gear,
    clapper,
    clutch,
    drive,
    feed,
    gearbox,
    head,
    log_first,
    log_second,
    loose_box,
    oiling,
    questions,
    rail,
    ram,
    rocker,
    table,
    vice,
    whole,
)

SHAPER = MachineData(
    name="Quarry shaper",
    arrived="2025-05-10",
    typed={
        "kind": "shaper",
        "maker": "",
        "model": "16 in back-geared crank shaper",
        "serial": "2207",
        "serial_where": "top of the column, left of the ram ways; again under the rail",
        "stampings": "last two digits 07 on ram, rail, head and bull gear",
        "year": "1938",
        "year_basis": "pencilled inspection date 11-38 inside the column; the plate is missing",
        "unit": "in",
        "capacity": "16-3/8 in stroke, table 14 x 11 in, cross travel 20 in",
        "weight": "3100 lb with the vice",
        "power_found": "3 hp, 3-phase, 220/440 V, 1140 rpm",
        "power_planned": "the same motor on 220 V from a rotary converter",
        "scope": "recondition",
        "location": "left bay, on levelling pads",
        "bought": "2025-05-10, $450, from the repair shop of a closed quarry",
        "story": "Worked outdoors under a roof until the pump failed; ran some years on an oil can. "
        "The sliding block galled and the rocker slot wore wide in the middle. Bull gear and column are sound.",
    },
    groups=(
        base_column.GROUP, oiling.GROUP, ram.GROUP, bull_gear.GROUP, rocker.GROUP, head.GROUP, clapper.GROUP,
        rail.GROUP, table.GROUP, feed.GROUP, drive.GROUP, clutch.GROUP, gearbox.GROUP, vice.GROUP,
    ),
    loose=loose_box.PARTS,
    general=whole.STEPS,
    sets=loose_box.SETS,
    questions=questions.QUESTIONS,
    sessions=(*log_first.SESSIONS, *log_second.SESSIONS),
)  # fmt: skip
