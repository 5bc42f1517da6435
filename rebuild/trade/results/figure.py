"""A *figure* is one thing to work out: what to type, and what comes back with its working.

One description serves the command line (``rebuild figure TOPIC``), the window's Figures page and
the making sheet. A module of ``trade/figures`` lists its figures in ``FIGURES``; the folder gathers them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.asked import Asked
from rebuild.trade.results.working import Working
from rebuild.trade.sizes.given import text_of
from rebuild.trade.sizes.quantity import Size, parse_length

#: No plain number of a figure is larger than this, nor, unless zero, smaller than one over it.
LARGEST = 1e9


class InputKind(StrEnum):
    """How an entry is typed and checked."""

    LENGTH = "length"  # any size quantity.parse_length takes
    NUMBER = "number"  # a plain number in the input's unit
    WHOLE = "whole number"
    CHOICE = "choice"
    TEXT = "text"


@dataclass(frozen=True, slots=True)
class Input(Asked):
    """One entry of a figure: ``name`` is the command-line word, ``label`` what the page shows."""

    kind: InputKind
    default: str = ""
    unit: str = ""  # for LENGTH: the unit of a bare number (mm or in); for NUMBER: shown only
    choices: tuple[str, ...] = ()
    required: bool = field(default=True, kw_only=True)


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


class Entries:
    """The typed entries of one figure, read by kind; a missing or bad one names its label."""

    def __init__(self, inputs: tuple[Input, ...], typed: Mapping[str, str]) -> None:
        self._inputs = {item.name: item for item in inputs}
        unknown = sorted(set(typed) - set(self._inputs))
        if unknown:
            names = ", ".join(self._inputs)
            raise BadEntry("is not an entry here.", value=unknown[0], way_out=f"Entries: {names}.")
        self._typed = dict(typed)

    def text(self, name: str) -> str:
        """The typed text, or the default; raises BadEntry when required and empty."""
        item = self._inputs[name]
        typed = text_of(item.label, self._typed.get(name, "")).strip() or item.default
        if not typed and item.required:
            raise BadEntry("is not filled in.", where=item.label, way_out=item.help or "Type a value.")
        return typed

    def given(self, name: str) -> bool:
        """Whether anything is typed or defaulted for this entry."""
        return bool(self._typed.get(name, "").strip() or self._inputs[name].default)

    def size(self, name: str) -> Size:
        """A length as typed."""
        item = self._inputs[name]
        return parse_length(self.text(name), unit=item.unit or "mm", field=item.label)

    def mm(self, name: str) -> float:
        """A length in mm."""
        return self.size(name).mm

    def number(self, name: str) -> float:
        """A plain number (decimal point or comma) of a size that belongs to a shop.

        Raises:
            BadEntry: not a number.
            OutOfRange: beyond ``LARGEST``, or so small that it can only be a slip.
        """
        item, typed = self._inputs[name], self.text(name)
        number = item.number(typed)
        if abs(number) > LARGEST or 0 < abs(number) < 1 / LARGEST:
            too = "large" if abs(number) > LARGEST else "small"
            raise OutOfRange(
                f"is too {too} for anything in a shop.",
                where=item.label,
                value=typed if len(typed) <= 30 else typed[:29] + "…",
                way_out="Check the decimal point and the unit.",
            )
        return number

    def whole(self, name: str) -> int:
        """A whole number."""
        return self._inputs[name].whole(self.text(name))

    def choice(self, name: str) -> str:
        """One of the listed choices."""
        item = self._inputs[name]
        return item.one_of(self.text(name), item.choices)


@dataclass(frozen=True, slots=True)
class Figure:
    """One thing to work out. ``topic`` is the command-line word; ``example`` fills the page at first."""

    topic: str
    title: str
    group: str
    inputs: tuple[Input, ...]
    work: Callable[[Entries], Figured]
    example: Mapping[str, str] = field(default_factory=dict)
    about: str = ""

    def run(self, typed: Mapping[str, str]) -> Figured:
        """Work it out from typed text.

        Raises:
            BadEntry: an entry is missing or wrong.
            OutOfRange: outside the table or rule.
        """
        return self.work(Entries(self.inputs, typed))
