"""Figures of the dividing head and of holes on a circle."""

from __future__ import annotations

from dataclasses import replace

from rebuild.errors import OutOfRange
from rebuild.trade.figures import drawn
from rebuild.trade.figures.inputs import choice, figured, length, maybe_length, number, text, whole
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, HolesLine, SpecLine
from rebuild.trade.shop.dividing import MOST_CIRCLES, divide, divide_angle
from rebuild.trade.shop.hole_circle import HoleCircle, hole_circle
from rebuild.trade.sizes.number import read_whole
from rebuild.trade.sizes.own_unit import own_unit
from rebuild.trade.sizes.show import show_length

GROUP = "Dividing and hole circles"
_MOST_WHEELS = 20
_TAKEN = "taken as those at hand; type your own"
#: A plate of 24 to 66 holes as an old training text lists it; a usual set of wheels, from memory.
CIRCLES = "24 25 28 30 34 37 38 39 41 42 43 46 47 49 51 53 54 57 58 59 62 66"
WHEELS = "24 24 28 32 40 44 48 56 64 72 86 100"


def _wholes(entries: Entries, name: str, label: str, most: int) -> tuple[int, ...]:
    if not entries.given(name):
        return ()
    words = entries.text(name).replace(";", " ").split()
    if len(words) > most:
        raise OutOfRange(
            f"are more than {most}.",
            where=label,
            value=str(len(words)),
            way_out="Leave out what is not at hand.",
        )
    return tuple(
        read_whole(
            word,
            label,
            decimal_comma=entries.comma,
            at_least=2,
            at_most=1000,
            ways="Type numbers with spaces between.",
        )
        for word in words
    )


def _divide(entries: Entries) -> Figured:
    circles = _wholes(entries, "circles", "Hole circles", MOST_CIRCLES)
    worked = divide(
        entries.whole("divisions"),
        circles,
        entries.whole("ratio"),
        _wholes(entries, "wheels", "Change wheels", _MOST_WHEELS),
    )
    found = worked.value
    answers = [Answer("or" if at else "crank", one.text()) for at, one in enumerate(found.settings)]
    if found.drivers:
        train = " × ".join(f"{a}/{b}" for a, b in zip(found.drivers, found.driven, strict=True))
        answers.append(Answer("wheels", train, note="drivers on the spindle side"))
        answers.append(Answer("plate turns", "with the crank" if found.idler_with else "against the crank"))
        answers.append(Answer("of the wheels", entries.text("wheels"), note=_TAKEN))
    answers.append(Answer("of the circles", entries.text("circles"), note=_TAKEN))
    return figured(worked, tuple(answers))


def _angle(entries: Entries) -> Figured:
    worked = divide_angle(
        entries.number("angle"),
        _wholes(entries, "circles", "Hole circles", MOST_CIRCLES),
        entries.whole("ratio"),
    )
    answers = tuple(Answer(one.setting.text(), one.off_arcsec, "arcsec off", 1) for one in worked.value)
    return figured(worked, answers)


def _hole_circle(entries: Entries) -> Figured:
    from_corner = entries.choice("from") == "a datum"
    x, y = (entries.mm("x"), entries.mm("y")) if from_corner else (0.0, 0.0)
    worked = hole_circle(entries.mm("circle"), entries.whole("holes"), entries.number("first"), x, y)
    found, slack = worked.value, entries.mm("allowed")
    answers = [Answer("between neighbours", found.chord_mm, "mm", 4, "chord")] if len(found.holes) > 1 else []
    for hole in found.holes:
        answers.append(Answer(f"hole {hole.number}, x", hole.x_mm, "mm", 4, f"{hole.angle_deg:.4f}°"))
        answers.append(Answer(f"hole {hole.number}, y", hole.y_mm, "mm", 4))
    answers.append(Answer("allowed either way", slack, "mm", 3))
    circle = entries.mm("circle")
    sizes = [("pitch circle", circle)]
    sizes += [("between neighbours", found.chord_mm)] if len(found.holes) > 1 else []
    for hole in found.holes if from_corner else ():
        sizes += [(f"hole {hole.number}, x", hole.x_mm), (f"hole {hole.number}, y", hole.y_mm)]
    origin = f"{len(found.holes)} holes on a circle, from {entries.choice('from')}"
    specs = tuple(
        SpecLine(label, mm, mm - slack, mm + slack, origin) for label, mm in sizes if mm - slack > 0
    )
    whole_circle = HolesLine(
        circle,
        len(found.holes),
        entries.number("first"),
        entries.mm("hole") if entries.given("hole") else None,
        _places(found, entries.choice("from")),
    )
    drawing = drawn.hole_circle(found, circle)
    return replace(figured(worked, tuple(answers), specs, drawing=drawing), holes=whole_circle)


def _places(found: HoleCircle, datum: str) -> str:
    unit = own_unit()
    each = (
        f"{hole.number}: x {show_length(hole.x_mm, unit, 4)}, y {show_length(hole.y_mm, unit, 4)}"
        for hole in found.holes
    )
    return f"From {datum}: {'; '.join(each)}"


_CIRCLES = text("circles", "Hole circles", CIRCLES, note="Holes of the circles at hand.")
_RATIO = whole("ratio", "Turns of the crank for one of the spindle", "40")

FIGURES: tuple[Figure, ...] = (
    Figure(
        "dividing",
        "Dividing",
        GROUP,
        (
            whole("divisions", "Divisions"),
            _RATIO,
            _CIRCLES,
            text("wheels", "Change wheels", WHEELS, required=False, note="For the differential; at most 20."),
        ),
        _divide,
        {"divisions": "127"},
        "Plain on the circles at hand, differential where they do not do.",
    ),
    Figure(
        "dividing-angle",
        "Dividing by degrees",
        GROUP,
        (number("angle", "Angle", unit="°", above=0, most=360), _RATIO, _CIRCLES),
        _angle,
        {"angle": "15"},
        "The nearest settings, and how far off.",
    ),
    Figure(
        "hole-circle",
        "Holes on a circle",
        GROUP,
        (
            length("circle", "Pitch circle"),
            whole("holes", "Holes"),
            maybe_length("hole", "Diameter of a hole", note="For the making sheet."),
            number(
                "first",
                "First hole at",
                "0",
                unit="°",
                note="From the x axis, counter-clockwise.",
                least=-360,
                most=360,
            ),
            choice("from", "Coordinates from", ("the centre", "a datum")),
            length("x", "Centre from the datum, x", "0", signed=True),
            length("y", "Centre from the datum, y", "0", signed=True),
            length("allowed", "Allowed either way", "0.05"),
        ),
        _hole_circle,
        {"circle": "100", "holes": "6"},
        "Coordinates and the chord to check them by.",
        inch_example={"circle": "3", "holes": "6", "allowed": ".002"},
    ),
)
