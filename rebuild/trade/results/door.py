"""The door of a library function: what is given is held against the signature before any work is done.

A caller's slip (a text for a number, the word ``steel`` for a material, nothing, not-a-number) is refused in a sentence
that names the argument, instead of coming out as a traceback or a wrong figure far inside. What is checked is what the
signature says: numbers, whole numbers, texts, and values of our own classes, alone, optional, or in a list.
"""

from __future__ import annotations

import functools
import inspect
import math
import typing
from collections.abc import Callable, Collection, Mapping, Sequence
from fractions import Fraction
from types import NoneType, UnionType
from typing import ParamSpec, TypeVar

from rebuild.errors import BadEntry
from rebuild.trade.sizes.given import number_of

P = ParamSpec("P")
R = TypeVar("R")
_Check = Callable[[str, object], object]

#: Endings of an argument's name that are its unit, and the unit as written.
_UNITS = {
    "_um_per_m": "µm/m", "_m_min": "m/min", "_per_K": "1/K", "_mm": "mm", "_um": "µm", "_in2": "in²", "_deg": "°",
    "_rad": "rad", "_C": "°C", "_F": "°F", "_MPa": "MPa", "_N": "N", "_kN": "kN", "_Nm": "N·m", "_kg": "kg",
    "_min": "min", "_cSt": "mm²/s", "_ppm": "ppm", "_rpm": "rpm", "_ml": "mL",
}  # fmt: skip


def door(*endless: str) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Hold what is given to a function against its signature; ``endless`` arguments may be infinite.

    Raises (when the function is called):
        BadEntry: an argument is not of the kind its signature names; the sentence names it.

    >>> @door()
    ... def area(width_mm: float, pieces: int = 1) -> float:
    ...     return width_mm**2 * pieces
    >>> area(2.0)
    4.0
    >>> area("2 mm")
    Traceback (most recent call last):
    rebuild.errors.BadEntry: Width [mm]: “2 mm” is not a number. Give the bare number, as 25 or 12.5; ...
    """

    def with_door(function: Callable[P, R]) -> Callable[P, R]:
        names = tuple(inspect.signature(function).parameters)
        checks: dict[str, _Check] = {}
        known: list[bool] = []

        @functools.wraps(function)
        def through(*args: P.args, **kwargs: P.kwargs) -> R:
            if not known:
                checks.update(_checks_of(function, endless))
                known.append(True)
            for name, value in (*zip(names, args, strict=False), *kwargs.items()):
                check = checks.get(name)
                if check is not None:
                    check(name, value)
            return function(*args, **kwargs)

        return through

    return with_door


def words_for(name: str) -> str:
    """An argument's name as a sentence says it.

    >>> words_for("hub_outer_mm"), words_for("speed_m_min"), words_for("friction")
    ('Hub outer [mm]', 'Speed [m/min]', 'Friction')
    """
    ending = next((one for one in _UNITS if name.endswith(one)), "")
    words = name.removesuffix(ending).replace("_", " ")
    return words[:1].upper() + words[1:] + (f" [{_UNITS[ending]}]" if ending else "")


def _checks_of(function: Callable[..., object], endless: tuple[str, ...]) -> dict[str, _Check]:
    found = {}
    for name, hint in typing.get_type_hints(function).items():
        check = _number_or_endless if name in endless else _check_of(hint)
        if check is not None and name != "return":
            found[name] = check
    return found


def _check_of(hint: object) -> _Check | None:
    """What a value of this hint must be; None where a hint says nothing that can be held."""
    origin, args = typing.get_origin(hint), typing.get_args(hint)
    if origin in (typing.Union, UnionType):
        return _check_of_union(args)
    if origin in (Sequence, tuple, Mapping) and args:
        alike = set(args[1:] if origin is Mapping else args) - {Ellipsis}
        inner = _check_of(alike.pop()) if len(alike) == 1 else None
        return _each(inner) if inner is not None else None
    if hint in _PLAIN:
        return _PLAIN[hint]
    if inspect.isclass(hint) and hint.__module__.startswith("rebuild."):
        return _one_of((hint,))
    return None


def _check_of_union(args: tuple[object, ...]) -> _Check | None:
    given = tuple(arg for arg in args if arg is not NoneType)
    if len(given) > 1:
        return _one_of(typing.cast(tuple[type, ...], given)) if all(map(inspect.isclass, given)) else None
    check = _check_of(given[0])
    if check is None:
        return None
    return lambda name, value: None if value is None else check(name, value)


def _number(name: str, value: object) -> object:
    return value if type(value) is float and value - value == 0.0 else number_of(words_for(name), value)


def _number_or_endless(name: str, value: object) -> object:
    return value if value == math.inf else _number(name, value)


def _whole(name: str, value: object) -> object:
    if number_of(words_for(name), value) % 1:
        raise BadEntry("is not a whole number.", where=words_for(name), value=f"{value}", way_out="Count it.")
    return value


def _text(name: str, value: object) -> object:
    if not isinstance(value, str):
        raise BadEntry(
            "is not a text.",
            where=words_for(name),
            value=f"{value}",
            way_out="Give it in quotes, as it is written.",
        )
    return value


_PLAIN: dict[object, _Check] = {float: _number, int: _whole, Fraction: _number, str: _text}


def _each(check: _Check) -> _Check:
    """Every one of a list (or of a mapping's values)."""

    def of_list(name: str, value: object) -> object:
        listed = value.values() if isinstance(value, Mapping) else value
        if isinstance(value, str) or not isinstance(listed, Collection):
            raise BadEntry(
                "is not a list.",
                where=words_for(name),
                value=f"{value}",
                way_out="Give the numbers in a list.",
            )
        for one in listed:
            check(name, one)
        return value

    return of_list


def _one_of(kinds: tuple[type, ...]) -> _Check:
    """A value of one of these classes: a material and not the word for it."""
    names = " or ".join(f"{'an' if kind.__name__[0] in 'AEIOU' else 'a'} {kind.__name__}" for kind in kinds)

    def of_kind(name: str, value: object) -> object:
        if not isinstance(value, kinds):
            instead = ", not the word for it" if isinstance(value, str) else ""
            raise BadEntry(
                f"is not {names}.",
                where=words_for(name),
                value=f"{value}"[:60],
                way_out=f"Give {names}{instead}.",
            )
        return value

    return of_kind
