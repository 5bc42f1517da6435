"""Everything the program can work out, by topic: one list for the window and the command line.

A module here holds ``FIGURES: tuple[Figure, ...]``; it only reads entries, calls the engineering
modules and lays out answers. It is imported when first asked for.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from importlib import import_module

from rebuild.errors import BadEntry
from rebuild.trade.figures.shop_words import SHOP_NUMBERS, SHOP_WORDS
from rebuild.trade.results.figure import Figure
from rebuild.trade.sizes.given import text_of

MODULES = (
    "limits",
    "plain_limits",
    "verdicts",
    "threads",
    "pipes",
    "tapers",
    "cones",
    "woodruff",
    "seats",
    "joints",
    "springs",
    "bushes",
    "gears",
    "helical_and_bevel",
    "drives",
    "lubricants",
    "geometry",
    "alignment",
    "slides",
    "dividing",
    "shop",
    "lifting",
    "unit_conversion",
)


@cache
def all_figures() -> dict[str, Figure]:
    """Every figure by topic, in the order of ``MODULES``.

    >>> all_figures()["bush"].title
    'Bush between a housing and a shaft'
    """
    found: dict[str, Figure] = {}
    for name in MODULES:
        for figure in import_module(f"rebuild.trade.figures.{name}").FIGURES:
            found[figure.topic] = replace(
                figure,
                words=SHOP_WORDS.get(figure.topic, ""),
                numbers=SHOP_NUMBERS.get(figure.topic, ""),
            )
    return found


def figure(topic: str) -> Figure:
    """The figure of one topic.

    Raises:
        BadEntry: no such topic; the message lists them.

    >>> figure("bush").group
    'Bushes and bearings'
    """
    known = all_figures()
    if text_of("Topic", topic) not in known:
        raise BadEntry("is not a topic.", where="Topic", value=topic, way_out=f"Topics: {', '.join(known)}.")
    return known[topic]
