"""A *figure* is one thing to work out: what to type, and what comes back with its working.

One description serves the command line (``rebuild figure TOPIC``), the window's Figures page and
the making sheet. A module of ``trade/figures`` lists its figures in ``FIGURES``; the folder gathers them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from rebuild.errors import Ambiguous, BadEntry, OutOfRange, RebuildError
from rebuild.trade.results.asked import Asked
from rebuild.trade.results.in_inch import in_inch, words_in_inch
from rebuild.trade.results.working import Working
from rebuild.trade.sizes.amount import in_amount_unit, read_amount
from rebuild.trade.sizes.given import text_of
from rebuild.trade.sizes.length_units import INCH_UNITS
from rebuild.trade.sizes.number import range_words, read_number
from rebuild.trade.sizes.own_unit import sizes_in
from rebuild.trade.sizes.product import read_product
from rebuild.trade.sizes.quantity import Size, is_bare, parse_length
from rebuild.trade.sizes.show import show_both

if TYPE_CHECKING:
    from rebuild.trade.drawing.sketch import Drawing


class InputKind(StrEnum):
    """How an entry is typed and checked."""

    LENGTH = "length"  # any size quantity.parse_length takes
    NUMBER = "number"  # a plain number in the input's unit
    WHOLE = "whole number"
    AMOUNT = "amount"  # a mass, force or rate with its unit: sizes.amount
    CHOICE = "choice"
    TEXT = "text"


@dataclass(frozen=True, slots=True)
class Input(Asked):
    """One entry of a figure: ``name`` is the command-line word, ``label`` what the page shows."""

    kind: InputKind
    default: str = ""
    unit: str = (
        ""  # for LENGTH: of a bare number (mm or in); for TEXT: of a bare size in it; NUMBER: shown only
    )
    choices: tuple[str, ...] = ()
    required: bool = field(default=True, kw_only=True)
    signed: bool = field(default=False, kw_only=True)  # for LENGTH: a minus has a meaning here
    quantity: str = field(default="", kw_only=True)  # for AMOUNT: which, of sizes.unit_tables
    inch_unit: str = field(default="", kw_only=True)  # for AMOUNT: of a bare number on an inch machine
    above: float | None = field(default=None, kw_only=True)  # the range of a NUMBER, in words when missed
    least: float | None = field(default=None, kw_only=True)
    most: float | None = field(default=None, kw_only=True)

    def unit_here(self, machine: str) -> str:
        """The unit of a bare number on a machine of this unit; empty: on none."""
        if self.kind is InputKind.AMOUNT:
            return self.inch_unit if machine == "in" and self.inch_unit else self.unit
        return machine or self.unit


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


class Entries:
    """The typed entries of one figure, read by kind; a missing or bad one names its label.

    ``comma`` is how ``1,500`` is read: True decimal, False thousands, None asks. ``unit`` is that of a typed size
    without one; empty: each entry's own. A default is always in its entry's own.
    """

    def __init__(
        self, inputs: tuple[Input, ...], typed: Mapping[str, str], comma: bool | None = None, unit: str = ""
    ) -> None:
        self._inputs = {item.name: item for item in inputs}
        unknown = sorted(set(typed) - set(self._inputs))
        if unknown:
            names = ", ".join(self._inputs)
            raise BadEntry("is not an entry here.", value=unknown[0], way_out=f"Entries: {names}.")
        self._typed = dict(typed)
        self.comma = comma
        self._unit = unit
        self._read: dict[str, str] = {}
        self._bare: dict[str, None] = {}

    @property
    def unit(self) -> str:
        """The unit of a typed size without one, or empty: each entry's own."""
        return self._unit

    @property
    def unit_typed(self) -> str:
        """``in`` when every length, mass and rate typed is of the inch system, by its entry's own unit if bare."""
        units = set()
        for name, text in self._typed.items():
            item = self._inputs[name]
            if not text_of(item.label, text).strip():
                continue
            try:
                if item.kind is InputKind.AMOUNT:
                    units.add(read_amount(text, item.quantity, item.unit, item.label).unit == item.inch_unit)
                if item.kind is not InputKind.LENGTH:
                    continue
                units.add(parse_length(text, item.unit or "mm", decimal_comma=self.comma).unit in INCH_UNITS)
            except RebuildError:
                continue  # told when the entry itself is read
        return "in" if units == {True} else "mm"

    @property
    def read(self) -> tuple[tuple[str, str], ...]:
        """Every size and number asked for, by label, as it was read."""
        return tuple((self._inputs[name].label, said) for name, said in self._read.items())

    @property
    def bare(self) -> tuple[str, ...]:
        """The units that sizes typed without one were taken in, each once."""
        return tuple(self._bare)

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

    def typed(self, name: str) -> bool:
        """Whether anything is typed for this entry."""
        return bool(self._typed.get(name, "").strip())

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
        size = self._length(name, self.text(name))
        if size.mm < 0 and not item.signed:
            raise OutOfRange(
                "is below nought, and this size cannot be.",
                where=item.label,
                value=size.text,
                way_out="Type it without the minus.",
            )
        self.echo(name, size)
        return size

    def sizes(self, name: str, mark: str = ";") -> tuple[Size, ...]:
        """Several lengths in one text, with ``mark`` between them; what was read is echoed."""
        sizes = tuple(
            self._length(name, part) for part in self.text(name).replace("×", "x").split(mark) if part.strip()
        )
        if not sizes:
            raise BadEntry("is not filled in.", where=self._inputs[name].label, way_out="Type a size.")
        self.echo(name, *sizes)
        return sizes

    def product(self, name: str) -> tuple[Size, ...]:
        """Lengths multiplied out in one text, as ``2 x 3 in``; what was read is echoed."""
        item, text = self._inputs[name], self.text(name)
        typed = bool(self._typed.get(name, "").strip())
        unit = (self._unit if typed else "") or item.unit or "mm"
        sizes = read_product(text, unit, item.label, decimal_comma=self.comma)
        if typed and all(is_bare(part) for part in text.replace("×", "x").split("x")):
            self._bare[unit] = None
        self.echo(name, *sizes)
        return sizes

    def echo(self, name: str, *sizes: Size) -> None:
        """Say what a text was read as, for a grammar of its own."""
        self._read[name] = "; ".join(
            show_both(size.mm, "in" if size.unit in INCH_UNITS else "mm") for size in sizes
        )

    def hear(self, name: str, text: str) -> None:
        """Say what a text was read as, in words of its own."""
        self._read[name] = text

    def length_in(self, name: str, part: str) -> Size:
        """One length within a text of a grammar of its own."""
        return self._length(name, part)

    def _length(self, name: str, text: str) -> Size:
        item = self._inputs[name]
        typed = bool(self._typed.get(name, "").strip())
        unit = (self._unit if typed else "") or item.unit or "mm"
        size = parse_length(text, unit=unit, field=item.label, decimal_comma=self.comma)
        if typed and size.mm and is_bare(text):
            self._bare[unit] = None
        return size

    def mm(self, name: str) -> float:
        """A length in mm."""
        return self.size(name).mm

    def number(self, name: str, unit: str = "") -> float:
        """A plain number (decimal point or comma), within the entry's range and of a size that belongs to a shop.

        ``unit`` is the one chosen beside it, where it is not always the entry's own; it may be typed too.

        Raises:
            BadEntry, Ambiguous: as ``read_number``.
            OutOfRange: outside the entry's range, or so large or small that it can only be a slip.
        """
        item, typed = self._inputs[name], self.text(name)
        unit = unit or item.unit
        number = read_number(
            typed,
            item.label,
            unit,
            decimal_comma=self.comma,
            above=item.above,
            at_least=item.least,
            at_most=item.most,
            of_a_shop=True,
        )
        self._read[name] = f"{number:.12g} {unit}".strip()
        return number

    def amount(self, name: str) -> float:
        """A mass, force or rate in the entry's own unit, within its range; what was read is echoed in its unit."""
        item, typed = self._inputs[name], self.text(name)
        bare = item.unit_here(self._unit) if self.typed(name) else item.unit
        value = self.amount_in(name, typed, bare)
        if self.typed(name):
            self._ask_if_mixed(item, typed, bare)
        return value

    def _ask_if_mixed(self, item: Input, text: str, bare: str) -> None:
        """A bare number beside one with another unit may be of either. Raises Ambiguous."""
        mine = read_amount(text, item.quantity, item.unit, item.label, bare=bare, decimal_comma=self.comma)
        if not mine.bare or not mine.value:
            return
        for name, other in self._inputs.items():
            if other is item or other.quantity != item.quantity or not self.typed(name):
                continue
            try:
                beside = read_amount(
                    self._typed[name], other.quantity, other.unit, other.label, decimal_comma=self.comma
                )
            except RebuildError:
                continue  # told when that entry itself is read
            if not beside.bare and beside.unit != bare:
                raise mixed_units(item.label, mine.text, beside.unit, bare)

    def amount_in(self, name: str, part: str, bare: str = "") -> float:
        """One amount within a text of a grammar of its own."""
        item = self._inputs[name]
        bare = bare or item.unit_here(self._unit)
        found = read_amount(part, item.quantity, item.unit, item.label, bare=bare, decimal_comma=self.comma)
        low = (item.above is not None and not found.value > item.above) or (
            item.least is not None and found.value < item.least
        )
        if low or (item.most is not None and found.value > item.most):
            raise OutOfRange(
                f"is {range_words(item.above, item.least, item.most, item.unit)}.",
                where=item.label,
                value=found.text,
                way_out=f"It was read as {found.value:.6g} {item.unit}; check the number and its unit.",
            )
        other = next((unit for unit in (item.unit, item.inch_unit) if unit and unit != found.unit), "")
        said = in_amount_unit(found.value, item.quantity, item.unit, found.unit)
        also = in_amount_unit(found.value, item.quantity, item.unit, other) if other else 0.0
        self._read[name] = f"{said:.6g} {found.unit}" + (f" ({also:.4g} {other})" if other else "")
        if found.bare and self.typed(name):
            self._bare[found.unit] = None
        return found.value

    def whole(self, name: str) -> int:
        """A whole number."""
        value = self._inputs[name].whole(self.text(name), decimal_comma=self.comma)
        self._read[name] = f"{value}"
        return value

    def choice(self, name: str) -> str:
        """One of the listed choices."""
        item = self._inputs[name]
        return item.one_of(self.text(name), item.choices)


