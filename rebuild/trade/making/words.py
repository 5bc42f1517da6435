"""Sizes in the words of a sheet: ``Ø0.8136 to 0.8140 in``, and texts whose braces stand for sizes."""

from __future__ import annotations

import re
from collections.abc import Mapping

from rebuild.trade.drawing.measure import Measure
from rebuild.trade.making.roles import role

NOT_KNOWN = "not known yet"
_BRACES = re.compile(r"\{([^{}]+)\}")


def size_words(measure: Measure, unit: str) -> str:
    """A size with its limits, low first.

    >>> size_words(Measure("bore", None, 15.8928, 15.9055), "in")
    '0.6257 to 0.6262 in'
    >>> size_words(Measure("bore", None, 15.748, 16.002, ends=2), "in")  # typed 0.62-0.63
    '0.62 to 0.63 in'
    >>> size_words(Measure("length", 40.0, 39.7, 40.3), "mm")
    '40 ±0.3 mm'
    """
    if not measure.given:
        return NOT_KNOWN
    evenly = measure.plus_minus_mm
    if evenly is not None and measure.nominal_mm is not None:
        return f"{measure.typed(measure.nominal_mm, unit)} ±{measure.typed(evenly, unit)} {unit}"
    low, high = measure.limits(unit)
    if low and high:
        return f"{low} {unit}" if low == high else f"{low} to {high} {unit}"
    if measure.nominal_mm is not None:
        return f"{measure.typed(measure.nominal_mm, unit)} {unit}"
    return f"at most {high} {unit}" if high else f"at least {low} {unit}"


def plain_words(shape: str, name: str, measure: Measure, unit: str) -> str:
    """A size of a shape in words; an angle in degrees, a count as a number.

    >>> plain_words("gib strip", "dovetail angle", Measure("dovetail angle", 55.0), "mm")
    '55°'
    """
    found = role(shape, name)
    if found is None or found.is_length:
        return size_words(measure, unit)
    if not measure.given:
        return NOT_KNOWN
    return f"{measure.at_mm:g}°" if found.kind == "angle" else f"{measure.at_mm:g}"


def filled(text: str, shape: str, sizes: Mapping[str, Measure], unit: str, thread: str = "") -> str:
    """A text of the sheet with its braces filled: ``Bore to {bore}``. An unknown name stays as it is.

    Limits are written ``0.8136-0.8140``, since most texts say *to* already. A size not given is named.

    >>> filled("Bore to {bore}.", "collar", {"bore": Measure("bore", 20.0)}, "mm")
    'Bore to 20 mm.'
    >>> filled("Turn the body to {body} on a plate.", "collar", {"body": Measure("body diameter")}, "mm")
    'Turn the body to the body diameter (not known yet) on a plate.'
    """

    def put(match: re.Match[str]) -> str:
        name = match[1].strip()
        if name == "thread" and thread:
            return thread
        measure = sizes.get(name)
        if measure is None:
            return match[0]
        if not measure.given:
            return f"the {measure.name} ({NOT_KNOWN})"
        return plain_words(shape, name, measure, unit).replace(" to ", "-")

    return _BRACES.sub(put, text)
