"""Sizes as people type them: read exactly, kept as typed, asked about when doubtful, refused in a sentence."""

from __future__ import annotations

import math
from fractions import Fraction

import pint
import pytest
from hypothesis import given, strategies as st

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.length_units import SPELLINGS
from rebuild.trade.sizes.quantity import FACTORS, LONGEST_MM, parse_length, parse_repeats
from rebuild.trade.sizes.show import exact_text, show_length, show_number

UNITS = st.sampled_from(sorted(FACTORS))


@pytest.mark.parametrize(
    ("typed", "unit", "mm", "kept"),
    [
        ("1-1/4", "in", 31.75, "in"),
        ('1 1/4"', "mm", 31.75, "in"),
        ("1¼", "in", 31.75, "in"),
        ("1 1⁄4 in", "in", 31.75, "in"),
        (".4375", "in", 11.1125, "in"),
        ("7/16", "in", 11.1125, "in"),
        ("0,02", "mm", 0.02, "mm"),
        ("12.7 mm", "in", 12.7, "mm"),
        ("12.7mm", "in", 12.7, "mm"),
        ("3 thou", "mm", 0.0762, "thou"),
        ("5 tenths", "in", 0.0127, "tenth"),
        ("-0.0005", "in", -0.0127, "in"),
        ("−0.0005", "in", -0.0127, "in"),
        ("+.001", "in", 0.0254, "in"),
        ("1.190 in", "mm", 30.226, "in"),
        ("25 µm", "mm", 0.025, "µm"),
        ("25 μm", "mm", 0.025, "µm"),
        ("25 um", "mm", 0.025, "µm"),
        ("-1-1/4", "in", -31.75, "in"),
        ("1' 2-1/2\"", "mm", 368.3, "in"),
        ("5 ft 3 in", "mm", 1600.2, "in"),
        ("2 ft", "mm", 609.6, "ft"),
        ("1 000", "mm", 1000.0, "mm"),
        ("1,000,000 µin", "mm", 25.4, "µin"),
        ("1.250,5", "mm", 1250.5, "mm"),
        ("1,250.5", "mm", 1250.5, "mm"),
        ("25.", "mm", 25.0, "mm"),
        ("  25  ", "mm", 25.0, "mm"),
        ("3 THOU.", "mm", 0.0762, "thou"),
        ("2 yards", "mm", 1828.8, "mm"),
    ],
)
def test_what_people_type(typed: str, unit: str, mm: float, kept: str) -> None:
    size = parse_length(typed, unit)
    assert size.mm == mm
    assert size.unit == kept
    assert size.text == typed.strip()


