"""Fasteners as they are said at the bench."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.teardown.fastener_words import fastener_words, known_thread, parse_fastener


# Source: sample fasteners of a bench lathe (trade notes, invented rows): hole, thread, length, head, state
@pytest.mark.parametrize(
    ("said", "kind", "thread", "length", "words"),
    [
        ("3/8-16 x 1-3/4 in socket cap, finger", "screw", "3/8-16", "1-3/4 in", "finger"),
        (
            "5/16-18 x 3/8 cup, second set screw on top of it",
            "set screw",
            "5/16-18",
            "3/8",
            "second set screw on top",
        ),
        ("4 x 1/4-20 x 5/8 dog adjusted", "set screw", "1/4-20", "5/8", "adjusted"),
        ("taper pin no. 4 x 1-1/4 big end front", "taper pin", "No. 4", "1-1/4", "big end front"),
        ("1/2 BSW x 2 hex missing", "bolt", "1/2 BSW", "2", "missing"),
        ("M8x1.25x25 hex snug", "bolt", "M8x1.25", "25", "snug"),
        ("M8 x 25", "screw", "M8", "25", "M8 × 25 mm"),
        ("6 x 40 mm dowel", "dowel", "6", "40 mm", "dowel"),
        ("7/16-20 LH nut", "nut", "7/16-20", "", "left hand"),
        ("key 3/16 x 3/16 x 1", "key", "3/16 x 3/16", "1", "key"),
    ],
)
def test_fasteners_are_read_as_they_are_said(
    said: str, kind: str, thread: str, length: str, words: str
) -> None:
    found = parse_fastener(said)
    assert (found.kind, found.thread, found.length) == (kind, thread, length)
    assert words in fastener_words(found)


def test_what_is_no_designation_keeps_its_words_and_is_not_guessed() -> None:
    assert parse_fastener("5/16 plain x 0.88 in dowel").thread == "5/16 plain"
    assert known_thread("5/16 plain") is None
    assert known_thread("3/8-16") is not None
    with pytest.raises(BadEntry, match="Fastener: is empty"):
        parse_fastener("  ")
