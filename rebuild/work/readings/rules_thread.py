"""Hold a reading of a thread that can be no pitch diameter of it: over the crests, or over wires and not said so."""

from __future__ import annotations

import re

from rebuild.errors import Implausible, RebuildError
from rebuild.trade.sizes.show import show_length
from rebuild.trade.threads.nesting import pitch_room
from rebuild.words.readings import FeatureKind
from rebuild.work.readings.read import Place, Read

#: Names of what is measured of a thread beside its pitch diameter.
_ANOTHER = re.compile(r"\b(?:major|minor|crest|outside|core|bore|root|thickness|depth|lead|drunk)", re.I)


def refuse_no_pitch_diameter(read: Read, place: Place) -> None:
    """Raise Implausible when the value lies outside what the thread named can have for a pitch diameter."""
    if place.kind is not FeatureKind.THREAD or not place.thread.strip() or _ANOTHER.search(place.feature):
        return
    try:
        room = pitch_room(place.thread)
    except RebuildError:
        return  # A square thread, or one written in words: nothing is known of it.
    if room.low_mm <= read.value_mm <= room.high_mm:
        return
    raise Implausible(
        f"can be no pitch diameter of {room.thread}, which lies between {show_length(room.low_mm, place.unit)} and "
        f"{show_length(room.high_mm, place.unit)}.",
        where=place.label,
        value=read.typed + read.behind,
        way_out="Say how it was taken behind the number (1.0064 over 0.0645 wires), measure crests on a feature of "
        "their own, or press Enter again to store it as it is.",
    )
