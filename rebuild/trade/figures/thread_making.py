"""Figures for identifying, measuring and cutting threads; ``figures.threads`` lists them with its own."""

from __future__ import annotations

from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.results.working import Working, joined
from rebuild.trade.threads import groove, making, tap_drill, wires
from rebuild.trade.threads.designation import parse_designation
from rebuild.trade.threads.identify import identify
from rebuild.trade.threads.lookup import for_designation
from rebuild.trade.threads.pitch import parse_pitch
from rebuild.trade.threads.sizes import Side, ThreadLimits

GROUP = "Threads"
THREAD = Input(
    "thread",
    "Thread",
    InputKind.TEXT,
    help="Type it as 3/8-16 UNC-2B, M8x1.25, 7/16-10 LH ACME, 1/4 BSW, 2 BA.",
)
_SIDE = Input("side", "Screw or nut", InputKind.CHOICE, "external", choices=("external", "internal"))
_ANGLES = {"not seen": None, "60": 60.0, "55": 55.0, "47.5": 47.5, "30": 30.0, "29": 29.0}


def _identify(entries: Entries) -> Figured:
    worked = identify(
        entries.mm("diameter"),
        parse_pitch(entries.text("pitch")),
        internal=entries.choice("side") == "internal",
        worn=entries.choice("worn") == "yes",
        included_deg=_ANGLES[entries.choice("angle")],
    )
    lines = [
        Answer(
            item.designation,
            item.verdict,
            note=f"diameter {item.diameter_off_mm:+.3f} mm from basic, pitch {item.pitch_off_percent:+.2f} %, "
            f"flanks {item.included_deg:g}°",
        )
        for item in worked.value.candidates
    ] or [Answer("no candidate", "none", note="No thread carried here comes near; measure again.")]
    twins = [Answer("near twin", line) for line in worked.value.twins]
    return Figured((*lines, *twins), worked.working)


def _over_wires(entries: Entries) -> Figured:
    thread = parse_designation(entries.text("thread"))
    limits = for_designation(entries.text("thread"), Side.EXTERNAL)
    found, P = limits.value, thread.pitch_mm
    sizes = wires.wire_sizes(thread.system, P, found.basic_pitch_diameter_mm, thread.starts)
    wire = entries.mm("wire") if entries.given("wire") else sizes.value.best_mm
    answers = [
        Answer(
            "best wire",
            sizes.value.best_mm,
            "mm",
            note="with the lead angle" if sizes.value.lead_angle_in_best else "without the lead angle",
        ),
        *(
            (Answer("best wire, lead angle left out", sizes.value.plain_best_mm, "mm"),)
            if sizes.value.lead_angle_in_best
            else ()
        ),
        Answer("smallest wire", sizes.value.smallest_mm, "mm"),
        Answer("largest wire", sizes.value.largest_mm, "mm"),
        Answer("wire used", wire, "mm"),
    ]
    workings: list[Working] = [sizes.working]
    specs: tuple[SpecLine, ...] = ()
    if entries.given("reading"):
        back = wires.pitch_diameter(thread.system, entries.mm("reading"), P, wire, thread.starts)
        answers.append(
            Answer("pitch diameter", back.value.pitch_diameter_mm, "mm", note=_place(back.value, found))
        )
        workings.append(back.working)
    else:
        ends = []
        for word, value in (
            ("least", found.pitch_diameter.low_mm),
            ("greatest", found.pitch_diameter.high_mm),
        ):
            if value is not None:
                there = wires.over_wires(thread.system, value, P, wire, thread.starts)
                ends.append(there.value.over_wires_mm)
                answers.append(Answer(f"over wires, {word}", ends[-1], "mm"))
                workings.append(there.working)
        label = f"{found.designation} over {wire:.4f} mm wires"
        specs = (SpecLine(label, None, ends[0], ends[-1], found.designation),)
    return Figured(
        tuple(answers), joined(f"Over wires: {found.designation}", (*workings, limits.working)), specs
    )


