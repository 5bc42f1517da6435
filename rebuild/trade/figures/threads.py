"""Figures for screw threads (see ``rebuild.trade.results.figure``)."""

from __future__ import annotations

from rebuild.errors import BadEntry
from rebuild.trade.figures.thread_making import GROUP, MAKING, THREAD
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine, Zone
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.results.working import Worked, joined
from rebuild.trade.threads import acme, ba, stub_acme, trapezoidal, whitworth
from rebuild.trade.threads.lookup import for_designation
from rebuild.trade.threads.sizes import Side, ThreadLimits

_STARTS = Input("starts", "Starts", InputKind.WHOLE, "1")


def _limit_answers(found: ThreadLimits) -> tuple[Answer, ...]:
    who = "screw" if found.side is Side.EXTERNAL else "nut"
    lines = []
    for name, band in found.bands():
        text = band.text(found.decimals)
        for word, value in (("least", band.low_mm), ("greatest", band.high_mm)):
            if value is not None:
                lines.append(Answer(f"{who} {name}, {word}", value, "mm", note=text))
    if found.rounded_root_minor_mm is not None:
        note = "the root rounded as it must be (UNR); the other is for a flat root"
        lines.append(
            Answer(
                f"{who} minor diameter, greatest, rounded root", found.rounded_root_minor_mm, "mm", note=note
            )
        )
    return tuple(lines)


def _specs(found: ThreadLimits) -> tuple[SpecLine, ...]:
    who = "screw" if found.side is Side.EXTERNAL else "nut"
    return tuple(
        SpecLine(f"{found.designation} {who}, {name}", None, band.low_mm, band.high_mm, found.designation)
        for name, band in found.bands()
    )


def _zone(found: ThreadLimits) -> Zone:
    """The pitch diameter's zone about the basic pitch diameter."""
    low, high = found.pitch_diameter.low_mm, found.pitch_diameter.high_mm
    basic = found.basic_pitch_diameter_mm
    role = "shaft" if found.side is Side.EXTERNAL else "hole"
    return Zone(f"{found.thread_class} pitch diameter", (low or basic) - basic, (high or basic) - basic, role)


def _figured(title: str, *parts: Worked[ThreadLimits]) -> Figured:
    values = [part.value for part in parts]
    angle = Answer("lead angle at the pitch diameter", values[0].lead_angle_deg, "deg", 2)
    return Figured(
        answers=(*(line for value in values for line in _limit_answers(value)), angle),
        working=joined(title, (part.working for part in parts)),
        specs=tuple(line for value in values for line in _specs(value)),
        zones=tuple(_zone(value) for value in values),
    )


def _thread(entries: Entries) -> Figured:
    text, side = entries.text("thread"), entries.choice("side")
    sides = (Side.EXTERNAL, Side.INTERNAL) if side == "both" else (Side(side),)
    return _figured(f"Limits of {text}", *(for_designation(text, part) for part in sides))


def _acme(entries: Entries) -> Figured:
    limits = stub_acme.limits if entries.choice("form") == "stub" else acme.limits
    size, tpi = entries.size("diameter").mm / 25.4, entries.number("tpi")
    cls, starts = entries.choice("class"), entries.whole("starts")
    both = [limits(size, tpi, cls, side=side, starts=starts) for side in (Side.EXTERNAL, Side.INTERNAL)]
    return _figured(f"Limits of {both[0].value.designation}", *both)


def _trapezoidal(entries: Entries) -> Figured:
    d, P, starts = entries.mm("diameter"), entries.mm("pitch"), entries.whole("starts")
    both = [trapezoidal.limits(d, P, entries.choice(name), starts) for name in ("screw", "nut")]
    return _figured(f"Limits of Tr {d:g}x{P:g}", *both)


def _whitworth(entries: Entries) -> Figured:
    size, series = entries.size("diameter").mm / 25.4, entries.choice("series")
    if entries.given("tpi"):
        tpi = entries.number("tpi")
    elif series == "other":
        raise BadEntry("is needed for a special pitch.", where="Threads per inch", way_out="Type it as 16.")
    else:
        tpi = whitworth.tpi_for(size, series)
    screw = whitworth.limits(size, tpi, entries.choice("bolt"), side=Side.EXTERNAL)
    nut = whitworth.limits(size, tpi, entries.choice("nut"), side=Side.INTERNAL)
    return _figured(f"Limits of {screw.value.designation}", screw, nut)


def _ba(entries: Entries) -> Figured:
    number, cls = entries.whole("number"), entries.choice("bolt")
    both = [ba.limits(number, cls, side=side) for side in (Side.EXTERNAL, Side.INTERNAL)]
    return _figured(f"Limits of {number} BA", *both)


FIGURES: tuple[Figure, ...] = (
    Figure(
        "thread",
        "Limits of a thread",
        GROUP,
        (
            THREAD,
            Input("side", "Screw or nut", InputKind.CHOICE, "both", choices=("both", "external", "internal")),
        ),
        _thread,
        {"thread": "3/8-16 UNC"},
        "Any thread by its designation; both sides with their usual classes unless one is written.",
    ),
    Figure(
        "acme",
        "Acme thread",
        GROUP,
        (
            Input("diameter", "Nominal diameter", InputKind.LENGTH, unit="in"),
            Input("tpi", "Threads per inch", InputKind.NUMBER),
            Input("class", "Class", InputKind.CHOICE, "2G", choices=acme.CLASSES),
            Input("form", "Form", InputKind.CHOICE, "general", choices=("general", "stub")),
            _STARTS,
        ),
        _acme,
        {"diameter": "7/16", "tpi": "10"},
        "General purpose and stub Acme, standard pairs and any other.",
    ),
    Figure(
        "trapezoidal",
        "ISO trapezoidal thread",
        GROUP,
        (
            Input("diameter", "Nominal diameter", InputKind.LENGTH, unit="mm"),
            Input("pitch", "Pitch", InputKind.LENGTH, unit="mm"),
            Input("screw", "Screw class", InputKind.CHOICE, "7e", choices=("7e", "8e", "8c", "9c")),
            Input("nut", "Nut class", InputKind.CHOICE, "7H", choices=("7H", "8H", "9H")),
            _STARTS,
        ),
        _trapezoidal,
        {"diameter": "20", "pitch": "4"},
    ),
    Figure(
        "whitworth",
        "Whitworth thread",
        GROUP,
        (
            Input("diameter", "Nominal diameter", InputKind.LENGTH, unit="in"),
            Input("series", "Series", InputKind.CHOICE, "BSW", choices=("BSW", "BSF", "other")),
            Input(
                "tpi", "Threads per inch", InputKind.NUMBER, required=False, help="Only for other pitches."
            ),
            Input("bolt", "Bolt class", InputKind.CHOICE, "medium", choices=whitworth.BOLTS),
            Input("nut", "Nut class", InputKind.CHOICE, "normal", choices=whitworth.NUTS),
        ),
        _whitworth,
        {"diameter": "1/2"},
    ),
    Figure(
        "ba",
        "British Association thread",
        GROUP,
        (
            Input("number", "BA number", InputKind.WHOLE),
            Input("bolt", "Bolt class", InputKind.CHOICE, "normal", choices=ba.CLASSES),
        ),
        _ba,
        {"number": "2"},
    ),
    *MAKING,
)
