"""Figures of pipe threads; ``GROUP`` is the threads'."""

from __future__ import annotations

from dataclasses import replace

from rebuild.trade.figures.inputs import choice, figured, length, number, text
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured
from rebuild.trade.results.likeness import answers_of
from rebuild.trade.results.working import Worked, joined
from rebuild.trade.threads.pipe import NPT, SYSTEMS, R, by_stand_off, pipe_thread
from rebuild.trade.threads.pipe_identify import identify_pipe_thread

GROUP = "Threads"
#: Why the page offers no feature for it.
_BY_GAUGE = (
    "Nothing of this is taken to a feature: a taper pipe thread has no limits of a diameter, it is judged by how far "
    "its gauge goes in by hand (Gauging a taper pipe thread). Name the feature by its thread, as “1/2 NPT”."
)
_NO_CLASS = (
    "Nothing of this is taken to a feature: these are basic sizes, and the limits of a parallel pipe thread "
    "(ISO 228-1, class A or B) are not held. Name the feature by its thread, as “G 1/2”, and gauge it."
)
_NONE = "Count the threads again, and try a 55° and a 60° gauge: 27 and 28, 11 and 11.5 are easily taken for another."


def _pipe(entries: Entries) -> Figured:
    worked = pipe_thread(entries.choice("kind"), entries.text("size"))
    found = worked.value
    answers = [
        Answer("threads per inch", found.tpi, "", 1),
        Answer("outside of the pipe" if found.system == NPT else "major", found.major_mm, "mm", 3),
        Answer("pitch diameter", found.pitch_diameter_mm, "mm", 3, "at the plane" if found.gauge_mm else ""),
        Answer("minor", found.minor_mm, "mm", 3),
    ]
    for label, mm in (
        ("gauge length, by hand", found.gauge_mm),
        ("full thread", found.useful_mm),
        ("drill", found.drill_mm),
    ):
        if mm is not None:
            answers.append(Answer(label, mm, "mm", 2))
    why = _BY_GAUGE if found.gauge_mm is not None else _NO_CLASS
    return replace(figured(worked, tuple(answers)), not_taken=why)


def _identify(entries: Entries) -> Figured:
    tpi = entries.number("tpi") if entries.given("tpi") else None
    worked = identify_pipe_thread(entries.mm("outside"), tpi, entries.mm("tolerance"))
    answers = answers_of([one.likeness for one in worked.value], _NONE)
    if tpi is None:
        answers += (
            Answer("to tell them apart", "count the threads", note="Over an inch, or with a thread gauge."),
        )
    return replace(figured(worked, answers), not_taken=_BY_GAUGE)


def _gauging(entries: Entries) -> Figured:
    thread = pipe_thread(entries.choice("kind"), entries.text("size"))
    off = by_stand_off(thread.value, entries.mm("stand-off"))
    worked = Worked(off.value, joined(off.working.title, (thread.working, off.working)))
    answers = (
        Answer(
            "off on the diameter", off.value, "mm", 4, "too large outside, too small inside, when positive"
        ),
        Answer("turns", entries.mm("stand-off") / thread.value.pitch_mm, "", 2),
    )
    return replace(figured(worked, answers), not_taken=_BY_GAUGE)


_SIZE = text("size", "Size", note="As 1/2 or 1 1/4.")

FIGURES: tuple[Figure, ...] = (
    Figure(
        "pipe-thread",
        "Pipe thread",
        GROUP,
        (choice("kind", "Kind", SYSTEMS), _SIZE),
        _pipe,
        {"kind": "NPT", "size": "1/2"},
        "G and R (55°) and NPT (60°): sizes, gauge length, drill.",
    ),
    Figure(
        "identify-pipe",
        "Which pipe thread",
        GROUP,
        (
            length("outside", "Outside over the crests"),
            number("tpi", "Threads per inch", above=0, most=100, required=False),
            length("tolerance", "Readings good to", "0.1"),
        ),
        _identify,
        {"outside": "20.8", "tpi": "14"},
        "From the outside and the pitch: G, R and NPT within a thread of the count, with how far each is off.",
        inch_example={"outside": ".825", "tpi": "14", "tolerance": ".004"},
    ),
    Figure(
        "pipe-gauging",
        "Gauging a taper pipe thread",
        GROUP,
        (
            choice("kind", "Kind", (R, NPT)),
            _SIZE,
            length("stand-off", "Gauge stands off", note="Short of the plane; minus past it.", signed=True),
        ),
        _gauging,
        {"kind": "NPT", "size": "1/2", "stand-off": "1.8"},
        "From the gauge's stand-off to the diameter.",
    ),
)
