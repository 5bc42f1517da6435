"""What it costs to leave a part as it is: in size, accuracy or risk, from its fits, surveys and the test chart.

Geometry of a loose joint, no more: a shaft can lie anywhere in its clearance, a nut turns its lost motion before it
pushes. Which accuracy a machine loses by it a test cut alone tells.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from rebuild.trade.limits.judgement import Verdict
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.show import show_length
from rebuild.words.fits import FitJoint, FitKind

_GEOMETRY = Source("clearance as read, less the most wanted", "geometry of the joint", Status.COMPUTED)
_READ = Source("as read, against its limit", status=Status.COMPUTED)
#: How many costs the sentence names before it counts the rest; the working has them all.
MOST_SAID = 4
_HOLDS = (FitKind.PRESS, FitKind.SHRINK, FitKind.PUSH)


class Costs(StrEnum):
    """In what it costs."""

    ACCURACY = "accuracy"
    SIZE = "size"
    RISK = "risk"


@dataclass(frozen=True, slots=True)
class LooseFit:
    """A fit the part is in [mm], clearance up: loosest and tightest as read, the range wanted, play along an axis.

    ``axial`` is how much a clearance of one counts along the axis, of a screw or a taper.
    """

    title: str
    joint: FitJoint
    kind: FitKind
    unit: str
    verdict: Verdict
    most_mm: float
    least_mm: float
    low_mm: float | None
    high_mm: float | None
    axial: float | None = None


@dataclass(frozen=True, slots=True)
class Beyond:
    """A feature, a surveyed way or a position of the chart out of what is allowed [mm], ``where`` it was read.

    ``on_the_work_mm`` is the error on a turned diameter, where it can be told; ``allowed`` what is allowed in words.
    """

    costs: Costs
    where: str
    unit: str
    value_mm: float
    allowed_mm: float
    on_the_work_mm: float | None = None
    allowed: str = ""


@dataclass(frozen=True, slots=True)
class Skipped:
    """What leaving it costs, each line under its heading; ``sentence`` is all of it, ``told`` line by line."""

    lines: tuple[tuple[Costs, str], ...]
    sentence: str

    @property
    def told(self) -> str:
        """The same, a line for each cost."""
        if not self.lines:
            return self.sentence
        more = f"\nand {len(self.lines) - MOST_SAID} more" if len(self.lines) > MOST_SAID else ""
        said = "\n".join(f"· {costs.value}: {words}" for costs, words in self.lines[:MOST_SAID])
        return f"If this is left as it is:\n{said}{more}"


def if_skipped(
    name: str, fits: Sequence[LooseFit], beyond: Sequence[Beyond], risks: Sequence[str] = ()
) -> Worked[Skipped]:
    """What it costs to leave a part as it is.

    Args:
        name: the part.
        fits: fits it is in, read.
        beyond: what of it was read out of what is allowed.
        risks: what else is known to go wrong, as sentences.

    >>> loose = LooseFit("spindle in bush", FitJoint.HOLE_AND_SHAFT, FitKind.RUNNING, "mm", Verdict.DOES_NOT,
    ...     0.055, 0.045, 0.020, 0.040)
    >>> if_skipped("bush", [loose], []).value.sentence
    'If “bush” is left as it is: accuracy: spindle in bush can move 0.055 mm, 0.015 mm more than the most wanted.'
    >>> if_skipped("bush", [], []).value.sentence
    'If “bush” is left as it is: no fit, survey or test read so far says what it costs.'
    """
    sheet = Sheet(f"If “{name}” is left as it is")
    lines = [line for fit in fits for line in _of_fit(sheet, fit)]
    lines += [_of_beyond(sheet, one) for one in beyond]
    lines += [(Costs.RISK, words) for words in risks]
    for words in risks:
        sheet.note(words)
    lines.sort(key=_gravest)
    said = "; ".join(f"{costs.value}: {words}" for costs, words in lines[:MOST_SAID])
    said += f"; and {len(lines) - MOST_SAID} more" if len(lines) > MOST_SAID else ""
    if not said:
        said = "no fit, survey or test read so far says what it costs"
        sheet.note("nothing read of it is out of its limits or of what a fit is to be")
    sentence = f"If “{name}” is left as it is: {said}."
    sheet.result("costs", said, _GEOMETRY if fits else _READ)
    return Worked(Skipped(tuple(lines), sentence), sheet.close())


def _gravest(line: tuple[Costs, str]) -> int:
    return (Costs.RISK, Costs.ACCURACY, Costs.SIZE).index(line[0])


def _of_fit(sheet: Sheet, fit: LooseFit) -> list[tuple[Costs, str]]:
    found: list[tuple[Costs, str]] = []
    if fit.high_mm is not None and fit.most_mm > fit.high_mm:
        found.append(_too_loose(sheet, fit, fit.high_mm))
    if fit.low_mm is not None and fit.least_mm < fit.low_mm:
        found.append(_too_tight(sheet, fit, fit.low_mm))
    if not found and fit.verdict is Verdict.UNDECIDED:
        sheet.note(f"{fit.title}: too near its limit for what read it")
        found.append((Costs.RISK, f"{fit.title} may be out already: what it was read with cannot tell"))
    return found


def _too_loose(sheet: Sheet, fit: LooseFit, high: float) -> tuple[Costs, str]:
    over = fit.most_mm - high
    shown, more = show_length(fit.most_mm, fit.unit), show_length(over, fit.unit)
    sheet.read(f"{fit.title}, loosest", shown)
    sheet.read("most wanted", show_length(high, fit.unit))
    sheet.equation("too loose by", f"{shown} - {show_length(high, fit.unit)} = {more}", _GEOMETRY)
    if fit.kind in _HOLDS:
        return Costs.RISK, f"{fit.title} holds {more} less than wanted and may creep or come loose"
    if fit.axial is not None:
        lost, extra = (show_length(mm * fit.axial, fit.unit) for mm in (fit.most_mm, over))
        sheet.equation("along the axis", f"{shown} x {fit.axial:.4g} = {lost}", _GEOMETRY)
        if fit.joint is FitJoint.NUT_AND_SCREW:
            words = f"{fit.title} turns {lost} of lost motion before it moves, {extra} more than wanted"
            return Costs.ACCURACY, words
        return Costs.ACCURACY, f"{fit.title} goes {extra} deeper than wanted"
    if fit.joint is FitJoint.GEAR_MESH:
        return Costs.ACCURACY, f"{fit.title} has {shown} of backlash, {more} more than the most wanted"
    verb = "can rock or shift" if fit.joint is FitJoint.SLIDE_AND_WAY else "can move"
    return Costs.ACCURACY, f"{fit.title} {verb} {shown}, {more} more than the most wanted"


def _too_tight(sheet: Sheet, fit: LooseFit, low: float) -> tuple[Costs, str]:
    short = show_length(low - fit.least_mm, fit.unit)
    shown, least = show_length(fit.least_mm, fit.unit), show_length(low, fit.unit)
    sheet.read(f"{fit.title}, tightest", shown)
    sheet.equation("too tight by", f"{least} - ({shown}) = {short}", _GEOMETRY)
    if fit.kind in _HOLDS:
        return Costs.RISK, f"{fit.title} is {short} tighter than wanted: it may gall or crack going on"
    return Costs.RISK, f"{fit.title} is {short} tighter than wanted: it may bind, or seize when it runs warm"


def _of_beyond(sheet: Sheet, one: Beyond) -> tuple[Costs, str]:
    off = one.value_mm - one.allowed_mm
    over, shown = show_length(abs(off), one.unit), show_length(one.value_mm, one.unit)
    allowed = one.allowed or show_length(one.allowed_mm, one.unit)
    sheet.read(one.where, f"{shown}, limit {allowed}")
    sheet.equation("out by", f"{shown} - {show_length(one.allowed_mm, one.unit)} = {over}", _READ)
    words = f"{one.where} reads {shown}, limit {allowed}"
    if one.costs is Costs.SIZE:
        words = f"{one.where} stays {over} {'over' if off > 0 else 'under'} its limit"
    if one.on_the_work_mm is not None:
        work = show_length(abs(one.on_the_work_mm), one.unit)
        sheet.equation("on a turned diameter", work, _READ)
        bigger = "larger" if one.on_the_work_mm > 0 else "smaller"
        words += f", which turns {work} {bigger} there"
    return one.costs, words
