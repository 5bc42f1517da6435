"""Hold a reading of a thread that can be no pitch diameter of it: over the crests, or over wires and not said so.

And wires that are said to lie in a nut, or pins in a screw.
"""

from __future__ import annotations

import re

from sqlalchemy import select

from rebuild.errors import Implausible, RebuildError
from rebuild.model.records.fits import Fit
from rebuild.model.records.parts import Part
from rebuild.store.store import Tx
from rebuild.trade.making.roles import guess_shape
from rebuild.trade.sizes.show import show_length
from rebuild.trade.threads.designation import parse_designation
from rebuild.trade.threads.nesting import pitch_room
from rebuild.words.making import PartShape
from rebuild.words.readings import FeatureKind, TakenAs
from rebuild.work.readings.read import Place, Read

#: Names of what is measured of a thread beside its pitch diameter.
_ANOTHER = re.compile(r"\b(?:major|minor|crest|outside|core|bore|root|thickness|depth|lead|drunk)", re.I)

#: How far under its basic size, in pitches, a screw's crests usually lie: 0.05 by the standards of trapezoidal threads,
#: worn twice that. From memory.
_NEAR_CREST = 0.1


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
    found = parse_designation(place.thread)
    lost = (found.nominal_mm - read.value_mm) / found.pitch_mm
    if read.how is None and -_NEAR_CREST / 2 <= lost <= _NEAR_CREST:
        raise Implausible(
            f"looks like its outside diameter: {room.thread} is {show_length(found.nominal_mm, place.unit)} over the "
            f"crests, and its pitch diameter lies between {show_length(room.low_mm, place.unit)} and "
            f"{show_length(room.high_mm, place.unit)}.",
            where=place.label,
            value=read.typed + read.behind,
            way_out="Measure it over wires (1.0064 over 0.0645 wires), put the outside diameter on a feature of its "
            "own, or press Enter again to store it as pitch diameter all the same.",
        )
    raise Implausible(
        f"can be no pitch diameter of {room.thread}, which lies between {show_length(room.low_mm, place.unit)} and "
        f"{show_length(room.high_mm, place.unit)}.",
        where=place.label,
        value=read.typed + read.behind,
        way_out="Say how it was taken behind the number (1.0064 over 0.0645 wires), measure crests on a feature of "
        "their own, or press Enter again to store it as it is.",
    )


def refuse_wrong_side(tx: Tx, feature_id: int, read: Read, place: Place) -> None:
    """Raise Implausible when wires are said of an inside thread, or pins of an outside one."""
    if read.how is None or read.how.wire is None:
        return
    wires, inside = read.how.way is TakenAs.WIRES, _is_inside(tx, feature_id, place)
    if inside is None or inside is not wires:
        return
    told, way = (
        (
            "Wires are for an outside thread, and this one is inside: pins or balls go in it",
            "between 0.0577 pins",
        )
        if wires
        else ("Pins are for an inside thread, and this one is outside: wires go over it", "over 0.0577 wires")
    )
    raise Implausible(
        f"cannot be taken that way. {told}.",
        where=place.label,
        value=read.typed + read.behind,
        way_out=f"Put it on its mate, write it as {way}, or press Enter again to store it as it is.",
    )


def _is_inside(tx: Tx, feature_id: int, place: Place) -> bool | None:
    """Which side a thread is: by the fit it stands in, else by its part's name; None when nothing tells."""
    fit = tx.connection.execute(
        select(Fit.outer_id).where((Fit.outer_id == feature_id) | (Fit.inner_id == feature_id)).limit(1)
    ).first()
    if fit is not None:
        return bool(fit.outer_id == feature_id)
    name = tx.connection.execute(select(Part.name).where(Part.id == place.part_id)).scalar() or ""
    return {PartShape.NUT: True, PartShape.SCREW: False}.get(guess_shape(name))
