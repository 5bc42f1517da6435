"""What a joint is there for, before any figure: which duties take a torque, of what share, and how the others are set.

A thread alone says nothing of what it pulls against: a gib screw at the torque of its thread bends the gib, a
screw into a casting strips or cracks it.
"""

from __future__ import annotations

import re

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.set_screws import set_screw
from rebuild.trade.joints.usual_torque import TorqueRange, joint_torque, torque_words
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.words.joints import JointDuty
from rebuild.words.teardown import FastenerKind

#: Duties that are set by feel and reading, never by a torque, and how.
HOW_SET: dict[JointDuty, str] = {
    JointDuty.GIB: "turned in until the slide just drags over its whole travel, then held while its nut is locked; "
                   "a feeler or indicator says how much it lifts",
    JointDuty.JAM_NUT: "nipped with a short spanner while the screw under it is held from turning; the setting is "
                       "tried again after it",
    JointDuty.ADJUSTING: "set by what it adjusts: end play, lift or drag read on an indicator, then locked and "
                         "read once more",
    JointDuty.PIN: "driven or pressed home, not torqued",
}  # fmt: skip
_PRACTICE = Source("Setting of adjusting screws", "", Status.COMMON_PRACTICE)

#: Into cast iron: from this share of the low end of the figure in steel up to that low end.
CASTING_SHARE = 0.6
_CASTING = Source(
    "Screws into cast iron: the low end of the figure for steel, or less", "", Status.COMMON_PRACTICE
)
_SOFT = (JointDuty.CASTING, JointDuty.CAP, JointDuty.DOWELLED)
_NOTES = {
    JointDuty.CASTING: "Thread engaged at least 1.5 diameters, clean and not drawn.",
    JointDuty.CAP: "In equal steps from side to side; the lift is read again after the last one.",
    JointDuty.DOWELLED: "Dowels home first, then the screws; never drawn into line by the screws.",
}

_SET_SCREW = r"(?:set|grub) ?screws?"
#: The first that is found speaks; a nut that locks a gib screw is a jam nut, and either way no torque.
_WORDS = (
    (JointDuty.JAM_NUT, r"(?:jam|lock|check) ?nuts?"),
    (JointDuty.GIB, r"gibs?"),
    (JointDuty.PIN, r"(?:taper|roll|spring|dowel) ?pins?|dowels?|rivets?|keys?|retaining rings?"),
    (JointDuty.SET_SCREW, _SET_SCREW),
    (JointDuty.ADJUSTING, r"adjust\w*|preload\w*|take ?up|thrust nuts?"),
    (JointDuty.CAP, r"bearing caps?|(?:front|rear|shaft|spindle|outer|inner) caps?(?! screws? (?:into|to))"),
)  # fmt: skip


def duty_in(words: str) -> JointDuty | None:
    """The duty a joint's own words name, or None: then nobody has said it.

    >>> duty_in("ram gib jam nuts").value, duty_in("gib set screws").value, duty_in("motor clamp") is None
    ('jam nut', 'gib screw', True)
    """
    plain = " ".join(words.lower().replace("-", " ").split())
    return next((duty for duty, named in _WORDS if re.search(rf"\b(?:{named})\b", plain)), None)


#: What a fastener is there for where its kind alone says it; of a screw or bolt nobody has said.
_OF_KIND = {
    FastenerKind.TAPER_PIN: JointDuty.PIN,
    FastenerKind.DOWEL: JointDuty.PIN,
    FastenerKind.ROLL_PIN: JointDuty.PIN,
    FastenerKind.RIVET: JointDuty.PIN,
    FastenerKind.KEY: JointDuty.PIN,
    FastenerKind.SET_SCREW: JointDuty.SET_SCREW,
}


@door()
def duty_of_kind(kind: str) -> JointDuty | None:
    """The duty of what a fastener of this kind holds, or None where only its place tells.

    >>> duty_of_kind("taper pin").value, duty_of_kind("bolt") is None
    ('pin, rivet or key', True)
    """
    return _OF_KIND.get(FastenerKind(kind))


def how_set(duty: JointDuty | None) -> str:
    """How a joint of this duty is set when it takes no torque; empty for one that does."""
    return HOW_SET.get(duty, "") if duty is not None else ""


@door()
def duty_torque(duty: str, thread: str, grade: str = "", dress: str = "") -> Worked[TorqueRange]:
    """The torque of one screw of a joint, by its duty.

    Args:
        duty: a word of ``JointDuty``; empty: not said.
        thread: as written, ``3/8-16`` or ``M10``.
        grade: class or grade; empty takes the usual range.
        dress: how it is dressed.

    Raises:
        BadEntry: the duty is not said, or the thread is none.
        OutOfRange: this duty is set another way, or no figure is known.

    >>> duty_torque("screw into a casting", "3/8-16").value.words
    '16-27 N·m (12-20 lb-ft)'
    >>> duty_torque("bolt and nut, steel to steel", "M8", "8.8").value.words
    '25 N·m (19 lb-ft)'
    """
    if not duty.strip():
        raise BadEntry(
            "is not said, and a thread alone gives no torque.",
            where="Duty of the joint",
            way_out=f"Choose: {', '.join(JointDuty)}.",
        )
    meant = JointDuty(duty)
    if meant in HOW_SET:
        raise OutOfRange(
            f"takes no torque: {HOW_SET[meant]} ({_PRACTICE.cite()}).",
            where="Duty of the joint",
            value=meant.value,
            way_out="Say how it was set.",
        )
    if meant is JointDuty.SET_SCREW:
        return _seating(thread)
    steel = joint_torque(thread, grade, dress)
    return _into_iron(meant, thread, steel) if meant in _SOFT else steel


def _seating(thread: str) -> Worked[TorqueRange]:
    screw = set_screw(thread)
    sheet = Sheet(f"Seating a set screw {screw.size}")
    words = torque_words(screw.seating_Nm, screw.seating_Nm)
    sheet.table("seating torque", words, table("set_screws").source)
    sheet.note("A flat or a dimple under the point; the second screw is looked for.")
    sheet.result("torque", words)
    return Worked(TorqueRange(screw.seating_Nm, screw.seating_Nm, words), sheet.close())


def _into_iron(duty: JointDuty, thread: str, steel: Worked[TorqueRange]) -> Worked[TorqueRange]:
    high = steel.value.low_Nm
    low = CASTING_SHARE * high
    sheet = Sheet(f"{duty.value}, {thread}")
    sheet.table("in steel", steel.value.words, _first_source(steel))
    sheet.equation("into cast iron", f"{CASTING_SHARE:g} x {high:.1f} = {low:.1f} up to {high:.1f} N·m")
    sheet.note(_NOTES[duty], _CASTING)
    words = torque_words(low, high)
    sheet.result("torque", words, _CASTING)
    return Worked(TorqueRange(low, high, words), sheet.close())


def _first_source(worked: Worked[TorqueRange]) -> Source:
    return next((step.source for step in reversed(worked.working.steps) if step.source is not None), _CASTING)
