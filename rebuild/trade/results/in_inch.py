"""A working as one reads it who thinks in inches: each size in inches first, each result of an equation in both.

The working stays as it was worked, in mm; only what it says is told again. An equation with bare numbers keeps them
and their order, so that a pencil finds the same result, and has the inches behind it; one in which all but factors
carry their unit is as true in inches, and has them first.
"""

from __future__ import annotations

import re
from dataclasses import replace

from rebuild.trade.results.working import Step, StepKind, Working
from rebuild.trade.sizes.show import in_unit, show_number

_NUMBER = r"(?:[+\-−]|± ?)?\d+(?:\.\d+)?(?:e[+\-]\d+)?"
_CHAIN = rf"{_NUMBER}(?:(?: to | x | × | / |/| or |, |-){_NUMBER})*"
#: Not mm², N/mm, mm/m or a name in words; ``1.5 mm (0.0591 in)`` is told in both already.
_METRIC = re.compile(rf"(?<![\w.]){_CHAIN} (?P<unit>mm|µm)(?![²³⁴/\w])(?P<both> \((?P<inch>[^()]*\bin)\))?")
_IN_EQUATION = re.compile(
    rf"(?<![\w.]){_NUMBER}(?: to {_NUMBER})? (?P<unit>mm|µm)(?![²³⁴/\w])(?P<both> \((?P<inch>[^()]*\bin)\))?"
)
_ONE = re.compile(_NUMBER)
#: In a label a size stands behind a word; a label that is a size is a name (a drill).
_IN_LABEL = re.compile(
    rf"(?<=[a-z] ){_NUMBER}(?: to {_NUMBER})? (?P<unit>mm|µm)(?![²³⁴/\w])(?P<both> \((?P<inch>[^()]*\bin)\))?"
)

_SIZE = r"\d+(?:\.\d+)? (?:mm|µm)"
#: Sizes, each alone or times a factor, equal to each other or summed: true in any unit.
_LINEAR = re.compile(rf"(?:\d+(?:\.\d+)?·)?{_SIZE}(?: [=+-] (?:\d+(?:\.\d+)?·)?{_SIZE})+")


def in_inch(working: Working) -> Working:
    """The same lines with every size in inches first; µm become thou.

    >>> step = Step(StepKind.RESULT, "span", "21.411 to 21.458 mm")
    >>> in_inch(Working("A gear", (step,))).steps[0].text
    '0.8430 to 0.8448 in (21.411 to 21.458 mm)'
    >>> in_inch(Working("A fit", (replace(step, text="25.0 to 25.021 mm (+0 / +21 µm)"),))).steps[0].text
    '0.9843 to 0.9851 in (25.0 to 25.021 mm) (+0 / +0.827 thou = +0 / +21 µm)'
    >>> step = Step(StepKind.EQUATION, "allowance", "0.025 mm")
    >>> in_inch(Working("A thread", (step,))).steps[0].text
    '0.0010 in (0.025 mm)'
    >>> step = Step(StepKind.EQUATION, "land", "3 × 0.550 = 1.65 mm at least")
    >>> in_inch(Working("A groove", (step,))).steps[0].text
    '3 × 0.550 = 1.65 mm (0.0650 in) at least'
    >>> in_inch(Working("U", (replace(step, text="1.960·3 µm = 5.88 µm"),))).steps[0].text
    '1.960·0.118 thou (3 µm) = 0.231 thou (5.88 µm)'
    """
    return Working(_IN_LABEL.sub(_inch_first, working.title), tuple(_step(step) for step in working.steps))


def words_in_inch(text: str) -> str:
    """A sentence with its sizes in inches first.

    >>> words_in_inch("step 0.1 mm under; 1:50, 58 mm²; fits 0 / -10 µm, is 5 in (127.000 mm) long")
    'step 0.0039 in (0.1 mm) under; 1:50, 58 mm²; fits 0 / -0.394 thou (0 / -10 µm), is 5 in (127.000 mm) long'
    """
    return _METRIC.sub(_inch_first, text)


def _step(step: Step) -> Step:
    text = _IN_EQUATION.sub(_inch_behind, step.text) if _is_worked(step) else words_in_inch(step.text)
    label = _IN_LABEL.sub(_inch_first, step.label)
    return step if (text, label) == (step.text, step.label) else replace(step, label=label, text=text)


def _is_worked(step: Step) -> bool:
    """Whether a line has numbers that are worked with; a size alone, or a list of sizes, has none."""
    if _LINEAR.fullmatch(step.text):
        return False
    if step.kind is StepKind.EQUATION:
        return " = " in step.text or " · " in step.text
    return step.kind is StepKind.RESULT and " = " in step.text


def _inch_first(found: re.Match[str]) -> str:
    if _is_told(found):
        return found.group()
    metric = found.group().removesuffix(found["both"] or "")
    inch = found["inch"] or _inches(found)
    return f"{inch} = {metric}" if _is_in_brackets(found) else f"{inch} ({metric})"


def _inch_behind(found: re.Match[str]) -> str:
    if found["both"] or _is_told(found):
        return found.group()
    inch = _inches(found)
    return f"{found.group()} = {inch}" if _is_in_brackets(found) else f"{found.group()} ({inch})"


def _is_told(found: re.Match[str]) -> bool:
    """Whether the inches stand before it: ``1.2500 in (31.750 mm)``, ``1 in = 25.4 mm``."""
    before = found.string[: found.start()]
    return bool(re.search(r"\b(?:in|thou|foot|ft)(?: \(| = )$", before))


def _is_in_brackets(found: re.Match[str]) -> bool:
    before = found.string[: found.start()]
    return before.count("(") > before.count(")")


def _inches(found: re.Match[str]) -> str:
    metric = found.group().removesuffix(found["both"] or "").removesuffix(f" {found['unit']}")
    if found["unit"] == "µm":
        return f"{_ONE.sub(_thou, metric)} thou"
    return f"{_ONE.sub(_inch, metric)} in"


def _inch(found: re.Match[str]) -> str:
    sign, digits = _parted(found.group())
    places = len(digits.partition("e")[0].partition(".")[2])
    return sign + show_number(float(digits), "in", min(6, max(4, places + 1)))


def _thou(found: re.Match[str]) -> str:
    sign, digits = _parted(found.group())
    thou = in_unit(float(digits), "thou") / 1000
    return f"{sign}{thou:.3g}" if thou < 1000 else f"{sign}{thou:.0f}"


def _parted(text: str) -> tuple[str, str]:
    """The sign as it was written, and the digits."""
    digits = text.lstrip("+-−± ")
    return text[: len(text) - len(digits)], digits
