"""Words of the bench log and its questions."""

from __future__ import annotations

from enum import StrEnum


class QuestionState(StrEnum):
    """How far an open question is."""

    OPEN = "open"
    ANSWERED = "answered"
    ASSUMED = "assumed"
