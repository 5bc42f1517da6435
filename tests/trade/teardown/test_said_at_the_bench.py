"""Lines as they are said at a bench, in any order and words: each is read rightly, or asked about.

Source: lines made up by us, common practice, no source. ``said_at_the_bench.csv`` holds each beside what it means,
gone through by hand; *asked* stands where the line must not be taken for anything, with the words that ask.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.teardown.fastener_words import fastener_words
from rebuild.trade.teardown.removal_words import SaidRemoval, parse_removal

KNOWN = (
    "HS-02", "bearing cap", "HS-02 bearing cap", "handwheel", "tapered gib", "Gib, tapered", "taper pin", "lever",
    "collar", "quill", "cover", "left hand nut", "drive plate", "feed screw", "nut", "key", "dog clutch",
    "clutch cone", "quill lock plug", "guard", "rack", "spindle",
)  # fmt: skip
GROUPS = ("Tailstock", "TK", "TK Tailstock", "Apron", "AP", "HS", "Headstock")
ASKED = "asked"


def lines() -> list[dict[str, str]]:
    with Path(__file__).with_name("said_at_the_bench.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def told(said: SaidRemoval) -> str:
    """All of a line but its part and its way, field by field."""
    rest = [
        ("from", said.from_end),
        *(("fastener", fastener_words(one)) for one in said.fasteners),
        *(("shims", f"{one.where} {one.leaves}".strip()) for one in said.shims),
        ("in", said.place),
        ("of", said.group),
        *said.typed,
    ]
    return " | ".join(f"{name}: {text}" for name, text in rest if text)


def test_there_are_many_and_no_two_are_alike() -> None:
    said = [line["said"] for line in lines()]
    assert len(said) >= 120
    assert len(set(said)) == len(said)


@pytest.mark.parametrize("line", lines(), ids=lambda line: line["said"])
def test_it_is_read_as_it_was_meant_or_asked_about(line: dict[str, str]) -> None:
    if line["came off"] == ASKED:
        with pytest.raises(BadEntry, match=line["and"]):
            parse_removal(line["said"], "mm", KNOWN, GROUPS)
        return
    said = parse_removal(line["said"], "mm", KNOWN, GROUPS)
    assert (" + ".join(said.parts), said.how.value, told(said)) == (
        line["part"], line["came off"], line["and"],
    )  # fmt: skip
