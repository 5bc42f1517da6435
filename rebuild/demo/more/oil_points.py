"""The oil cards of both machines: points as on the old plates, the lines that feed them, what was seen to flow."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.model.enums import FlowProof, OilPointKind

K, P = OilPointKind, FlowProof


@dataclass(frozen=True, slots=True)
class PointData:
    """One point: number, kind, what it feeds, its place on the map, and the rest as typed."""

    number: str
    kind: OilPointKind
    feeds: str
    at: tuple[float, float]
    oil: str = ""
    duty: str = "central"
    quantity: str = ""
    interval: str = ""
    path: str = ""
    by: str = ""
    hidden_by: str = ""
    part: str = ""
    proof: FlowProof = P.NOT_PROVED
    seen: str = ""
    how: str = ""
    dose: str = ""
    gives: str = ""
    filled: str = ""


_DAY, _WEEK = "every 8 h running", "weekly"
_SUMP = "300 SUS at 100 F"

# fmt: off - one point to a line or two reads as the card does
SHAPER = (
    PointData("P", K.PUMP, "plunger pump in the sump", (0.55, 0.86), _SUMP, quantity="10 qt in the sump",
        interval="drain yearly", part="OIL-01", proof=P.PROVED, seen="2026-07-25", how="holds a column for a minute",
        gives="2"),
    PointData("M", K.JUNCTION, "manifold block", (0.52, 0.70), by="P", part="OIL-08"),
    PointData("1", K.SIGHT_FEED, "left ram way", (0.42, 0.335), _SUMP, "way", "drips", _DAY,
        "copper tube over the column", "M", "RAM.link", "OIL-09", P.PROVED, "2026-07-25",
        "last of the four, 30 turns"),
    PointData("2", K.SIGHT_FEED, "right ram way", (0.66, 0.335), _SUMP, "way", "drips", _DAY, "copper tube", "M",
        "RAM.link", "OIL-10", P.PROVED, "2026-07-25", "drips within 12 turns"),
    PointData("3", K.SIGHT_FEED, "bull gear hub", (0.585, 0.645), _SUMP, "gear", "drips", _DAY, "copper tube", "M",
        "", "OIL-11", P.PROVED, "2026-07-25", "drips within 8 turns"),
    PointData("4", K.SIGHT_FEED, "rocker slot and sliding block", (0.60, 0.52), _SUMP, "gear", "drips", _DAY,
        "copper tube", "M", "BAS.doors", "OIL-12", P.PROVED, "2026-07-25", "drips within 15 turns"),
    PointData("B", K.LINE, "branch to the rail", (0.345, 0.50), by="M",
        path="tube, then drilled up through the column face", proof=P.BLOCKED, seen="2026-10-03",
        how="paint in the drilling at the column face"),
    PointData("5", K.OIL_HOLE, "rail ways on the column", (0.325, 0.42), _SUMP, "way", "2 drops", _DAY, "drilled",
        "B", "RL.railon"),
    PointData("6", K.OIL_HOLE, "saddle gib, upper", (0.285, 0.56), _SUMP, "way", "2 drops", _DAY,
        "drilled in the saddle", "B", "RL.saddleon"),
    PointData("7", K.OIL_HOLE, "cross screw nut", (0.275, 0.66), _SUMP, "", "2 drops", _DAY,
        "hole to be drilled with the new nut", "B", "RL.screwin"),
    PointData("8", K.BALL_OILER, "cross screw, operator's end", (0.255, 0.735), _SUMP, quantity="2 drops",
        interval=_DAY, proof=P.PROVED, seen="2026-10-03", how="shows at the thrust washer"),
    PointData("9", K.BALL_OILER, "elevating shaft", (0.30, 0.80), _SUMP, quantity="2 drops", interval=_WEEK),
    PointData("10", K.FLIP_LID_CUP, "elevating bevels", (0.335, 0.86), _SUMP, quantity="cup full", interval=_WEEK),
    PointData("11", K.FLIP_LID_CUP, "head swivel screw", (0.20, 0.12), "150 SUS machine oil", quantity="3 drops",
        interval=_DAY, part="OIL-14"),
    PointData("12", K.OIL_HOLE, "head slide ways", (0.175, 0.26), _SUMP, "way", "3 drops", _DAY,
        hidden_by="HD.slidein"),
    PointData("13", K.OIL_HOLE, "down-feed nut", (0.215, 0.34), _SUMP, quantity="3 drops", interval=_DAY,
        hidden_by="HD.screwin"),
    PointData("14", K.OIL_HOLE, "clapper pin", (0.175, 0.43), "100 SUS spindle oil", quantity="1 drop", interval=_DAY,
        hidden_by="CB.on", proof=P.PROVED, seen="2026-10-17", how="weeps at both cheeks"),
    PointData("15", K.BY_HAND, "rail top and front", (0.27, 0.48), "way lubricant", "way", "wipe", _DAY,
        proof=P.NOT_NEEDED),
    PointData("16", K.FLIP_LID_CUP, "feed eccentric", (0.42, 0.72), _SUMP, quantity="cup full", interval=_DAY),
    PointData("17", K.OIL_HOLE, "feed pawl and ratchet", (0.235, 0.80), _SUMP, quantity="2 drops", interval=_WEEK),
    PointData("18", K.FLIP_LID_CUP, "pinion shaft, front", (0.70, 0.62), _SUMP, "gear", "cup full", _DAY,
        part="OIL-14"),
    PointData("19", K.FLIP_LID_CUP, "pinion shaft, rear", (0.76, 0.62), _SUMP, "gear", "cup full", _DAY,
        part="OIL-14"),
    PointData("20", K.RESERVOIR, "gearbox", (0.72, 0.76), "SAE 90 gear oil", "gear-heavy", "3 qt", "drain yearly"),
    PointData("21", K.FLIP_LID_WICK, "clutch pulley bush", (0.83, 0.67), "150 SUS machine oil", quantity="cup full",
        interval=_WEEK),
    PointData("22", K.GREASE_NIPPLE, "motor bearings", (0.885, 0.86), "cup grease", "grease", "two strokes",
        "yearly"),
    PointData("23", K.OIL_HOLE, "ram positioning bevels", (0.50, 0.265), _SUMP, "gear", "5 drops",
        "when the stroke is set", hidden_by="RAM.position"),
    PointData("24", K.BY_HAND, "table support foot", (0.145, 0.93), "machine oil, medium", quantity="wipe",
        interval=_DAY, proof=P.NOT_NEEDED),
)

LATHE = (
    PointData("1", K.FLIP_LID_WICK, "front spindle bearing", (0.30, 0.23), "100 SUS spindle oil", "spindle",
        "cup full", _DAY, "wick up from the well", hidden_by="HS.capson"),
    PointData("2", K.FLIP_LID_WICK, "rear spindle bearing", (0.115, 0.23), "100 SUS spindle oil", "spindle",
        "cup full", _DAY, "wick; was missing when found", hidden_by="HS.capson"),
    PointData("3", K.OIL_HOLE, "thrust collars", (0.135, 0.33), "100 SUS spindle oil", "spindle", "5 drops", _DAY,
        hidden_by="HS.capson"),
    PointData("4", K.PLUG_SCREW, "sheave bore", (0.195, 0.26), "150 SUS machine oil", "central", "10 drops", _WEEK,
        hidden_by="HS.in"),
    PointData("5", K.PLUG_SCREW, "back gear quill", (0.235, 0.44), "300 SUS machine oil", "gear", "10 drops", _WEEK),
    PointData("6", K.BALL_OILER, "back gear eccentric, left", (0.125, 0.48), "300 SUS machine oil", "", "2 drops",
        _WEEK),
    PointData("7", K.BALL_OILER, "back gear eccentric, right", (0.285, 0.48), "300 SUS machine oil", "", "2 drops",
        _WEEK),
    PointData("8", K.FLIP_LID_CUP, "tumbler reverse studs", (0.10, 0.58), "300 SUS machine oil", "gear", "cup full",
        _DAY),
    PointData("9", K.GREASE_NIPPLE, "change gear stud", (0.10, 0.68), "soft grease", "grease", "one stroke",
        "each change"),
    PointData("10", K.RESERVOIR, "feed gearbox", (0.19, 0.68), "SAE 30", "gear", "0.8 L to the glass", "drain yearly",
        proof=P.NOT_NEEDED),
    PointData("A", K.PUMP, "apron plunger pump", (0.555, 0.75), "300 SUS way and gear oil", "way-hydraulic",
        "1.2 L in the apron", "drain yearly", gives="0.40", proof=P.PROVED, seen="2026-10-23",
        how="lifts oil in the open apron"),
    PointData("L", K.LINE, "pipe to the saddle", (0.515, 0.62), by="A", proof=P.PROVED, seen="2026-10-23",
        how="runs at its open end"),
    PointData("J", K.JUNCTION, "block under the saddle", (0.545, 0.565), by="L"),
    PointData("11m", K.METER, "meter, front way", (0.495, 0.56), by="J", dose="0.16"),
    PointData("11", K.OIL_HOLE, "saddle on the front way", (0.465, 0.555), "300 SUS way and gear oil", "way",
        "by the pump", _DAY, "drilled, new grooves", "11m", "SD.on", "SD-01"),
    PointData("12m", K.METER, "meter, rear way", (0.60, 0.56), by="J", dose="0.16", proof=P.BLOCKED,
        seen="2026-06-13", how="felt hard as wood, nothing passes"),
    PointData("12", K.OIL_HOLE, "saddle on the rear way", (0.635, 0.555), "300 SUS way and gear oil", "way",
        "by the pump", _DAY, "drilled, new grooves", "12m", "SD.on", "SD-01"),
    PointData("13m", K.METER, "meter, cross slide", (0.56, 0.515), by="J", dose="0.10"),
    PointData("13", K.OIL_HOLE, "cross slide dovetail", (0.555, 0.465), "300 SUS way and gear oil", "way",
        "by the pump", _DAY, "drilled", "13m", "XS.on"),
    PointData("14", K.BALL_OILER, "cross screw", (0.60, 0.48), "300 SUS machine oil", "", "2 drops", _DAY,
        proof=P.BLOCKED, seen="2025-12-13", how="blocked by paint"),
    PointData("15", K.BALL_OILER, "top slide screw", (0.625, 0.42), "300 SUS machine oil", "", "2 drops", _DAY),
    PointData("16", K.BALL_OILER, "apron handwheel shaft", (0.50, 0.70), "300 SUS machine oil", "", "2 drops", _DAY),
    PointData("17", K.BALL_OILER, "leadscrew bracket, right", (0.915, 0.70), "300 SUS machine oil", "", "2 drops",
        _DAY),
    PointData("18", K.FLIP_LID_CUP, "feed shaft bracket, right", (0.94, 0.66), "300 SUS machine oil", "", "cup full",
        _DAY),
    PointData("19", K.OIL_HOLE, "tailstock quill", (0.82, 0.28), "150 SUS machine oil", "", "3 drops", _DAY,
        proof=P.PROVED, seen="2026-03-21", how="wets the quill all round"),
    PointData("20", K.BY_HAND, "bed ways", (0.72, 0.60), "way lubricant", "way", "wipe", _DAY, proof=P.NOT_NEEDED),
    PointData("21", K.BY_HAND, "leadscrew", (0.76, 0.685), "300 SUS machine oil", "", "brush", _WEEK,
        proof=P.NOT_NEEDED),
    PointData("22", K.GREASE_NIPPLE, "countershaft bearings", (0.155, 0.84), "ball bearing grease", "grease",
        "one stroke", "yearly"),
)
