"""Short ways to write the entries of a figure, and to hand back a worked result."""

from __future__ import annotations

from typing import TypeVar

from rebuild.trade.drawing.sketch import Drawing
from rebuild.trade.results.figured import Answer, Figured, SpecLine, Zone
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.results.working import Worked

T = TypeVar("T")


def length(
    name: str, label: str, default: str = "", *, unit: str = "mm", note: str = "", signed: bool = False
) -> Input:
    """A size that must be typed; ``signed`` where a minus has a meaning.

    >>> length("bore", "Bore").required
    True
    """
    return Input(name, label, InputKind.LENGTH, default, unit, help=note, signed=signed)


def maybe_length(name: str, label: str, *, unit: str = "mm", note: str = "") -> Input:
    """A size that may be left empty.

    >>> maybe_length("bore", "Bore").required
    False
    """
    return Input(name, label, InputKind.LENGTH, unit=unit, help=note, required=False)


def number(
    name: str,
    label: str,
    default: str = "",
    *,
    unit: str = "",
    note: str = "",
    required: bool = True,
    above: float | None = None,
    least: float | None = None,
    most: float | None = None,
) -> Input:
    """A plain number, within its range.

    >>> number("share", "Share", "0.75").default
    '0.75'
    """
    return Input(
        name,
        label,
        InputKind.NUMBER,
        default,
        unit,
        help=note,
        required=required,
        above=above,
        least=least,
        most=most,
    )


#: Quantity, unit and inch unit of what is weighed, and of what a spring does.
MASS, RATE, FORCE = ("mass", "kg", "lb"), ("spring rate", "N/mm", "lbf/in"), ("force", "N", "lbf")


def amount(
    name: str,
    label: str,
    of: tuple[str, str, str],
    default: str = "",
    *,
    note: str = "",
    required: bool = True,
    above: float | None = None,
    least: float | None = None,
    most: float | None = None,
) -> Input:
    """A mass, force or rate with its unit; its range is in the first unit.

    >>> amount("load", "Load", MASS).unit
    'kg'
    """
    quantity, unit, inch_unit = of
    return Input(
        name,
        label,
        InputKind.AMOUNT,
        default,
        unit,
        help=note,
        required=required,
        quantity=quantity,
        inch_unit=inch_unit,
        above=above,
        least=least,
        most=most,
    )


def whole(name: str, label: str, default: str = "", *, note: str = "") -> Input:
    """A whole number.

    >>> whole("teeth", "Teeth").kind.value
    'whole number'
    """
    return Input(name, label, InputKind.WHOLE, default, help=note)


def choice(name: str, label: str, choices: tuple[str, ...], *, note: str = "") -> Input:
    """One of a list; the first is the default.

    >>> choice("seat", "Seat", ("shaft", "housing")).default
    'shaft'
    """
    return Input(name, label, InputKind.CHOICE, choices[0], choices=choices, help=note)


def text(name: str, label: str, default: str = "", *, note: str = "", required: bool = True) -> Input:
    """Free text with a grammar of its own.

    >>> text("fit", "Fit").kind.value
    'text'
    """
    return Input(name, label, InputKind.TEXT, default, help=note, required=required)


def figured(
    worked: Worked[T],
    answers: tuple[Answer, ...],
    specs: tuple[SpecLine, ...] = (),
    zones: tuple[Zone, ...] = (),
    drawing: Drawing | None = None,
) -> Figured:
    """A result with its working and the cautions found in it.

    >>> from rebuild.trade.threads.making import nut_bore
    >>> figured(nut_bore("1-8 ACME"), (Answer("bore", 22.225, "mm"),)).cautions
    ()
    """
    return Figured(answers, worked.working, specs, zones, worked.working.cautions(), drawing)
