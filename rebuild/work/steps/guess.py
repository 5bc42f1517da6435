"""Guess a step's kind from its first words, so that a typed line needs no second field."""

from __future__ import annotations

import re

from rebuild.words.steps import ConstraintKind, TaskKind

_WORDS: tuple[tuple[TaskKind, tuple[str, ...]], ...] = (
    (
        TaskKind.REMOVE,
        ("remove", "take off", "take out", "strip", "draw", "drive out", "lift off", "unscrew"),
    ),
    (TaskKind.STONE, ("stone",)),
    (TaskKind.TRIAL_FIT, ("trial fit", "try fit", "try on", "offer up")),
    (TaskKind.CLEAN, ("clean", "degrease", "de-rust", "derust", "wash", "soak")),
    (TaskKind.MEASURE, ("measure", "gauge", "mic ", "check runout")),
    (TaskKind.INSPECT, ("inspect", "look", "examine", "check", "blue")),
    (TaskKind.DECIDE, ("decide", "choose", "settle")),
    (TaskKind.SEND_OUT, ("send", "post ")),
    (TaskKind.BUY, ("buy", "order", "find a")),
    (TaskKind.MAKE, ("make", "turn", "mill", "bore", "cut", "machine", "remake", "drill")),
    (
        TaskKind.REWORK,
        ("rework", "ream", "scrape", "hone", "lap", "grind", "bush", "sleeve", "straighten", "weld"),
    ),
    (TaskKind.PAINT, ("paint", "prime", "fill", "mask")),
    (TaskKind.REFIT, ("refit", "fit", "press in", "assemble", "put on", "put back", "mount", "bolt", "pin")),
    (TaskKind.ADJUST, ("adjust", "set ", "preload", "tension")),
    (TaskKind.ALIGN, ("align", "level", "tram", "square")),
    (TaskKind.LUBRICATE, ("oil", "grease", "lubricate", "prove oil", "fill sump")),
    (TaskKind.COMMISSION, ("run", "commission", "test cut", "power")),
)


def kind_of_step(title: str) -> TaskKind:
    """The kind a step's first words speak of; *other* when they say nothing.

    >>> kind_of_step("Scrape the saddle").value
    'rework'
    """
    words = f"{title.strip().lower()} "
    for kind, starts in _WORDS:
        if words.startswith(starts):
            return kind
    return TaskKind.OTHER


_LIFT = re.compile(r"\b(?:hoist\w*|crane\w*|chain fall|gantry|sling\w*|two people)\b", re.IGNORECASE)


def asks_of_step(title: str) -> tuple[ConstraintKind, ...]:
    """What a step asks for by the words of its title: one that names a hoist is a lift.

    >>> [kind.value for kind in asks_of_step("Overarm off with the hoist")], asks_of_step("Lift pin out")
    (['needs two people or a hoist'], ())
    """
    return (ConstraintKind.TWO_PEOPLE,) if _LIFT.search(title) else ()
