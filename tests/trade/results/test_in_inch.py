"""A working told in inches: each size in inches first, nothing told twice, no square millimetre taken for a size."""

from __future__ import annotations

import pytest

from rebuild.trade.figures import figure
from rebuild.trade.results.in_inch import in_inch, words_in_inch
from rebuild.trade.results.working import Step, StepKind, Working


@pytest.mark.parametrize(
    ("told", "wanted"),
    [
        # Source: 1 in is 25.4 mm exactly (international yard and pound agreement of 1959).
        ("25.4 mm", "1.0000 in (25.4 mm)"),
        ("reading 25.400 mm (1.0000 in)", "reading 1.0000 in (25.400 mm)"),
        ("1.0000 in (25.400 mm)", "1.0000 in (25.400 mm)"),
        ("lead 1.5 mm = 1.5 mm", "lead 0.0591 in (1.5 mm) = 0.0591 in (1.5 mm)"),
        ("17 x 40 x 12 mm", "0.6693 x 1.5748 x 0.4724 in (17 x 40 x 12 mm)"),
        ("known to ±0.0127 mm", "known to ±0.00050 in (±0.0127 mm)"),
        ("25.4 µm over 25.4 mm", "1 thou (25.4 µm) over 1.0000 in (25.4 mm)"),
        ("58 mm² at 12 N/mm, 3 µm/m, 0.02 mm/m", "58 mm² at 12 N/mm, 3 µm/m, 0.02 mm/m"),
        ("tenths of mm", "tenths of mm"),
        ("(within 0.254 mm)", "(within 0.0100 in = 0.254 mm)"),
        ("-0.0254 mm from basic", "-0.00100 in (-0.0254 mm) from basic"),
        ("40-45 mm long", "1.5748-1.7717 in (40-45 mm) long"),
    ],
)
def test_a_size_is_told_in_inches_first(told: str, wanted: str) -> None:
    assert words_in_inch(told) == wanted
    assert words_in_inch(wanted) == wanted, "told again it stays"


def test_an_equation_keeps_its_numbers_and_has_the_inches_behind() -> None:
    lines = (
        Step(StepKind.EQUATION, "over 254 mm", "50.8 - 25.4 = 25.4 mm"),
        Step(StepKind.EQUATION, "S", "1.0000 - 0.1409 = 0.8591 in (21.822 mm)"),
        Step(StepKind.RESULT, "U", "2·25.4 µm = 50.8 µm"),
    )
    told = in_inch(Working("A sum", lines)).steps
    assert [step.text for step in told] == [
        "50.8 - 25.4 = 25.4 mm (1.0000 in)",
        "1.0000 - 0.1409 = 0.8591 in (21.822 mm)",
        "2·1 thou (25.4 µm) = 2 thou (50.8 µm)",
    ]
    assert told[0].label == "over 10.0000 in (254 mm)"


@pytest.mark.parametrize(
    ("topic", "typed", "line"),
    [
        # Source: ASME B17.2, key 606 in a shaft of 1 in: S = 1 - 0.0089 - 0.2143 = 0.7768 in.
        ("woodruff", {"key": "606", "shaft": "1"}, "1.00000 - 0.00887 - 0.21430 = 0.7768 in (19.732 mm)"),
        # Source: geometry, 3 sin(180°/6) = 1.5.
        ("hole-circle", {"circle": "3", "holes": "6"}, "3 × sin(180° / 6) = 1.50000 in (38.100 mm)"),
        # Source: outside diameter of a full-depth gear, (N + 2) / DP = 26/12 = 2.1667 in.
        ("gear", {"teeth": "24", "pitch": "12 DP"}, "0.083333 × (24 + 2 × 1 + 2 × 0) = 2.16667 in"),
    ],
)
def test_the_numbers_of_an_equation_are_inches_where_they_were_asked_in_inches(
    topic: str, typed: dict[str, str], line: str
) -> None:
    shown = figure(topic).run(typed, unit="in").working.text()
    assert line in shown, shown


def test_every_size_of_a_line_that_is_no_equation_is_told_in_inches_first() -> None:
    """Of the three tolerances of a BA thread only the last had its inches, and behind; so had a bare allowance."""
    figured = figure("ba").run(figure("ba").example, unit="in")
    told = {step.label: step.text for step in reversed(figured.working.steps)}
    # 25.4 mm to the inch (ISO 80000-3 by way of the yard of 1959): 0.025 / 25.4 = 0.00098, 0.162 / 25.4 = 0.00638.
    assert told["allowance"] == "0.0010 in (0.025 mm)"
    assert told["tolerances"].startswith(
        "major 0.00638 in (0.1620 mm), effective 0.00417 in (0.1060 mm), minor 0.0"
    )
    # An equation of the standard is in mm and keeps its numbers: a pencil finds the same.
    assert told["effective tolerance"] == "0.12 p + 0.03 = 0.1272 mm (0.00501 in)"
