"""The metric machine: a toolroom lathe of 1957 out of a tram depot."""

from __future__ import annotations

from rebuild.demo.lathe import (
    apron,
    back_gear,
    bed,
    cross_slide,
    drive,
    end_train,
    gearbox,
    half_nuts,
    headstock,
    leadscrew,
    log,
    loose_box,
    questions,
    saddle,
    tailstock,
    top_slide,
    whole,
)
from rebuild.demo.records import MachineData

LATHE = MachineData(
    name="Tram lathe",
    arrived="2025-11-15",
    typed={
        "kind": "lathe",
        "maker": "",
        "model": "toolroom lathe, 165 mm centres",
        "serial": "418",
        "serial_where": "bed end at the tailstock, between the ways",
        "stampings": "418 on saddle, apron, tailstock base and both bearing caps",
        "year": "1957",
        "year_basis": "depot inventory card, stamped March 1957",
        "unit": "mm",
        "capacity": "165 mm centre height, 750 mm between centres, 32 mm through the spindle, nose short taper no. 5",
        "weight": "980 kg",
        "power_found": "2.2 kW, 3-phase, 380 V, 1430 rpm",
        "power_planned": "same motor from an inverter, 230 V single phase",
        "scope": "recondition",
        "location": "right bay, on four machine mounts",
        "bought": "2025-11-15, 850 with steadies and change gears, from a closing tram depot",
        "story": "Turned axle-box parts and commutators all its life, so the bed is worn near the chuck and the far "
        "end is like new. The apron was repaired at the depot once, with parts that do not quite match.",
    },
    groups=(
        bed.GROUP, headstock.GROUP, back_gear.GROUP, end_train.GROUP, gearbox.GROUP, leadscrew.GROUP, saddle.GROUP,
        cross_slide.GROUP, top_slide.GROUP, apron.GROUP, half_nuts.GROUP, tailstock.GROUP, drive.GROUP,
    ),
    loose=loose_box.PARTS,
    general=whole.STEPS,
    sets=loose_box.SETS,
    questions=questions.QUESTIONS,
    sessions=log.SESSIONS,
)  # fmt: skip
