"""Figures of coil springs."""

from __future__ import annotations

from rebuild.trade.figures.inputs import FORCE, RATE, amount, choice, figured, length, maybe_length, number
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured
from rebuild.trade.sizes.amounts import LBF_N
from rebuild.trade.sizes.own_unit import own_unit
from rebuild.trade.springs.coil import (
    COMPRESSION,
    DEAD,
    EXTENSION,
    LBF_PER_IN,
    coil_spring,
    coils_for_rate,
    wires,
)

GROUP = "Springs"


def _spring(entries: Entries) -> Figured:
    worked = coil_spring(
        entries.choice("kind"), entries.mm("wire"), entries.mm("outside"), entries.number("coils"), entries.mm("moved"),
        wire=entries.choice("of"), ends=entries.choice("ends"), initial_N=entries.amount("initial"),
        free_mm=entries.mm("free") if entries.given("free") else None,
    )  # fmt: skip
    found = worked.value
    answers = (
        *_own_first(
            Answer("rate", found.rate_N_mm, "N/mm", 4),
            Answer("rate", found.rate_N_mm / LBF_PER_IN, "lbf/in", 3),
        ),
        *_own_first(Answer("force", found.force_N, "N", 2), Answer("force", found.force_N / LBF_N, "lbf", 2)),
        Answer("stress", found.stress_MPa, "MPa", 0, "with Wahl's factor"),
        Answer("index", found.index, "", 2, "mean diameter over wire"),
        Answer("active coils", found.active, "", 2, _ends_said(entries)),
        Answer("coils together", found.solid_mm, "mm", 2, "solid length or body"),
    )
    return figured(worked, answers)


def _ends_said(entries: Entries) -> str:
    """Which ends the coils were counted by: they are taken, not seen."""
    if entries.choice("kind") != COMPRESSION:
        return ""
    ends = entries.choice("ends")
    return f"ends taken as {ends}: {DEAD[ends]:g} dead coils; look, and choose"


def _own_first(metric: Answer, inch: Answer) -> tuple[Answer, Answer]:
    return (inch, metric) if own_unit() == "in" else (metric, inch)


def _coils(entries: Entries) -> Figured:
    ends = entries.choice("ends")
    worked = coils_for_rate(
        entries.amount("rate"),
        entries.mm("wire"),
        entries.mm("outside"),
        wire=entries.choice("of"),
        dead=DEAD[ends],
    )
    return figured(worked, (Answer("coils", worked.value, "", 2, f"with {DEAD[ends]:g} dead ones"),))


_OF = choice("of", "Wire of", wires())
_ENDS = choice("ends", "Ends", tuple(DEAD), note="Of a compression spring.")

FIGURES: tuple[Figure, ...] = (
    Figure(
        "spring",
        "Coil spring as measured",
        GROUP,
        (
            choice("kind", "Spring", (COMPRESSION, EXTENSION)),
            length("wire", "Wire"),
            length("outside", "Outside of the coil"),
            number(
                "coils",
                "Coils",
                above=0,
                most=1000,
                note="All turns of a compression spring, the body's of an extension spring.",
            ),
            length("moved", "Pressed or pulled by", "0"),
            _OF,
            _ENDS,
            amount(
                "initial",
                "Initial pull",
                FORCE,
                "0",
                least=0,
                most=100_000,
                note="Of an extension spring.",
            ),
            maybe_length("free", "Free length", note="To see that it is not pressed solid."),
        ),
        _spring,
        {"wire": "2", "outside": "18", "coils": "10", "moved": "10", "free": "60"},
        "Rate, force and stress from its sizes; modulus from memory.",
        inch_example={"wire": ".080", "outside": ".72", "coils": "10", "moved": ".4", "free": "2.4"},
    ),
    Figure(
        "spring-coils",
        "Coils for a rate",
        GROUP,
        (
            amount("rate", "Rate", RATE, above=0, most=1_000_000),
            length("wire", "Wire"),
            length("outside", "Outside of the coil"),
            _OF,
            _ENDS,
        ),
        _coils,
        {"rate": "4.84", "wire": "2.2", "outside": "18"},
        "How many coils another wire needs.",
        inch_example={"rate": "27.6", "wire": ".087", "outside": ".71"},
    ),
)
