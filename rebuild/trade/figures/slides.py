"""Figures of slides: dovetails over rollers, scraping to a size, taper gibs."""

from __future__ import annotations

from rebuild.trade.figures import drawn
from rebuild.trade.figures.inputs import choice, figured, length, number
from rebuild.trade.geometry.dovetail import (
    EXTERNAL,
    INTERNAL,
    over_rollers,
    scraping,
    taper_gib,
    width_from_rollers,
)
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine

GROUP = "Ways and geometry"


def _dovetail(entries: Entries) -> Figured:
    kind, known = entries.choice("kind"), entries.choice("known")
    mm = entries.mm("size")
    rest = entries.mm("height"), entries.number("angle"), entries.mm("roller")
    if known == "reading":
        worked = width_from_rollers(kind, mm, *rest)
    else:
        worked = over_rollers(kind, mm, *rest, at=known.removesuffix(" width"))
    found, slack = worked.value, entries.mm("allowed")
    words = "over rollers" if kind == EXTERNAL else "between rollers"
    answers = (
        Answer(words, found.rollers_mm, "mm", 4),
        Answer("narrow width", found.narrow_mm, "mm", 4, "at the sharp corners"),
        Answer("wide width", found.wide_mm, "mm", 4, "at the sharp corners"),
        Answer("rollers touch at", found.touch_mm, "mm", 2, "above the flat they lie on"),
    )
    spec = SpecLine(
        words, found.rollers_mm, found.rollers_mm - slack, found.rollers_mm + slack, "dovetail over rollers"
    )
    drawing = drawn.dovetail(found, kind, *rest)
    return figured(worked, answers, (spec,), drawing=drawing)


def _scraping(entries: Entries) -> Figured:
    worked = scraping(
        entries.choice("kind"), entries.mm("now"), entries.mm("wanted"), entries.number("angle")
    )
    found = worked.value
    answers = (
        Answer("each of both flanks", found.each_flank_mm, "mm", 4, "square to the flank"),
        Answer("or one flank alone", found.one_flank_mm, "mm", 4, "square to the flank"),
        Answer("or the flat the rollers lie on", found.base_mm, "mm", 4),
    )
    return figured(worked, answers)


def _gib(entries: Entries) -> Figured:
    worked = taper_gib(
        entries.mm("play"),
        entries.number("taper"),
        entries.mm("length"),
        entries.mm("thin"),
        entries.number("angle"),
    )
    found = worked.value
    answers = (
        Answer("further in by", found.advance_mm, "mm", 2),
        Answer("or a shim of", found.shim_mm, "mm", 3, "behind the gib, square to the flank"),
        Answer("thick end", found.thick_mm, "mm", 3),
    )
    return figured(worked, answers)


_KIND = choice("kind", "Dovetail", (EXTERNAL, INTERNAL), note="External: rollers outside it.")
_ANGLE = number("angle", "Angle", "60", unit="°", note="Between flank and flat.", above=0, most=90)

FIGURES: tuple[Figure, ...] = (
    Figure(
        "dovetail",
        "Dovetail over rollers",
        GROUP,
        (
            _KIND,
            choice("known", "Known is the", ("narrow width", "wide width", "reading")),
            length("size", "Its size"),
            length("height", "Height"),
            _ANGLE,
            length("roller", "Rollers"),
            length("allowed", "Allowed either way", "0.02"),
        ),
        _dovetail,
        {"size": "40", "height": "20", "roller": "10"},
        "From a width to the rollers, and from the rollers to the widths.",
    ),
    Figure(
        "dovetail-scraping",
        "Scraping a dovetail to size",
        GROUP,
        (_KIND, length("now", "Over rollers now"), length("wanted", "Wanted"), _ANGLE),
        _scraping,
        {"now": "67.40", "wanted": "67.32"},
        "How deep to scrape flanks or flat.",
    ),
    Figure(
        "taper-gib",
        "Taper gib",
        GROUP,
        (
            length("play", "Side play of the slide"),
            number("taper", "Taper, one in", "60", above=0, most=1000),
            length("length", "Length of the gib"),
            length("thin", "Thin end"),
            number("angle", "Angle of the flank", "60", unit="°", above=0, most=90),
        ),
        _gib,
        {"play": "0.1", "length": "300", "thin": "6"},
        "How far in it goes for the play, and the shim instead.",
    ),
)
