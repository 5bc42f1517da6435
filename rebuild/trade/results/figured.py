"""What a figure gives back: its answers, its working, and what can be taken further."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rebuild.trade.results.in_inch import in_inch, words_in_inch
from rebuild.trade.results.working import Working

if TYPE_CHECKING:
    from rebuild.trade.drawing.sketch import Drawing


@dataclass(frozen=True, slots=True)
class Answer:
    """One line of the result. ``value`` is in ``unit``; lengths are in mm and shown in both units."""

    label: str
    value: float | int | str
    unit: str = ""
    decimals: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class SpecLine:
    """A set of limits that can be taken to a feature's spec or to a making sheet [mm]."""

    label: str
    nominal_mm: float | None
    low_mm: float | None
    high_mm: float | None
    origin: str


@dataclass(frozen=True, slots=True)
class HolesLine:
    """A circle of holes for a making sheet [mm]; the first angle from the x axis, counter-clockwise."""

    circle_mm: float
    holes: int
    first_deg: float
    hole_mm: float | None  # their diameter, where it was given
    places: str  # the coordinates in words


@dataclass(frozen=True, slots=True)
class Zone:
    """One tolerance zone of a picture: deviations from a common zero line [mm]."""

    label: str
    low_mm: float
    high_mm: float
    role: str  # "hole", "shaft", "limit" or "reading"


@dataclass(frozen=True, slots=True)
class Figured:
    """What a figure gives back: the lines, the working, and what can be taken further."""

    answers: tuple[Answer, ...]
    working: Working
    specs: tuple[SpecLine, ...] = ()
    zones: tuple[Zone, ...] = ()
    cautions: tuple[str, ...] = ()
    drawing: Drawing | None = None
    holes: HolesLine | None = None
    read: tuple[tuple[str, str], ...] = ()  # label, and what its text was read as, with its unit
    bare: tuple[str, ...] = ()  # the units that sizes typed without one were taken in
    not_taken: str = ""  # why nothing of it can be taken to a feature or a sheet
    unit: str = "mm"  # the unit said first: the machine's, or the one the sizes were typed in


def told_in_inch(figured: Figured) -> Figured:
    """The same answers with working, notes and cautions in inches first; the numbers stay as they are."""
    return replace(
        figured,
        answers=tuple(_in_inch(answer) for answer in figured.answers),
        working=in_inch(figured.working),
        cautions=tuple(words_in_inch(caution) for caution in figured.cautions),
    )


def _in_inch(answer: Answer) -> Answer:
    value = answer.value
    return replace(
        answer,
        value=words_in_inch(value) if isinstance(value, str) else value,
        note=words_in_inch(answer.note),
    )
