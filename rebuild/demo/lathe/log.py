"""Bench log of the lathe, from the depot to the first dry trial of the apron."""

from __future__ import annotations

from rebuild.demo.words import session

# One record to a few lines: a table reads better than a tower of single arguments.
# fmt: off
SESSIONS = (
    session("2025-11-15", "5", "8", "Brought in on the pallet truck, set down on timber.",
        "Lock nut of the spindle is loose.", next="measure it before touching anything"),
    session("2025-12-13", "4", "9", "Photographs, drawers sorted, lost motion and gaps as found.",
        "Cross slide 0.61 mm at 100 mm but 0.18 at the front.", left="drawers on A2"),
    session("2025-12-14", "5", "9", "On four mounts. Bed, spindle and tailstock surveyed as found.",
        "Front way 0.128 mm down at 200 mm; tailstock 0.062 low. Bar at 300 mm runs 0.031.",
        mind="lift taken with caps barely tight: take it again"),
    session("2026-02-07", "4", "5", "Tool post, top slide and tailstock off and stripped.",
        "Quill key pinned from inside."),
    session("2026-02-14", "6", "6", "Leadscrew, apron, cross slide, saddle off.",
        "Shear pin is a hardened drill shank.", left="saddle on the floor, underside up"),
    session("2026-02-21", "5", "7", "Apron stripped layer by layer, half nuts out.",
        "Thick washer left over and no picture of it.", mind="order is on the lid of tote 5"),
    session("2026-03-15", "7", "10", "Apron, half nuts and leadscrew measured.",
        "Half nuts are sharp. Leadscrew 0.27 thinner near the headstock."),
    session("2026-03-21", "4", "11", "Gearbox off, tailstock measured, apron decided.",
        next="order bronze, look for somebody to cut a worm wheel"),
    session("2026-06-13", "7", "21",
        "After the wrist: gearbox stripped, saddle, slides and gearbox measured, bed decided.",
        "A tooth of the 32 lay in the bottom. Bed stays as it is for now.", blocked="price for a gear"),
    session("2026-07-19", "4", "28", "Motor and countershaft off, end train off.", "Motor over 20 megohm."),
    session("2026-08-03", "6", "25", "Cross feed shaft turned, gears counted, shear pins made.",
        "The gear stamped 60 has 63 teeth. That explains the old threads.", next="bushes"),
    session("2026-08-05", "6", "26", "Both cross feed bushes turned, pressed, reamed.",
        "Front one 0.006 over: accepted.", left="apron on the left bench"),
    session("2026-09-01", "2", "22", "Worm, wheel and drawing packed and posted to the gear cutter.",
        next="half nut blank", blocked="worm wheel: twelve weeks"),
    session("2026-09-16", "6", "20", "Half nut blank planed and bored in one piece.",
        next="find a Tr 30x6 tap", blocked="no tap"),
    session("2026-09-27", "9", "18", "Spindle out.",
        "Planned as an hour, took the day: key was peened into the bull gear. Shims are not the same left "
        "and right.", left="caps and shims in marked bags"),
    session("2026-10-12", "4", "15", "Back gear shaft out. Journals, bushes and shims measured, first time.",
        "Front bush oval, low side.", mind="thermometer 15 C, bushes and gauge side by side overnight"),
    session("2026-10-23", "6", "13", "Washed, measured again with repeats, seats and back gear measured.",
        "Rim of the 60 is cracked through at the keyway.", left="spindle on V-blocks, right bench",
        next="blue the bushes"),
    session("2026-11-07", "4", "10", "Apron dry trial, attempt 1.",
        "Cross feed gear binds: not seated to its shoulder. Washer still left over.",
        left="apron on the bench, pins only pushed in",
        next="seat the gear, latch and key while the wheel is away", blocked="worm wheel, half nut tap",
        mind="pins are NOT driven"),
)
