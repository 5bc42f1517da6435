"""Which work can be left half done and taken up another evening, by its kind; and why the rest cannot.

Common practice, no source.
"""

from __future__ import annotations

from rebuild.words.steps import TaskKind

#: Less than this is no slice: it goes in setting up [minutes].
LEAST_SLICE = 20.0
_CAN = ""
_ERRAND = "an errand is done in one go"
_SETTING = "a setting left half done is lost"
#: Every kind of work: nothing where it can be left, else why it cannot.
_WHY_NOT: dict[TaskKind, str] = {
    TaskKind.CLEAN: _CAN,
    TaskKind.INSPECT: _CAN,
    TaskKind.MEASURE: _CAN,
    TaskKind.MAKE: _CAN,
    TaskKind.REWORK: _CAN,
    TaskKind.STONE: _CAN,
    TaskKind.OTHER: _CAN,
    TaskKind.REMOVE: "what is half off is not safe to leave",
    TaskKind.REFIT: "what is half on is not safe to leave",
    TaskKind.PAINT: "a coat is put on in one go",
    TaskKind.ADJUST: _SETTING,
    TaskKind.ALIGN: _SETTING,
    TaskKind.TRIAL_FIT: _SETTING,
    TaskKind.COMMISSION: "a run is watched to its end",
    TaskKind.LUBRICATE: "half an oiling is forgotten",
    TaskKind.DECIDE: "it is thought through in one go",
    TaskKind.BUY: _ERRAND,
    TaskKind.SEND_OUT: _ERRAND,
}


def why_in_one_go(kind: TaskKind) -> str:
    """Why work of a kind cannot be left half done; empty where it can.

    >>> why_in_one_go(TaskKind.MAKE), why_in_one_go(TaskKind.PAINT)
    ('', 'a coat is put on in one go')
    """
    return _WHY_NOT[kind]


def why_too_long(kind: TaskKind, minutes: float, evening: float) -> str:
    """Why so many minutes of work do not go into an evening, not even as a slice; empty where they do.

    >>> why_too_long(TaskKind.MAKE, 120, 45), why_too_long(TaskKind.REFIT, 60, 45)
    ('', 'what is half on is not safe to leave')
    >>> why_too_long(TaskKind.MAKE, 120, 15)
    'less than 20 min of it goes in setting up'
    """
    if minutes <= evening:
        return ""
    if reason := why_in_one_go(kind):
        return reason
    return "" if evening >= LEAST_SLICE else f"less than {LEAST_SLICE:.0f} min of it goes in setting up"
