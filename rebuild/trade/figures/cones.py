"""The figure of any cone by measured sizes; ``GROUP`` is the tapers'."""

from __future__ import annotations

from rebuild.errors import BadEntry
from rebuild.trade.figures.inputs import figured, length, maybe_length, number
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured
from rebuild.trade.tapers.ratio import cone_from_ratio, cone_from_sizes

GROUP = "Tapers, pins and keys"


def _cone(entries: Entries) -> Figured:
    large, along = entries.mm("large"), entries.mm("length")
    if entries.given("small") == entries.given("ratio"):
        raise BadEntry(
            "is asked, or the taper, and not both.",
            where="Small diameter",
            way_out="Fill in one of the two.",
        )
    if entries.given("small"):
        worked = cone_from_sizes(large, entries.mm("small"), along)
    else:
        worked = cone_from_ratio(large, entries.number("ratio"), along)
    found = worked.value
    answers = [
        Answer("taper, one in", found.x, "", 4),
        Answer("half angle", found.half_angle_deg, "°", 4, "what a slide is set to"),
        Answer("included angle", 2 * found.half_angle_deg, "°", 4),
        Answer("taper per foot", 12 / found.x, "in", 5),
        Answer("small end", found.small_mm, "mm", 4),
    ]
    answers += [
        Answer(f"near 1:{one.x:.5g}", one.off_mm, "mm", 4, "larger at the small end than that one")
        for one in found.near
    ]
    return figured(worked, tuple(answers))


FIGURES: tuple[Figure, ...] = (
    Figure(
        "cone",
        "Any cone by its sizes",
        GROUP,
        (
            length("large", "Large diameter"),
            maybe_length("small", "Small diameter"),
            number("ratio", "or: taper, one in", required=False, above=0, most=10_000),
            length("length", "Distance between them"),
        ),
        _cone,
        {"large": "30", "small": "25.02", "length": "60"},
        "Spindle noses, collets and plugs: 1:x, angles, and the standard tapers near it.",
    ),
)
