"""The door of the library: wrong kinds are refused in a sentence, right ones pass; and no public function lacks it."""

from __future__ import annotations

import importlib
import inspect
import math
import pkgutil
import typing
from collections.abc import Callable, Iterator
from fractions import Fraction
from types import ModuleType

import pytest

import rebuild.trade
from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.lame import Elastic
from rebuild.trade.results.door import door
from rebuild.trade.shop.materials import Material, material
from rebuild.trade.sizes.given import number_of

NO_NUMBERS = ["12 mm", "", None, True, [1.0], math.nan, math.inf, -math.inf]
#: Folders whose public functions stand behind a door.
DOORED = ("bearings", "gears", "geometry", "joints", "lubrication", "run_in", "shop", "tapers")
#: Behind the door already: called by one that has it, with what it has checked.
INSIDE = {"describe", "check_thinning", "say_envelope", "wall_text", "limits_words"}


@pytest.mark.parametrize("value", NO_NUMBERS)
def test_what_is_no_number(value: object) -> None:
    with pytest.raises(BadEntry, match=r"^Diameter: .* (not a number|not a finite number)\. ") as refusal:
        number_of("Diameter", value)
    assert refusal.value.way_out


@pytest.mark.parametrize("value", [0, 12, -3.5, Fraction(1, 4), 1e300])
def test_what_is_a_number(value: float) -> None:
    assert number_of("Diameter", value) == float(value)


def test_the_ends_of_a_range_from_both_sides() -> None:
    least = math.nextafter(0.0, 1.0)
    assert number_of("Share", least, above=0.0) == least
    with pytest.raises(OutOfRange, match="Share: “0” is not above 0"):
        number_of("Share", 0.0, above=0.0)
    assert number_of("Share", 0.0, at_least=0.0) == 0.0
    with pytest.raises(OutOfRange, match="is below 0"):
        number_of("Share", -least, at_least=0.0)
    assert number_of("Share", 1.0, at_most=1.0) == 1.0
    with pytest.raises(OutOfRange, match="is above 1"):
        number_of("Share", math.nextafter(1.0, 2.0), at_most=1.0)


@door("wide_mm")
def _part(
    long_mm: float,
    wide_mm: float,
    of: Material | Elastic,
    sizes: tuple[float, ...] = (),
    count: int = 1,
    name: str = "",
    share: float | None = None,
) -> str:
    return f"{long_mm:g} {wide_mm:g} {of.name} {sizes} {count} {name} {share}"


def test_right_kinds_pass_and_an_endless_one_where_it_may_be() -> None:
    steel = material("steel")
    assert _part(1, math.inf, steel) == "1 inf steel () 1  None"
    assert _part(long_mm=2.0, wide_mm=3, of=steel, sizes=(1.0, 2), count=2, name="key", share=0.5)


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        ({"long_mm": "12"}, "Long [mm]: “12” is not a number."),
        ({"long_mm": math.inf}, "Long [mm]: “inf” is not a finite number."),
        ({"wide_mm": math.nan}, "Wide [mm]: “nan” is not a finite number."),
        ({"of": "steel"}, "Of: “steel” is not a Material or an Elastic. Give a Material or an Elastic, not the word"),
        ({"of": None}, "Of: “None” is not a Material or an Elastic."),
        ({"sizes": (1.0, "2")}, "Sizes: “2” is not a number."),
        ({"sizes": 5}, "Sizes: “5” is not a list."),
        ({"sizes": "12"}, "Sizes: “12” is not a list."),
        ({"count": 1.5}, "Count: “1.5” is not a whole number."),
        ({"name": None}, "Name: “None” is not a text."),
        ({"share": "half"}, "Share: “half” is not a number."),
    ],
)  # fmt: skip
def test_a_wrong_kind_is_named_with_its_value_and_a_way_out(given: dict[str, object], sentence: str) -> None:
    arguments: dict[str, typing.Any] = {"long_mm": 1.0, "wide_mm": 2.0, "of": material("steel")} | given
    with pytest.raises(BadEntry) as refusal:
        _part(**arguments)
    assert str(refusal.value).startswith(sentence)
    assert refusal.value.way_out


def test_a_text_is_refused_by_place_too() -> None:
    with pytest.raises(BadEntry, match="Wide"):
        _part(1.0, "2", material("steel"))  # type: ignore[arg-type]


def _modules() -> Iterator[ModuleType]:
    for folder in DOORED:
        package = importlib.import_module(f"rebuild.trade.{folder}")
        for found in pkgutil.iter_modules(package.__path__, f"{package.__name__}."):
            yield importlib.import_module(found.name)


def _public() -> Iterator[Callable[..., object]]:
    for module in _modules():
        for name, one in vars(module).items():
            own = inspect.isroutine(inspect.unwrap(one)) if callable(one) else False
            if own and one.__module__ == module.__name__ and name not in INSIDE and not name.startswith("_"):
                yield one


def test_every_public_function_that_takes_a_number_or_a_material_has_a_door() -> None:
    assert rebuild.trade
    bare = [
        f"{one.__module__}.{one.__qualname__}"
        for one in _public()
        if not hasattr(one, "__wrapped__")
        and {"float", "int", "Material", "Material | Elastic"} & set(_hints(one))
    ]
    assert not bare, f"no door: {', '.join(bare)}"


def _hints(one: Callable[..., object]) -> list[str]:
    return [str(each.annotation) for each in inspect.signature(one).parameters.values()]
