"""Steps of the shaper as a whole."""

from __future__ import annotations

from rebuild.demo.words import NEEDS, T, need, step, wait

# One record to a few lines: a table reads better than a tower of single arguments.
# fmt: off
STEPS = (
    step("W.rig", T.REMOVE, "Unload from the trailer, roll in on pipes", "2 h/4 h/6 h", "2025-05-10",
        needs=((NEEDS.TWO_PEOPLE, "three of us, hoist, 3100 lb"),), cautions="lifting slings",
        done_note="two straps under the ram, one round the base; none of them oiled"),
    step("W.converter", T.BUY, "Find a rotary converter for 3 hp", "1 h/2 h/4 h", state="under way",
        cautions="mains"),
    step("W.relevel", T.ALIGN, "Level again with ram and rail on", "1 h/1.5 h/2 h",
        after="RL.railon RAM.gibset", needs=(need(NEEDS.CURE, "look again after a week", rest="7 d"),)),
    step("W.together", T.INSPECT, "Walk round: nothing finger tight, nothing dry", "30/45/60",
        after="RAM.position BG.mesh FD.pins GB.shift TB.support CB.setscrews HD.pin RK.drive"),
    step("W.power", T.COMMISSION, "First power: one hand, small fuse, guards on", "20/30/45",
        after="W.together W.converter DR.guardon CL.set OIL.points BAS.doors", cautions="mains guards"),
    step("W.runin", T.COMMISSION, "Run in: 20 minutes at each of four slow speeds, feel the bearings",
        "2 h/3 h/4 h", after="W.power", because=(wait("OIL.fill", "never dry"),), cautions="guards"),
    step("W.retighten", T.ADJUST, "Tighten everything again after the run-in", "30/45/60", after="W.runin"),
    step("W.book", T.OTHER, "Write sizes, oil and spares into the machine's book", "2 h/3 h/4 h",
        after="AC.plane HD.square W.retighten"),
)