def mixed_units(field: str, text: str, beside: str, bare: str) -> Ambiguous:
    """The question of a number without a unit beside one in ``beside``, where it would be read in ``bare``.

    >>> print(mixed_units("Second", "220", "lb", "kg"))
    Second: “220” has no unit, and one beside it is in lb. Type 220 lb (like the one beside it) or 220 kg (in kg).
    """
    return Ambiguous(
        f"has no unit, and one beside it is in {beside}.",
        where=field,
        value=text,
        readings=(("like the one beside it", f"{text} {beside}"), (f"in {bare}", f"{text} {bare}")),
    )


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
    words: str = ""  # what the shop calls it besides, to find it by
    numbers: str = ""  # a pattern of the numbers that lead to it, as those of its table
    inch_example: Mapping[str, str] = field(
        default_factory=dict
    )  # on an inch machine, where one is more usual

    def run(self, typed: Mapping[str, str], *, comma: bool | None = None, unit: str = "") -> Figured:
        """Work it out from typed text; ``comma`` and ``unit`` as in ``Entries``.

        Raises:
            BadEntry: an entry is missing or wrong, or one of a pair is typed without the other.
            Ambiguous: an entry has two honest readings.
            OutOfRange: outside the table or rule, or what its kind can be.
        """
        entries = Entries(self.inputs, typed, comma, unit)
        own = unit if unit in ("mm", "in") else entries.unit_typed
        with sizes_in(own):
            figured = replace(self.work(entries), read=entries.read, bare=entries.bare, unit=own)
        return told_in_inch(figured) if own == "in" else figured

    def example_in(self, unit: str) -> Mapping[str, str]:
        """The example as one begins with it on a machine of this unit."""
        return self.inch_example if unit == "in" and self.inch_example else self.example


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