def _place(reading: wires.WireReading, found: ThreadLimits) -> str:
    low, high = found.pitch_diameter.low_mm, found.pitch_diameter.high_mm
    if low is not None and reading.pitch_diameter_mm < low:
        return f"below {found.designation} by {low - reading.pitch_diameter_mm:.4f} mm"
    if high is not None and reading.pitch_diameter_mm > high:
        return f"above {found.designation} by {reading.pitch_diameter_mm - high:.4f} mm"
    return f"within {found.designation}"


def _tap_drill(entries: Entries) -> Figured:
    percent = entries.number("percent") if entries.given("percent") else None
    worked = tap_drill.tap_drill(entries.text("thread"), percent, entries.choice("convention"))
    value = worked.value
    lines = [Answer("hole", value.hole_mm, "mm", note=f"{value.percent:g} % of {value.hundred}")]
    for choice in value.choices:
        place = "inside" if choice.within_limits else "outside"
        shares = choice.shares
        lines.append(Answer(choice.drill.name, choice.drill.mm, "mm", note=f"{shares}; {place} the limits"))
    spec = SpecLine(
        f"{value.designation} tapping hole",
        value.hole_mm,
        value.minor_low_mm,
        value.minor_high_mm,
        value.designation,
    )
    return Figured(tuple(lines), worked.working, (spec,))


def _nut_bore(entries: Entries) -> Figured:
    worked = making.nut_bore(entries.text("thread"))
    low, high, name = worked.value.low_mm, worked.value.high_mm, worked.value.designation
    answers = (Answer("bore, least", low, "mm"), Answer("bore, greatest", high, "mm"))
    return Figured(answers, worked.working, (SpecLine(f"{name} nut bore", None, low, high, name),))


def _pitch_limits(entries: Entries) -> tuple[float, float] | None:
    if not entries.given("pitch_low") and not entries.given("pitch_high"):
        return None
    return entries.mm("pitch_low"), entries.mm("pitch_high")


def _nose(entries: Entries) -> groove.Nose | None:
    if entries.given("flat"):
        return groove.Nose(flat_mm=entries.mm("flat"))
    return groove.Nose(radius_mm=entries.mm("radius")) if entries.given("radius") else None


def _nose_answers(v: making.SinglePoint) -> tuple[Answer, ...]:
    """The nose the depth is for; the form's other nose with a depth of its own."""
    if v.nose.radius_mm or not v.depth_rounded_mm:
        word, size = ("radius", v.nose.radius_mm) if v.nose.radius_mm else ("flat", v.nose.flat_mm)
        return (Answer("tool nose radius" if word == "radius" else "tool flat", size, "mm"),)
    return (
        Answer("tool flat", v.nose.flat_mm, "mm"),
        Answer(
            "depth with a rounded nose",
            v.depth_rounded_mm,
            "mm",
            note=f"nose radius {v.tool_radius_mm:.3f} mm",
        ),
    )


