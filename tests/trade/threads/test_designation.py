"""Designations: every form people write, round trips, and what is refused or asked."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import Ambiguous, BadEntry, RebuildError
from rebuild.trade.threads.designation import parse_designation
from rebuild.trade.threads.lookup import for_designation
from rebuild.trade.threads.pitch import parse_pitch
from rebuild.trade.threads.series import System, standards
from rebuild.trade.threads.sizes import Side

READ = [
    ("7/16-10 LH ACME", System.ACME, 0.4375, 10, 1, True, ""),
    ("7/16-10 ACME-2G-LH", System.ACME, 0.4375, 10, 1, True, "2G"),
    ("1-8 Acme 2G", System.ACME, 1.0, 8, 1, False, "2G"),
    ("1 3/8-4 stub acme", System.STUB_ACME, 1.375, 4, 1, False, ""),
    ("1-5 2-start ACME", System.ACME, 1.0, 5, 2, False, ""),
    ("2.5-0.3333P-0.6667L-ACME-2G", System.ACME, 2.5, 3, 2, False, "2G"),
    ("3/8-16 UNC-2B", System.UNIFIED, 0.375, 16, 1, False, "2B"),
    ("1-3/8-6 UNC", System.UNIFIED, 1.375, 6, 1, False, ""),
    ("½-13 UNC", System.UNIFIED, 0.5, 13, 1, False, ""),
    ("#10-24", System.UNIFIED, 0.19, 24, 1, False, ""),
    ("10-32", System.UNIFIED, 0.19, 32, 1, False, ""),
    ("1-8", System.UNIFIED, 1.0, 8, 1, False, ""),
    ("1-64", System.UNIFIED, 0.073, 64, 1, False, ""),
    ("2-4 1/2 UNC", System.UNIFIED, 2.0, 4.5, 1, False, ""),
    ("1/4 UNC", System.UNIFIED, 0.25, 20, 1, False, ""),
    ("5/8-11 NC", System.UNIFIED, 0.625, 11, 1, False, ""),
    ("1-14 UNS", System.UNIFIED, 1.0, 14, 1, False, ""),
    ("1/4 BSW", System.WHITWORTH, 0.25, 20, 1, False, ""),
    ("3/8 BSF medium", System.WHITWORTH, 0.375, 20, 1, False, "medium"),
    ("1/2 Whitworth", System.WHITWORTH, 0.5, 12, 1, False, ""),
]


@pytest.mark.parametrize(("text", "system", "inches", "tpi", "starts", "left", "cls"), READ)
def test_inch_forms(
    text: str, system: System, inches: float, tpi: float, starts: int, left: bool, cls: str
) -> None:
    found = parse_designation(text)
    assert (found.system, found.nominal_in, found.tpi) == (system, inches, tpi)
    assert (found.starts, found.left_hand, found.thread_class) == (starts, left, cls)
    assert found.lead_mm == pytest.approx(starts * 25.4 / tpi)


@pytest.mark.parametrize(
    ("text", "d", "P", "starts", "left", "cls"),
    [
        ("M8", 8, 1.25, 1, False, ""), ("M8x1.25", 8, 1.25, 1, False, ""), ("m8 × 1 - 6h LH", 8, 1, 1, True, "6h"),
        ("M8-1.25", 8, 1.25, 1, False, ""), ("M8-6g", 8, 1.25, 1, False, "6g"), ("M8,5x1", 8.5, 1, 1, False, ""),
        ("M10x1.5-5g6g", 10, 1.5, 1, False, "5g6g"), ("M3 x 0.5 - 6H", 3, 0.5, 1, False, "6H"),
        ("Tr 20x4 LH", 20, 4, 1, True, ""), ("Tr40x14(P7)-7e", 40, 7, 2, False, "7e"),
        ("2 BA", 4.7, 0.81, 1, False, ""), ("BA 0", 6, 1, 1, False, ""),
    ],
)  # fmt: skip
def test_metric_forms(text: str, d: float, P: float, starts: int, left: bool, cls: str) -> None:
    found = parse_designation(text)
    assert (found.nominal_mm, found.pitch_mm, found.tpi) == (d, P, None)
    assert (found.starts, found.left_hand, found.thread_class) == (starts, left, cls)


@given(st.sampled_from(standards()), st.booleans())
def test_every_standard_thread_reads_back(row, left: bool) -> None:  # type: ignore[no-untyped-def]
    found = parse_designation(row.name.split(" (")[0] + (" LH" if left else ""))
    assert found.nominal_mm == pytest.approx(row.major_mm)
    assert found.pitch_mm == pytest.approx(row.pitch_mm)
    assert found.system is row.system
    assert found.left_hand is left


@given(st.sampled_from([text for text, *_ in READ] + ["M8x1-6g", "Tr 40x14(P7)-7e-LH", "2 BA"]))
def test_names_are_stable(text: str) -> None:
    once = parse_designation(text)
    twice = parse_designation(once.name)
    assert twice.name == once.name
    assert (twice.nominal_mm, twice.pitch_mm, twice.starts) == (once.nominal_mm, once.pitch_mm, once.starts)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "is not a thread"), ("3/8", "threads per inch"), ("20 BA", "0 to 16"), ("1/2-13 BSW", "12 threads"),
        ("1/2-12 UNC", "13 threads"), ("1/2-10 ACME 2C", "centralizing"), ("Tr 20x5(P3)", "whole number"),
        ("M", "is not a thread"), ("M8x0", "more than zero"), ("M9.3", "coarse pitch"), ("#13-24", "0 to 12"),
        ("0/4-20", "more than zero"), ("5/16-24 odd", "is not a thread"), ("M8x1 2-start", "several starts"),
    ],
)  # fmt: skip
def test_refusals(text: str, words: str) -> None:
    with pytest.raises(BadEntry, match=words):
        parse_designation(text)


def test_a_pair_standard_only_as_whitworth_is_asked_about() -> None:
    with pytest.raises(Ambiguous) as caught:
        parse_designation("1/2-12")
    for _meaning, retyped in caught.value.readings:
        assert parse_designation(retyped).tpi == 12


@given(st.text(max_size=20))
def test_any_text_is_read_or_refused_in_a_sentence(text: str) -> None:
    try:
        found = parse_designation(text)
    except RebuildError as refused:
        sentence = str(refused)
    else:
        sentence = found.name
        assert found.nominal_mm > 0
        assert found.pitch_mm > 0
    assert sentence


@pytest.mark.parametrize(
    ("text", "side", "cls", "got_side"),
    [
        ("3/8-16 UNC", None, "2A", Side.EXTERNAL), ("3/8-16 UNC-2B", None, "2B", Side.INTERNAL),
        ("3/8-16 UNC-3A", "internal", "3B", Side.INTERNAL), ("M8", "internal", "6H", Side.INTERNAL),
        ("M8-4h", "internal", "5H", Side.INTERNAL), ("M8-7H", "external", "8g", Side.EXTERNAL),
        ("Tr 20x4-8c", "internal", "8H", Side.INTERNAL), ("Tr 20x4-9H", "external", "9c", Side.EXTERNAL),
        ("1/2 BSW free", "internal", "normal", Side.INTERNAL), ("1/2 BSW", None, "medium", Side.EXTERNAL),
        ("7/16-10 ACME", "internal", "2G", Side.INTERNAL), ("2 BA", "internal", "nut", Side.INTERNAL),
    ],
)  # fmt: skip
def test_for_designation_picks_side_and_class(text: str, side: str | None, cls: str, got_side: Side) -> None:
    found = for_designation(text, side).value
    assert (found.thread_class, found.side) == (cls, got_side)


def test_the_class_taken_is_said() -> None:
    assert "2A is taken" in for_designation("3/8-16 UNC").working.text()
    assert "its usual mate 2B is taken" in for_designation("3/8-16 UNC-2A", "internal").working.text()
    assert "Left-hand" in for_designation("7/16-10 LH ACME").working.text()


def test_pipe_threads_have_no_limits_here() -> None:
    assert parse_designation("G 1/4").system is System.PIPE_PARALLEL
    with pytest.raises(BadEntry, match="pipe thread"):
        for_designation("1/4-18 NPT")


def test_pitch_as_typed() -> None:
    assert parse_pitch("13 tpi") == pytest.approx(25.4 / 13)
    assert parse_pitch("4 1/2 tpi") == pytest.approx(25.4 / 4.5)
    assert parse_pitch("0.0625 in") == pytest.approx(25.4 / 16)
    with pytest.raises(Ambiguous, match="threads per inch"):
        parse_pitch("12")
    for text in ("0 tpi", "0 mm", "-1 mm"):
        with pytest.raises(BadEntry):
            parse_pitch(text)
