"""Temperatures in the unit of the one who asks: an oven on an inch machine has a dial in °F."""

from __future__ import annotations

import re

from rebuild.trade.sizes.own_unit import own_unit

_CELSIUS = re.compile(r"(?<![\d.])(-?\d+(?:\.\d+)?) °C(?! / \d+ °F)")


def temperature_said(celsius: float) -> str:
    """A temperature, to the degree.

    >>> from rebuild.trade.sizes.own_unit import sizes_in
    >>> temperature_said(237.2)
    '237 °C'
    >>> with sizes_in("in"):
    ...     temperature_said(237.2)
    '459 °F (237 °C)'
    >>> with sizes_in("in"):
    ...     temperature_said(-18.0)
    '0 °F (-18 °C)'
    """
    metric = f"{round(celsius)} °C"
    return metric if own_unit() == "mm" else f"{round(celsius * 1.8 + 32)} °F ({metric})"


def rise_said(kelvin: float) -> str:
    """A difference of temperature, to the degree.

    >>> from rebuild.trade.sizes.own_unit import sizes_in
    >>> with sizes_in("in"):
    ...     rise_said(100.0)
    '180 °F'
    """
    return f"{kelvin:.0f} °C" if own_unit() == "mm" else f"{kelvin * 1.8:.0f} °F"


def temperatures_own(text: str) -> str:
    """A text of ours whose temperatures are in °C, °F put first for who asks in inches; round figures stay round.

    >>> from rebuild.trade.sizes.own_unit import sizes_in
    >>> with sizes_in("in"):
    ...     temperatures_own("take 120 °C at most")
    'take 250 °F (120 °C) at most'
    """
    return text if own_unit() == "mm" else _CELSIUS.sub(_both, text)


def _both(match: re.Match[str]) -> str:
    fahrenheit = float(match[1]) * 1.8 + 32
    told = round(fahrenheit, -1) if abs(fahrenheit) >= 100 else fahrenheit
    return f"{round(told)} °F ({match[0]})"
