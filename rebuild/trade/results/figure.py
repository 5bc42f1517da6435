"""A *figure* is one thing to work out: what to type, and what comes back with its working.

One description serves the command line (``rebuild figure TOPIC``), the window's Figures page and
the making sheet. A module of ``trade/figures`` lists its figures in ``FIGURES``; the folder gathers them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.asked import Asked
from rebuild.trade.results.working import Working
from rebuild.trade.sizes.given import text_of
from rebuild.trade.sizes.number import read_number, short
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.trade.sizes.show import show_both

if TYPE_CHECKING:
    from rebuild.trade.drawing.sketch import Drawing

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
    signed: bool = field(default=False, kw_only=True)  # for LENGTH: a minus has a meaning here
    above: float | None = field(default=None, kw_only=True)  # the range of a NUMBER, in words when missed
    least: float | None = field(default=None, kw_only=True)
    most: float | None = field(default=None, kw_only=True)


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
    drawing: Drawing | None = None
    read: tuple[tuple[str, str], ...] = ()  # label, and what its text was read as, with its unit


class Entries:
    """The typed entries of one figure, read by kind; a missing or bad one names its label.

    ``comma`` is how ``1,500`` is read: True decimal, False thousands, None asks.
    """

    def __init__(
        self, inputs: tuple[Input, ...], typed: Mapping[str, str], comma: bool | None = None
    ) -> None:
        self._inputs = {item.name: item for item in inputs}
        unknown = sorted(set(typed) - set(self._inputs))
        if unknown:
            names = ", ".join(self._inputs)
            raise BadEntry("is not an entry here.", value=unknown[0], way_out=f"Entries: {names}.")
        self._typed = dict(typed)
        self.comma = comma
        self._read: dict[str, str] = {}

    @property
    def read(self) -> tuple[tuple[str, str], ...]:
        """Every size and number asked for, by label, as it was read."""
        return tuple((self._inputs[name].label, said) for name, said in self._read.items())

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

    def together(self, *names: str) -> bool:
        """Whether all of some entries are typed; raises BadEntry for one without the others."""
        given = [name for name in names if self.given(name)]
        if given and len(given) < len(names):
            missing = next(name for name in names if name not in given)
            raise BadEntry(
                f"is empty, and it goes with “{self._inputs[given[0]].label}”.",
                where=self._inputs[missing].label,
                way_out="Fill in both, or neither." if len(names) == 2 else "Fill in all of them, or none.",
            )
        return bool(given)

    def size(self, name: str) -> Size:
        """A length as typed; below nought only where a minus has a meaning."""
        item = self._inputs[name]
        size = parse_length(
            self.text(name), unit=item.unit or "mm", field=item.label, decimal_comma=self.comma
        )
        if size.mm < 0 and not item.signed:
            raise OutOfRange(
                "is below nought, and this size cannot be.",
                where=item.label,
                value=size.text,
                way_out="Type it without the minus.",
            )
        self._read[name] = show_both(size.mm, "in" if item.unit == "in" else "mm")
        return size

    def mm(self, name: str) -> float:
        """A length in mm."""
        return self.size(name).mm

    def number(self, name: str) -> float:
        """A plain number (decimal point or comma), within the entry's range and of a size that belongs to a shop.

        Raises:
            BadEntry, Ambiguous: as ``read_number``.
            OutOfRange: outside the entry's range, beyond ``LARGEST``, or so small that it can only be a slip.
        """
        item, typed = self._inputs[name], self.text(name)
        number = read_number(
            typed,
            item.label,
            item.unit,
            decimal_comma=self.comma,
            above=item.above,
            at_least=item.least,
            at_most=item.most,
        )
        if abs(number) > LARGEST or 0 < abs(number) < 1 / LARGEST:
            too = "large" if abs(number) > LARGEST else "small"
            raise OutOfRange(
                f"is too {too} for anything in a shop.",
                where=item.label,
                value=short(typed),
                way_out="Check the decimal point and the unit.",
            )
        self._read[name] = f"{number:.12g} {item.unit}".strip()
        return number

    def whole(self, name: str) -> int:
        """A whole number."""
        value = self._inputs[name].whole(self.text(name), decimal_comma=self.comma)
        self._read[name] = f"{value}"
        return value

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

    def run(self, typed: Mapping[str, str], *, comma: bool | None = None) -> Figured:
        """Work it out from typed text; ``comma`` as in ``Entries``.

        Raises:
            BadEntry: an entry is missing or wrong, or one of a pair is typed without the other.
            Ambiguous: an entry has two honest readings.
            OutOfRange: outside the table or rule, or what its kind can be.
        """
        entries = Entries(self.inputs, typed, comma)
        return replace(self.work(entries), read=entries.read)
