"""The words of a refit step, from how a thing came off: what to do, and what to know when doing it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

#: What putting back is called, by how it came off; whatever is not named is simply refitted.
_PUT_BACK = {
    "driven out": "Drive in", "pressed out": "Press in", "unscrewed left hand": "Screw in, left hand,",
    "drilled out": "Replace and fit", "cut": "Replace and fit", "broken off": "Replace and fit",
}  # fmt: skip
#: What cannot be taken back: pins, rivets, presses (common practice; a step can be told otherwise).
_FINAL_WAYS = ("pressed out",)
_FINAL_FASTENERS = ("taper pin", "rivet", "dowel")
_HELPER = re.compile(
    r"\b(?:two people|helper|hoist|crane|engine hoist|chain fall|heavy|lift together)\b", re.I
)


_LAY_IN = "Lay in: "


@dataclass(frozen=True, slots=True)
class CameOff:
    """What the log knows of one removal, in words."""

    called: str
    how: str
    from_end: str = ""
    orientation: str = ""
    match_mark: str = ""
    location: str = ""
    fasteners: Sequence[str] = ()
    fastener_kinds: Sequence[str] = ()
    shims: Sequence[str] = ()
    hard: str = ""
    found: str = ""
    tools: str = ""
    photo: str = ""
    place: str = ""
    note: str = ""


def refit_title(off: CameOff) -> str:
    """What the step is called.

    >>> refit_title(CameOff("HS-09 pin", "driven out", "small end"))
    'Drive in HS-09 pin from the other end'
    """
    words = f"{_PUT_BACK.get(off.how, 'Refit')} {off.called}"
    return f"{words} from the other end" if off.how == "driven out" else words


def refit_note(off: CameOff) -> str:
    """What to know when doing it, one line each, in the order the hands ask for it."""
    lines = [
        f"{_LAY_IN}{off.place}" if off.place else "",
        f"Came off {off.how}" + (f" from the {off.from_end}" if off.from_end else ""),
        f"Sat: {off.orientation}" if off.orientation else "",
        f"Marks: {off.match_mark}" if off.match_mark else "",
        f"At: {off.location}" if off.location else "",
        *(f"Shims {words}" for words in off.shims),
        *(f"Holds: {words}" for words in off.fasteners),
        f"Hard: {off.hard}" if off.hard else "",
        f"Found: {off.found}" if off.found else "",
        f"Photo: {off.photo}" if off.photo else "",
        off.note,
    ]
    return "\n".join(filter(None, lines))


def beyond_place(note: str) -> str:
    """The note of a step without its line of where the thing was put, for where the place of today is said.

    >>> beyond_place(refit_note(CameOff("cap", "lifted", place="bag 3", note="Lay in oil over night")))
    'Came off lifted\\nLay in oil over night'
    """
    return "\n".join(line for line in note.splitlines() if not line.startswith(_LAY_IN))


def is_final(off: CameOff) -> bool:
    """Whether putting it back cannot be undone: a press, a pin, a rivet.

    >>> is_final(CameOff("bush", "pressed out")), is_final(CameOff("cap", "lifted"))
    (True, False)
    """
    return off.how in _FINAL_WAYS or any(kind in _FINAL_FASTENERS for kind in off.fastener_kinds)


def wants_help(off: CameOff) -> str:
    """The words that speak of two people or a hoist, or nothing."""
    found = _HELPER.search(" ".join((off.hard, off.tools, off.note, off.found)))
    return found[0].lower() if found else ""
