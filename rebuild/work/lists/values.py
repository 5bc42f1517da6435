"""Texts of an imported list read as values, exactly as they were when they were exported."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import TypeVar

from rebuild.errors import BadEntry
from rebuild.trade.schedule.dates import read_moment
from rebuild.trade.sizes.number import read_number
from rebuild.trade.sizes.quantity import FACTORS, parse_length
from rebuild.trade.sizes.reread import lengths_again, near
from rebuild.work.lists.line import Line
from rebuild.work.records.field import Columns

W = TypeVar("W", bound=StrEnum)


def moment(text: str, where: str) -> dt.datetime:
    """A date, or date and time, with its year: nobody knows on which day a list said *yesterday*. Raises BadEntry."""
    return read_moment(text, where, spoken=False)


def number(text: str, where: str, *, comma: bool | None = None) -> float | None:
    """A plain number with every digit, or None for nothing. Raises BadEntry or Ambiguous."""
    if not text.strip():
        return None
    return read_number(text, where, decimal_comma=comma, ways="Type it as 24.98.")


def word_of(words: type[W], text: str, where: str) -> W | None:
    """One of a closed list of words, or None for nothing. Raises BadEntry."""
    if not text.strip():
        return None
    for member in words:
        if text.strip().lower() == member.value.lower():
            return member
    listed = ", ".join(member.value for member in words)
    raise BadEntry("is not one of the words.", where=where, value=text, way_out=f"Use {listed}.")


def unit_of(text: str, otherwise: str) -> str:
    """The unit a bare number is in. Raises BadEntry."""
    unit = text.strip() or otherwise
    if unit not in FACTORS:
        raise BadEntry("is not a unit here.", where="Unit", value=text, way_out="Use mm or in.")
    return unit


def exact_length(line: Line, stem: str, where: str, otherwise: str) -> Columns | None:
    """The three columns of a length: its text in its unit, agreeing with the mm beside it. Raises BadEntry."""
    text = line.text(stem)
    if not text:
        return None
    unit = unit_of(line.text(f"{stem}_unit"), otherwise)
    stated = number(line.text(f"{stem}_mm"), where)
    if stated is None:
        size = parse_length(text, unit, where)
    else:
        fitting = [one for one in lengths_again(text, unit) if near(one.mm, stated)]
        if not fitting:
            raise BadEntry(
                f"is not the {stated:g} mm beside it.",
                where=where,
                value=text,
                way_out="Mend the one that is wrong.",
            )
        size = fitting[0]
    return {f"{stem}_text": size.text, f"{stem}_unit": size.unit, f"{stem}_mm": size.mm}
