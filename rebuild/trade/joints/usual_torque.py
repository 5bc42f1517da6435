"""What torque a joint asks for, and where that comes from: its grade by calculation, else the shop's usual range."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange, RebuildError
from rebuild.trade.joints.bolts import INCH, NUT_FACTORS, bolt_thread, grades, proof, tighten
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Worked
from rebuild.trade.sizes.amounts import LBF_FT_NM
from rebuild.words.joints import Dressing

#: Dressings under which a screw turns as easily as oiled.
#: Classes met in a shop, said where the class of a screw is not known.
_USUAL = ("4.6", "8.8", "10.9", "12.9", "grade 2", "grade 5", "grade 8")
_EASY = (Dressing.OILED, Dressing.GREASED, Dressing.SEALED)


@dataclass(frozen=True, slots=True)
class TorqueRange:
    """From and to [N·m]; one value when both are the same."""

    low_Nm: float
    high_Nm: float
    words: str


@door()
def joint_torque(thread: str, grade: str = "", dress: str = "") -> Worked[TorqueRange]:
    """The torque of one screw of a joint.

    Args:
        thread: as written, ``3/8-16`` or ``M10``.
        grade: class or grade as ``8.8`` or ``grade 5``; empty takes the usual range of the shop.
        dress: ``oiled``, ``greased`` or ``sealed`` turn easier than dry.

    Raises:
        OutOfRange: no usual range is known for this thread, or the grade has no proof strength at this size.
        BadEntry: not a bolt thread.

    >>> joint_torque("3/8-16").value.words
    '27-41 N·m (20-30 lb-ft)'
    >>> joint_torque("M10", "8.8").value.words
    '50 N·m (37 lb-ft)'
    """
    if not grade.strip():
        return _usual(thread)
    bolt = bolt_thread(thread)
    factor = NUT_FACTORS[Dressing.OILED if dress in _EASY else Dressing.DRY]
    worked = tighten(bolt, proof(grade.strip(), bolt.d_mm), factor)
    value = worked.value.torque_Nm
    return Worked(TorqueRange(value, value, torque_words(value, value)), worked.working)


def _usual(thread: str) -> Worked[TorqueRange]:
    found = table("usual_torques")
    name = _plain(thread)
    for row in found.rows:
        if row["thread"] == name:
            low, high = float(row["low_lbft"]) * LBF_FT_NM, float(row["high_lbft"]) * LBF_FT_NM
            sheet = Sheet(f"Tightening {name}, grade not known")
            sheet.table("usual range", f"{row['low_lbft']}-{row['high_lbft']} lb-ft", found.row_source(row))
            sheet.note(
                "Take the low end, or less, into cast iron; know the grade and it is worked out instead."
            )
            sheet.result("torque", torque_words(low, high), found.row_source(row))
            return Worked(TorqueRange(low, high, torque_words(low, high)), sheet.close())
    known = ", ".join(row["thread"] for row in found.rows)
    by_class = torque_by_class(thread)
    usual = "; ".join(f"{grade} {each.words}" for grade, each in by_class.items() if grade in _USUAL)
    raise OutOfRange(
        "has no usual torque here.",
        where="Thread",
        value=thread,
        way_out=f"Give its class or grade{f', dry: {usual}' if usual else ''}. "
        f"Known without: {known} ({found.source.cite()}).",
    )


def torque_by_class(thread: str) -> dict[str, TorqueRange]:
    """What each class or grade of a thread takes dry, the weakest first; empty for what is no bolt thread.

    >>> {grade: f"{each.high_Nm:.0f}" for grade, each in torque_by_class("M8").items() if grade in ("8.8", "12.9")}
    {'8.8': '25', '12.9': '43'}
    """
    found: dict[str, TorqueRange] = {}
    try:
        bolt = bolt_thread(thread)
    except RebuildError:
        return {}
    for grade in grades():
        if grade.startswith("grade") is not (bolt.system == INCH):
            continue
        try:
            value = tighten(bolt, proof(grade, bolt.d_mm), NUT_FACTORS[Dressing.DRY]).value.torque_Nm
        except OutOfRange:
            continue
        found[grade] = TorqueRange(value, value, torque_words(value, value))
    return dict(sorted(found.items(), key=lambda item: item[1].high_Nm))


@door()
def class_band(thread: str) -> str:
    """What the thread takes by its class, from the weakest met in a shop to the strongest; empty for no bolt thread.

    >>> class_band("M8")
    'M8x1.25 takes 10 N·m (7 lb-ft) at class 4.6 to 43 N·m (31 lb-ft) at class 12.9, dry'
    """
    usual = {grade: each for grade, each in torque_by_class(thread).items() if grade in _USUAL}
    if not usual:
        return ""
    low, *_, high = usual
    return (
        f"{_plain(thread)} takes {usual[low].words} at {_classed(low)} to {usual[high].words} at {_classed(high)}, "
        "dry"
    )


def _classed(grade: str) -> str:
    return grade if grade.startswith("grade") else f"class {grade}"


@door()
def beyond_any_class(done_Nm: float, thread: str) -> str:
    """What is wrong with a torque no class of the thread stands, in words; empty when one does, or none is known.

    >>> beyond_any_class(30.0, "M8"), beyond_any_class(400.0, "M8")
    ('', 'is far over what any class of M8x1.25 takes: at most 43 N·m (31 lb-ft), class 12.9 dry')
    """
    every = torque_by_class(thread)
    if not every:
        return ""
    grade, most = list(every.items())[-1]
    if done_Nm <= 1.1 * most.high_Nm:
        return ""
    far = "far over" if done_Nm > 2 * most.high_Nm else "over"
    return f"is {far} what any class of {_plain(thread)} takes: at most {most.words}, {_classed(grade)} dry"


def _plain(thread: str) -> str:
    try:
        return bolt_thread(thread).name
    except BadEntry:
        return thread.strip()


@door()
def torque_words(low: float, high: float) -> str:
    """A torque or a range in both units.

    >>> torque_words(27.0, 41.0), torque_words(27.0, 27.0)
    ('27-41 N·m (20-30 lb-ft)', '27 N·m (20 lb-ft)')
    """
    if abs(high - low) < 0.05 * high:
        return f"{low:.0f} N·m ({low / LBF_FT_NM:.0f} lb-ft)"
    return f"{low:.0f}-{high:.0f} N·m ({low / LBF_FT_NM:.0f}-{high / LBF_FT_NM:.0f} lb-ft)"


@door()
def agrees(done_Nm: float, wanted: TorqueRange) -> bool:
    """Whether a torque reached lies within the range, give or take a tenth.

    >>> agrees(30.0, TorqueRange(27.0, 41.0, "27-41 N·m")), agrees(50.0, TorqueRange(27.0, 41.0, "27-41 N·m"))
    (True, False)
    """
    return 0.9 * wanted.low_Nm <= done_Nm <= 1.1 * wanted.high_Nm
