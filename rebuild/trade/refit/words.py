"""The words of a refit step, from how a thing came off: what to do, and what to know when doing it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.trade.teardown.removal_words import way_words
from rebuild.words.teardown import FastenerKind, RemovalWay

#: What putting back is called, by how it came off; whatever is not named is simply refitted.
_PUT_BACK: dict[str, str] = {
    RemovalWay.DRIVEN: "Drive in",
    RemovalWay.PRESSED: "Press in",
    RemovalWay.LEFT_HAND: "Screw in, left hand,",
    RemovalWay.DRILLED: "Replace and fit",
    RemovalWay.CUT: "Replace and fit",
    RemovalWay.BROKEN: "Replace and fit",
    RemovalWay.MISSING: "Replace and fit",
}
#: What cannot be taken back: pins, rivets, presses (common practice; a step can be told otherwise).
_FINAL_WAYS = (RemovalWay.PRESSED,)
_FINAL_FASTENERS = (FastenerKind.TAPER_PIN, FastenerKind.RIVET, FastenerKind.DOWEL)
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
    broke: str = ""


def refit_title(off: CameOff) -> str:
    """What the step is called.

    >>> refit_title(CameOff("HS-09 pin", "driven out", "small end"))
    'Drive in HS-09 pin from the other end'
    """
    words = f"{_PUT_BACK.get(off.how, 'Refit')} {off.called}"
    return f"{words} from the other end" if off.how == RemovalWay.DRIVEN else words


def refit_note(off: CameOff) -> str:
    """What to know when doing it, one line each, in the order the hands ask for it.

    >>> print(refit_note(CameOff("HS-09 pin", "driven out", "small end", match_mark="two dots", place="bag 3")))
    Lay in: bag 3
    Came off driven out from the small end
    Marks: two dots
    """
    lines = [
        f"{_LAY_IN}{off.place}" if off.place else "",
        f"Came off {way_words(off.how, off.from_end)}",
        f"Sat: {off.orientation}" if off.orientation else "",
        f"Marks: {off.match_mark}" if off.match_mark else "",
        f"At: {off.location}" if off.location else "",
        *(f"Shims {words}" for words in off.shims),
        *(f"Holds: {words}" for words in off.fasteners),
        f"Hard: {off.hard}" if off.hard else "",
        f"Found: {off.found}" if off.found else "",
        f"Broke: {off.broke}" if off.broke else "",
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
    """The words that speak of two people or a hoist, or nothing.

    >>> wants_help(CameOff("ram", "lifted", hard="Heavy, hung on the crane")), wants_help(CameOff("cap", "lifted"))
    ('heavy', '')
    """
    found = _HELPER.search(" ".join((off.hard, off.tools, off.note, off.found)))
    return found[0].lower() if found else ""
