"""Steps of the lathe as a whole."""

from __future__ import annotations

from rebuild.demo.words import NEEDS, T, step, wait

# One record to a few lines: a table reads better than a tower of single arguments.
# fmt: off
STEPS = (
    step("W.rig", T.REMOVE, "Unload with pallet truck and hoist", "2 h/3 h/5 h", "2025-11-15",
        needs=((NEEDS.TWO_PEOPLE, "980 kg"),), cautions="lifting slings",
        done_note="two new straps round the bed, carriage locked at the tailstock end; not over the "
        "leadscrew"),
    step("W.photos", T.INSPECT, "Photograph everything, read plates and stampings", "1 h/1.5 h/2 h",
        "2025-12-13", after="W.rig"),
    step("W.play", T.MEASURE, "Lost motion and gaps as found", "2 h/3 h/4 h", "2025-12-13", after="W.photos"),
    step("W.book", T.OTHER, "Copy the change-gear table off the lid", "30/45/60", "2026-08-03"),
    step("W.together", T.INSPECT, "Walk round: nothing finger tight, nothing dry", "30/45/60",
        after="HS.on BG.pin TR.mesh LS.pinbracket LS.endplay AP.oil XS.lost TS.on TK.on SD.wipers DR.belts"),
    step("W.power", T.COMMISSION, "First power: lowest speed, hand on the stop", "20/30/45",
        after="W.together", cautions="mains guards"),
    step("W.runin", T.COMMISSION, "Run the spindle 20 minutes, feel both bearings", "1 h/1.5 h/2 h",
        after="W.power", cautions="preload guards"),
    step("W.cuttest", T.COMMISSION, "Two-collar test cut, 150 mm apart", "45/60/90", after="W.runin",
        because=(wait("BED.level", "levelled before it is judged"),), cautions="guards chuck"),
)