@pytest.mark.parametrize(
    "typed",
    ["", "   ", "abc", "1/0", "25 kg", "--3", "+-3", "3-", "1/2/3", "1 2/3 4", "1 25", "nan", "inf", "25e3",
     "1-5/4 in", "1.2.3", "1,2,3", "25 °C", "25 m²", "1 planck_length", "9" * 200, "()", "12 o'clock", "1e400"],
)  # fmt: skip
def test_what_is_no_size(typed: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        parse_length(typed, "mm", "Front journal")
    assert not isinstance(refusal.value, Ambiguous)
    sentence = str(refusal.value)
    assert sentence.startswith("Front journal: ")
    assert refusal.value.way_out
    assert typed.strip()[:10] in sentence


@pytest.mark.parametrize(
    ("typed", "unit", "readings"),
    [
        ("1,250", "mm", ("1.250 mm", "1250 mm")),
        ("-1,250 in", "mm", ("-1.250 in", "-1250 in")),
        ("3/8", "mm", ("3/8 in", "3/8 mm")),
        ("11/4", "in", ("1-1/4 in", "2.75 in")),
        ("-11/4 in", "mm", ("-1-1/4 in", "-2.75 in")),
        ("5 tenths", "mm", ("0.0005 in", "0.5 mm")),
        ("1/2 tenths", "mm", ("0.00005 in", "0.05 mm")),
        ("2 mil", "mm", ("2 thou", "2 mm")),
    ],
)
def test_what_has_two_honest_readings_is_asked_about(
    typed: str, unit: str, readings: tuple[str, ...]
) -> None:
    with pytest.raises(Ambiguous) as question:
        parse_length(typed, unit)
    assert tuple(retyped for _, retyped in question.value.readings) == readings
    sizes = {parse_length(retyped, unit).mm for retyped in readings}
    assert len(sizes) == 2


def test_a_file_may_settle_the_comma() -> None:
    assert parse_length("1,250", decimal_comma=True).mm == 1.25
    assert parse_length("1,250", decimal_comma=False).mm == 1250.0
    assert parse_length("0,02", decimal_comma=False).mm == 0.02


def test_repeats_are_separated_by_semicolons() -> None:
    assert [size.mm for size in parse_repeats("24.98; 24.99;")] == [24.98, 24.99]
    with pytest.raises(BadEntry, match="is empty"):
        parse_repeats(" ; ")
    with pytest.raises(BadEntry, match="“x”"):
        parse_repeats("24.98; x")


def test_a_length_beyond_a_kilometre_is_a_slip() -> None:
    with pytest.raises(BadEntry, match="longer than a kilometre"):
        parse_length("1001 m")


def test_every_factor_agrees_with_pint() -> None:
    """pint is the oracle; ours are exact fractions."""
    registry = pint.UnitRegistry()
    names = {"tenth": "thou", "µin": "microinch", "in": "inch", "ft": "foot", "µm": "micrometer"}
    for unit, factor in FACTORS.items():
        theirs = registry.Quantity(0.1 if unit == "tenth" else 1.0, names.get(unit, unit)).to("mm").magnitude
        assert math.isclose(float(factor), theirs, rel_tol=1e-12), unit


@pytest.mark.parametrize(
    ("spelling", "unit"),
    [(spelling, unit) for unit, spellings in SPELLINGS.items() for spelling in spellings],
)
def test_every_spelling_is_read(spelling: str, unit: str) -> None:
    assert parse_length(f"2 {spelling}", "in").mm == float(2 * FACTORS[unit])


@given(value=st.decimals(-999, 999, allow_nan=False, places=6), unit=UNITS)
def test_a_decimal_is_exact(value: object, unit: str) -> None:
    text = f"{value:f}"
    assert parse_length(f"{text} {unit}" if unit != "tenth" else text, unit).mm == float(
        Fraction(text) * FACTORS[unit]
    )


@given(
    whole=st.integers(0, 40), power=st.integers(1, 6), top=st.integers(1, 63), minus=st.booleans(),
    form=st.sampled_from(["{w}-{t}/{b}", "{w} {t}/{b}", "{w} - {t}/{b}"]),
)  # fmt: skip
def test_mixed_numbers_are_exact(whole: int, power: int, top: int, minus: bool, form: str) -> None:
    bottom = 2**power
    top = top % bottom or 1
    text = ("-" if minus else "") + form.format(w=whole, t=top, b=bottom)
    value = (whole + Fraction(top, bottom)) * (-1 if minus else 1)
    assert parse_length(text, "in").mm == float(value * Fraction(127, 5))


@given(mm=st.floats(-1e5, 1e5), unit=UNITS)
def test_what_is_printed_in_full_reads_back(mm: float, unit: str) -> None:
    text = exact_text(mm, unit)
    assert "e" not in text
    again = parse_length(f"{text} {unit}" if unit != "tenth" else text, unit).mm
    assert again == pytest.approx(mm, rel=1e-15, abs=float(FACTORS[unit]) * 1e-12)


@given(steps=st.integers(-5_000_000, 5_000_000), unit=st.sampled_from(["mm", "in", "µm", "thou"]))
def test_shop_sizes_print_and_read_back_to_the_same_double(steps: int, unit: str) -> None:
    """A size typed to the decimals a shop uses comes back from its shortest text to the last bit."""
    mm = parse_length(f"{steps / 1000:.3f}", unit).mm
    assert parse_length(exact_text(mm, unit), unit).mm == mm


@given(mm=st.floats(-1e5, 1e5), unit=UNITS, decimals=st.integers(0, 6))
def test_a_shown_length_is_off_by_half_its_last_digit_at_most(mm: float, unit: str, decimals: int) -> None:
    text = show_length(mm, unit, decimals)
    number = float(text.split()[0])
    in_unit = mm / float(FACTORS[unit])
    assert abs(number - in_unit) <= 0.5000001 * 10**-decimals + abs(in_unit) * 1e-12
    assert not show_number(mm, unit, decimals).startswith("-0.000000" if decimals == 6 else "-0 ")


@given(
    text=st.text(max_size=14) | st.text(alphabet="0123456789.,/-+ ;'\"±µmincthoufe½″′()*^", max_size=18), unit=UNITS,
    comma=st.sampled_from([None, True, False]),
)  # fmt: skip
def test_any_text_is_read_or_refused(text: str, unit: str, comma: bool | None) -> None:
    """Nothing but a BadEntry comes out, and what is read is a finite length in a known unit."""
    try:
        size = parse_length(text, unit, decimal_comma=comma)
    except Ambiguous as question:
        for _, retyped in question.readings:
            assert parse_again(retyped, unit) is not None, retyped
    except BadEntry:
        pass
    else:
        assert math.isfinite(size.mm)
        assert abs(size.mm) <= LONGEST_MM
        assert size.unit in FACTORS
        assert parse_length(size.text, size.unit, decimal_comma=comma).mm == size.mm


def parse_again(text: str, unit: str) -> float | None:
    """What an offered reading comes to; it may be refused for its size, but not asked about again."""
    try:
        return parse_length(text, unit).mm
    except Ambiguous:
        return None
    except BadEntry:
        return 0.0