def _single_point(entries: Entries) -> Figured:
    worked = making.single_point(
        entries.text("thread"),
        entries.choice("side"),
        pitch_mm=_pitch_limits(entries),
        start_mm=entries.mm("start") if entries.given("start") else None,
        nose=_nose(entries),
    )
    v = worked.value
    steps = groove.passes(v.depth_mm)
    shown = ", ".join(f"{depth:.2f}" for depth in steps.depths_mm)
    start = "turn to" if v.side is Side.EXTERNAL else "bore to"
    answers = (
        Answer(f"{start}, least", v.start_low_mm, "mm"),
        Answer(f"{start}, greatest", v.start_high_mm, "mm"),
        Answer("counted from", v.from_mm, "mm"),
        Answer("to pitch diameter", v.first_mm, "mm", note="where it begins to pass"),
        Answer("tool angle", v.tool_angle_deg, "deg", 1),
        *_nose_answers(v),
        Answer("depth of cut", v.depth_mm, "mm", note="with that nose, from that size"),
        Answer("depth never more than", v.depth_most_mm, "mm"),
        Answer("passes", len(steps.depths_mm), note=f"depths {shown} mm, then {steps.spring} spring passes"),
        Answer("stop and measure at", steps.stop_mm, "mm", note="then bring it in by wires or the mate"),
        Answer(
            "compound from square to the axis", v.compound_deg, "deg", 2, "or its complement from the bed"
        ),
        Answer("feed along the compound", v.infeed_mm, "mm"),
        Answer("lead", v.lead_mm, "mm"),
        Answer("lead angle at the pitch diameter", v.lead_angle_deg, "deg", 2),
        Answer("lead angle at the root", v.lead_angle_root_deg, "deg", 2),
        Answer("turn between starts", v.index_deg, "deg", 1),
        Answer("hand", "left" if v.left_hand else "right"),
    )
    spec = SpecLine(f"{v.designation} {start}", None, v.start_low_mm, v.start_high_mm, v.designation)
    return Figured(answers, worked.working, (spec,), cautions=worked.working.cautions())


MAKING: tuple[Figure, ...] = (
    Figure(
        "identify-thread",
        "What thread is this",
        GROUP,
        (
            Input(
                "diameter",
                "Measured diameter",
                InputKind.LENGTH,
                unit="in",
                help="A screw's major, a nut's bore.",
            ),
            Input("pitch", "Measured pitch", InputKind.TEXT, help="Type it as 12 tpi or 1.25 mm."),
            _SIDE,
            Input("worn", "Crests worn", InputKind.CHOICE, "no", choices=("no", "yes")),
            Input("angle", "Flank angle", InputKind.CHOICE, "not seen", "deg", tuple(_ANGLES)),
        ),
        _identify,
        {"diameter": "0.495", "pitch": "12 tpi"},
    ),
    Figure(
        "over-wires",
        "Over three wires",
        GROUP,
        (
            THREAD,
            Input("wire", "Wire", InputKind.LENGTH, unit="in", required=False, help="Empty: the best wire."),
            Input(
                "reading",
                "Reading over wires",
                InputKind.LENGTH,
                unit="in",
                required=False,
                help="Empty: the reading wanted.",
            ),
        ),
        _over_wires,
        {"thread": "7/16-10 ACME"},
        "What to read over wires, or the pitch diameter a reading means; the lead angle taken in where it matters.",
    ),
    Figure(
        "tap-drill",
        "Tap drill",
        GROUP,
        (
            THREAD,
            Input("percent", "Percent of thread", InputKind.NUMBER, unit="%", required=False),
            Input("convention", "100 % is", InputKind.CHOICE, tap_drill.OLDER, choices=tap_drill.CONVENTIONS),
        ),
        _tap_drill,
        {"thread": "1/4-20 UNC"},
    ),
    Figure("nut-bore", "Bore before threading", GROUP, (THREAD,), _nut_bore, {"thread": "1-8 ACME"}),
    Figure(
        "single-point",
        "Single-point threading",
        GROUP,
        (
            THREAD,
            _SIDE,
            Input(
                "start",
                "Outside or bore as made",
                InputKind.LENGTH,
                unit="in",
                required=False,
                help="Empty: its limit with most metal.",
            ),
            Input("pitch_low", "Pitch diameter, least", InputKind.LENGTH, unit="in", required=False),
            Input("pitch_high", "Pitch diameter, greatest", InputKind.LENGTH, unit="in", required=False),
            Input("flat", "Tool flat as ground", InputKind.LENGTH, unit="in", required=False),
            Input("radius", "Tool nose radius as ground", InputKind.LENGTH, unit="in", required=False),
        ),
        _single_point,
        {"thread": "7/16-10 LH ACME", "side": "internal"},
    ),
)
