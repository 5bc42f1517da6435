"""What a making sheet carries: shapes told from names, limits rounded inwards, data, blank, steps and tools."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.drawing.shapes import drawable
from rebuild.trade.limits.inward import MOST_LOST, inward
from rebuild.trade.making.blank import blank_of, blank_words
from rebuild.trade.making.data import blocks
from rebuild.trade.making.derive import Designations, derived, read_gear, read_pin, worked_key
from rebuild.trade.making.limits import general, general_in_shop
from rebuild.trade.making.roles import guess_shape, roles, shapes
from rebuild.trade.making.steps import cutting_name, propose_steps, propose_tools
from rebuild.trade.making.words import filled, size_words
from rebuild.trade.results.tables import table
from rebuild.trade.shop.materials import material, names


@pytest.mark.parametrize(
    ("name", "shape"),
    [
        ("apron bush", "bush"), ("bushes for the rocker", "bush"), ("cross-slide nut", "nut"),
        ("handwheel shaft", "stepped shaft"), ("top slide screw", "screw"), ("clapper pin", "pin"),
        ("taper pin 6 x 50", "taper pin"), ("quill key, pinned", "key"), ("gib for the saddle", "gib strip"),
        ("thrust washer, leadscrew", "washer"), ("ball handle", "handle"), ("gear rim, 60 teeth", "gear"),
        ("stop collar on the shaft", "collar"), ("something odd", "other"),
    ],
)  # fmt: skip
def test_a_name_tells_the_shape(name: str, shape: str) -> None:
    assert guess_shape(name) == shape


def test_features_tell_the_shape_when_the_name_does_not() -> None:
    assert guess_shape("part 7", ["outside diameter", "bore"]) == "bush"
    assert guess_shape("part 7", ["thread", "bore"]) == "nut"
    assert guess_shape("part 7", ["outside diameter"]) == "stepped shaft"


def test_every_shape_in_the_tables_is_known_and_every_row_belongs_to_one() -> None:
    known = set(shapes())
    assert set(drawable()) == known - {"other"}
    for name in ("making_roles", "making_steps", "making_tools"):
        assert {row["shape"] for row in table(name).rows} <= known, name
    for usual in shapes().values():
        assert not usual.material or material(usual.material)


def test_steps_name_only_sizes_their_shape_has() -> None:
    for row in (*table("making_steps").rows, *table("making_tools").rows):
        known = {role.name for role in roles(row["shape"])}
        needed = [part.split("}")[0] for part in row["what"].split("{")[1:]]
        assert set(needed) - {"thread"} <= known, row
        only = row["only"].lstrip("!")
        assert only in known | {"", "thread"}, row


@given(low=st.floats(1, 300), width=st.floats(0.0005, 0.6), unit=st.sampled_from(["mm", "in"]))
def test_rounded_limits_are_never_wider_and_lose_little(low: float, width: float, unit: str) -> None:
    high = low + width
    made_low, made_high = inward(low, high, unit)
    assert made_low is not None
    assert made_high is not None
    assert made_low >= low - 1e-6
    assert made_high <= high + 1e-6
    assert made_high - made_low >= (1 - MOST_LOST) * width - 1e-5


def test_one_sided_limits_round_to_the_safe_side() -> None:
    assert inward(None, 25.0004, "mm") == (None, 25.0)
    assert inward(24.9996, None, "mm") == (25.0, None)


def test_general_tolerances_and_their_ends() -> None:
    assert [general(size).value for size in (0.5, 6.0, 30.0, 120.0, 2000.0)] == [0.1, 0.1, 0.2, 0.3, 1.2]
    assert "ISO 2768-1" in general(10.0).working.text()
    with pytest.raises(OutOfRange, match=r"0\.5 to 2000 mm"):
        general(2001.0)
    assert general_in_shop(0.2, "in") == pytest.approx(0.007 * 25.4)


def test_designations_give_sizes() -> None:
    screw = derived("screw", Designations(thread="1-8 ACME"), {}, "in")["thread diameter"].measure
    assert screw.high_mm == pytest.approx(25.4)
    assert read_gear("30 T module 2").system.name == "iso-20"
    assert read_gear("24 teeth DP 12").system.name == "coarse-20"
    assert read_gear("24 teeth DP 24").system.name == "fine-20"
    assert worked_key("30 mm", "mm")[0].width_mm == 8.0
    assert read_pin("#2/0").size == "2/0"
    assert read_pin("taper pin 5 x 36 mm").nominal_mm == 5.0
    for text in ("24 teeth", "DP 12"):
        with pytest.raises(BadEntry, match="does not say teeth and pitch"):
            read_gear(text)
    with pytest.raises(BadEntry, match="names no shaft"):
        worked_key("square", "in")


def test_a_designation_that_cannot_be_read_becomes_a_sentence_on_the_sheet() -> None:
    (block,) = blocks("nut", Designations(thread="about an inch"), "in")
    assert "not a thread designation" in block.trouble


def test_data_of_threads_tapers_gears_and_keys() -> None:
    screw = dict(blocks("screw", Designations(thread="5/8-8 ACME"), "in")[0].lines)
    assert {"depth of cut", "tool flat", "compound", "best wire", "over three wires", "lead angle"} <= set(
        screw
    )
    nut = dict(blocks("nut", Designations(thread="M20"), "mm")[0].lines)
    assert "tap drill" in nut
    taper = dict(blocks("other", Designations(taper="MT3"), "in")[0].lines)
    assert taper["taper"] == "Morse 3"
    gear = dict(blocks("gear", Designations(gear="24 T DP 12 14.5 with 48"), "in")[0].lines)
    assert gear["cutter"] == "number 5"
    assert gear["centres with 48 teeth"].startswith("3.0000 in")
    assert gear["indexing"].startswith("1 2/3 turns")
    key = dict(blocks("key", Designations(key="1 in square"), "in")[0].lines)
    assert key["across the shaft"].endswith("0.8591 in (21.822 mm)")


def test_blanks_of_turned_and_filed_parts() -> None:
    steel = material("steel 1018 / 1020 cold drawn")
    shaft = {"diameter 1": Measure("d", 20.0), "length 1": Measure("l", 50.0), "length 2": Measure("m", 30.0),
             "diameter 2": Measure("e", 25.0)}  # fmt: skip
    made = blank_of("stepped shaft", shaft, steel).value
    assert made.stock_mm == 26.0
    assert made.length_mm == pytest.approx(50 + 30 + 2 + 3.2 + 32)
    key = blank_of("key", {name: Measure(name, 8.0) for name in ("width", "height", "length")}, steel)
    assert blank_words(key.value, "key", "mm").startswith("bar, at least 11.000 mm")
    with pytest.raises(BadEntry, match="Outside diameter: is not known yet"):
        blank_of("bush", {}, steel)


def test_every_material_that_can_be_cut_has_a_row_and_others_have_none() -> None:
    cut = {row["material"] for row in table("cutting_speeds").rows}
    for name in names():
        found = cutting_name(material(name))
        assert found == "" or found in cut, name
    assert cutting_name(material("granite")) == ""


def test_steps_follow_what_the_part_has() -> None:
    bronze = material("bearing bronze C93200")
    sizes = {"outside diameter": Measure("o", 20.0), "bore": Measure("b", 15.0), "length": Measure("l", 30.0)}
    plain = [step.what for step in propose_steps("bush", sizes, bronze, "mm")]
    pressed = [
        step.what
        for step in propose_steps("bush", sizes | {"bore before pressing": Measure("p", 14.7)}, bronze, "mm")
    ]
    assert any("Press in" in what for what in pressed)
    assert not any("Press in" in what for what in plain)
    assert "Bore and ream to {bore}" in plain
    turning = next(
        step for step in propose_steps("bush", sizes, bronze, "in") if step.what.startswith("Turn the out")
    )
    assert turning.speed.endswith("(120 to 180 ft/min)")
    assert turning.measure
    assert all(step.speed == "" for step in propose_steps("bush", sizes, None, "mm"))
    assert propose_tools("bush", sizes)[0].what.startswith("Reamer for {bore}")


def test_braces_are_filled_with_the_sizes_words() -> None:
    sizes = {"bore": Measure("bore", None, 15.0, 15.018), "number of holes": Measure("n", 4.0)}
    assert filled("Bore to {bore}; {oil hole}", "bush", sizes, "mm") == "Bore to 15.000-15.018 mm; {oil hole}"
    assert filled("{number of holes} holes", "nut", sizes, "in") == "4 holes"
    assert size_words(Measure("x", None, None, 0.1), "mm") == "at most 0.100 mm"


def test_a_coarse_thread_is_turned_slowly_and_a_fine_one_as_the_tool_bears() -> None:
    """By hand: 8 per inch is 3.175 mm a turn; at 250 mm/min of carriage that is 79 rpm. 40 per inch: 394 rpm."""
    sizes = {"thread diameter": Measure("thread diameter", 12.7)}
    steel = material("steel 1045 / C45")

    def speed(thread: str) -> str:
        steps = propose_steps("screw", sizes, steel, "in", thread=thread)
        return next(step.speed for step in steps if step.what.startswith("Rough the thread"))

    assert speed("1/2-8 ACME").startswith("at most 79 rpm")
    assert speed("1/2-40 UNS").endswith("ft/min)")
    words = " ".join(step.what for step in propose_steps("screw", sizes, steel, "in", thread="1/2-8 ACME"))
    assert "lap tight" not in words
    assert "never lapped to its screw" in words


def test_a_blank_is_asked_its_outside_and_says_why_it_is_longer() -> None:
    """Seen: a nut with a 1/2 in thread and no body was offered `round 0.4375 in, 2.46 in long`.

    By hand, 1.000 in long: 2 x 0.04 in (1 mm) faced, 1/8 in (3.2 mm) to part off, the rest in the chuck.
    """
    bronze = material("bearing bronze C93200")
    bare = {"bore": Measure("bore", None, 10.16, 10.2), "length": Measure("length", 25.4)}
    with pytest.raises(BadEntry, match="Body diameter: is not known yet"):
        blank_of("nut", bare, bronze, unit="in")
    found = blank_of("nut", {**bare, "body diameter": Measure("body", 25.4)}, bronze, unit="in").value
    assert found.stock_mm > 25.4
    assert found.length_mm - found.spare_mm == pytest.approx(25.4)
    assert f"({found.spare_mm / 25.4:.2f} in to hold, face and part off)" in blank_words(found, "nut", "in")


def test_every_usual_finish_is_told_in_inches_first_on_an_inch_machine() -> None:
    """The roughness stood in µm first on the sheets and in the book of an inch machine."""
    rough = [one for one in shapes().values() if "Ra" in one.finish]
    assert len(rough) >= 10
    for one in rough:
        assert one.finish_in("mm") == one.finish
        told = one.finish_in("in")
        assert told.index("µin") < told.index("µm"), told
        assert told.count("Ra") == one.finish.count("Ra")
    # Preferred roughness values, ASME B46.1 and ISO 1302 side by side, from memory: 32 µin 0.8 µm, 63 1.6, 125 3.2.
    pairs = {
        pair for one in rough for pair in re.findall(r"([\d.]+) µin Ra \(([\d.]+) µm\)", one.finish_in("in"))
    }
    assert pairs <= {("32", "0.8"), ("63", "1.6"), ("125", "3.2")}
    assert len(pairs) == 3
