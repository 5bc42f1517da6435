"""Figures of belts and whole spindle drives."""

from __future__ import annotations

from rebuild.errors import BadEntry
from rebuild.trade.drives.belts import CROSSED, OPEN, belt_length, centres_for
from rebuild.trade.drives.spindle_speeds import Pair, spindle_speeds
from rebuild.trade.figures import drawn
from rebuild.trade.figures.inputs import choice, figured, length, maybe_length, number, text
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured
from rebuild.trade.sizes.number import read_number
from rebuild.trade.sizes.typed_text import short

GROUP = "Belts and drives"
_WAYS = "Type driver/driven of each with spaces between, as 140/60 100/100."


def _belt(entries: Entries) -> Figured:
    first, second, way = entries.mm("driver"), entries.mm("driven"), entries.choice("way")
    if entries.given("length") and entries.given("centres"):
        raise BadEntry(
            "is one too many beside the centres.",
            where="Length of the belt",
            way_out="Leave one of them empty.",
        )
    if entries.given("length"):
        worked = centres_for(first, second, entries.mm("length"), way)
    else:
        worked = belt_length(first, second, entries.mm("centres"), way)
    found = worked.value
    answers = (
        Answer("length of the belt", found.length_mm, "mm", 1, "along the line it runs at"),
        Answer("centres", found.centres_mm, "mm", 1),
        Answer("small pulley wrapped", found.small_arc_deg, "°", 1),
        Answer("large pulley wrapped", found.large_arc_deg, "°", 1),
        Answer("driven turns for one of the driver", found.ratio, "", 4, "slip not taken off"),
    )
    return figured(worked, answers, drawing=drawn.belt(found, first, second, way))


def _speeds(entries: Entries) -> Figured:
    worked = spindle_speeds(
        entries.number("motor"), _pairs(entries, "fixed", "Fixed pairs"), _pairs(entries, "steps", "Steps of the cone"),
        _pairs(entries, "back", "Back gear"),
    )  # fmt: skip
    answers = tuple(
        Answer(
            f"{one.step.driver:g}/{one.step.driven:g}{', back gear' if one.back_gear else ''}",
            one.rpm,
            "rpm",
            1,
        )
        for one in worked.value
    )
    return figured(worked, answers)


def _pairs(entries: Entries, name: str, label: str) -> tuple[Pair, ...]:
    if not entries.given(name):
        return ()
    made = []
    for word in entries.text(name).replace(";", " ").split():
        driver, slash, driven = word.partition("/")
        if not slash:
            raise BadEntry("is not driver/driven.", where=label, value=short(word), way_out=_WAYS)
        made.append(Pair(*(
            read_number(part, label, decimal_comma=entries.comma, above=0, at_most=100_000, ways=_WAYS)
            for part in (driver, driven)
        )))  # fmt: skip
    return tuple(made)


FIGURES: tuple[Figure, ...] = (
    Figure(
        "belt",
        "Belt over two pulleys",
        GROUP,
        (
            length("driver", "Driving pulley", note="Diameter the belt runs at."),
            length("driven", "Driven pulley"),
            maybe_length("centres", "Centres"),
            maybe_length("length", "Length of the belt", note="In place of the centres."),
            choice("way", "Belt", (OPEN, CROSSED)),
        ),
        _belt,
        {"driver": "105", "driven": "393", "centres": "697"},
        "Length for centres, or centres for a length; exact.",
    ),
    Figure(
        "spindle-speeds",
        "Spindle speeds of a drive",
        GROUP,
        (
            number("motor", "Motor", unit="rpm", above=0, most=100_000),
            text("fixed", "Fixed pairs", required=False, note="Driver/driven, as 60/180."),
            text("steps", "Steps of the cone", note="As 140/60 100/100 60/140."),
            text("back", "Back gear", required=False, note="Teeth, as 22/66 20/68; empty without one."),
        ),
        _speeds,
        {"motor": "1440", "fixed": "60/180", "steps": "140/60 100/100 60/140", "back": "22/66 20/68"},
        "Every speed, direct and in back gear.",
    ),
)
