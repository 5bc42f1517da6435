"""Words of the removal log, shims, the second teardown, the walk, and clocks."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints import tour as joints_tour
from rebuild.trade.joints import usual_torque as joint_torque
from rebuild.trade.refit.words import CameOff, refit_note, refit_title, wants_help
from rebuild.trade.teardown import removal_words
from rebuild.trade.teardown.fastener_words import fastener_words, known_thread, parse_fastener
from rebuild.trade.teardown.removal_words import Named, meant, parse_removal
from rebuild.trade.teardown.second_teardown import compare
from rebuild.trade.teardown.shims import parse_leaves, total
from rebuild.trade.waiting import clock
from rebuild.trade.waiting.have_it import ENOUGH, likeness
from rebuild.words.joints import Tightness
from rebuild.words.teardown import FastenerKind, RemovalWay
from rebuild.words.waiting import ClockKind

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


def test_the_words_of_the_log_are_the_words_of_the_store() -> None:
    assert set(removal_words.HOW_KEYS.values()) == {way.value for way in RemovalWay}
    assert tuple(state.value for state in Tightness) == joints_tour.TIGHT
    assert set(clock._WORDS) == {kind.value for kind in ClockKind}
    for kind in FastenerKind:
        assert joints_tour.wanted_for(kind.value, torque_known=False) in joints_tour.TIGHT


@pytest.mark.parametrize("key", removal_words.HOW_KEYS)
def test_every_key_is_a_whole_line(key: str) -> None:
    assert parse_removal(key).how == removal_words.HOW_KEYS[key]


def test_a_line_that_does_not_say_how_is_refused_with_the_keys() -> None:
    with pytest.raises(BadEntry, match=r"does not say how it came off\..*l lifted, s slid off, u unscrewed"):
        parse_removal("hs2, > bag 3")


_WORD = st.text("bfgjkqvyz", min_size=3, max_size=6)
_CLAUSE = st.lists(st.one_of(_WORD, st.sampled_from(["M8", "3/8-16", "pin", "hard", "found", "shims", "mark", ">"])),
                   min_size=1, max_size=5)  # fmt: skip


@given(st.lists(_CLAUSE, min_size=1, max_size=4))
def test_nothing_said_is_lost(clauses: list[list[str]]) -> None:
    """Every word of every clause ends up somewhere: a fastener, shims, a place, or a note."""
    said = parse_removal("cap u, " + ", ".join(" ".join(clause) for clause in clauses))
    kept = " ".join([
        *(fastener_words(one) for one in said.fasteners), *(f"{one.where} {one.leaves}" for one in said.shims),
        said.place, *(value for _, value in said.typed),
    ])  # fmt: skip
    for clause in clauses:
        for word in clause:
            assert word in kept or word in ("hard", "found", "shims", "mark", ">"), (word, kept)


def test_a_code_a_number_or_words_name_a_part() -> None:
    parts = [
        Named(1, "HS-01", "spindle"),
        Named(2, "HS-02", "bearing cap"),
        Named(12, "HS-12", "bearing cap screw"),
    ]
    assert meant("hs2", parts).key == 2
    assert meant("12", parts).key == 12
    assert meant("spin", parts).key == 1
    with pytest.raises(BadEntry, match="could be HS-02 bearing cap, HS-12 bearing cap screw"):
        meant("bear cap", parts)


# Shims


@given(st.lists(st.integers(1, 40), min_size=1, max_size=6))
def test_a_pack_is_the_sum_of_its_leaves(thousandths: list[int]) -> None:
    text = " + ".join(f"0.{leaf:03d}" for leaf in thousandths)
    leaves = parse_leaves(text, "in")
    assert total(leaves, "in").value == pytest.approx(sum(thousandths) * 0.0254, rel=1e-12)


def test_what_is_no_shim_is_refused() -> None:
    assert len(parse_leaves("2 x 0.002 + 0.001", "in")) == 3
    with pytest.raises(BadEntry, match="“12” is not the thickness of a shim"):
        parse_leaves("0.5 + 12", "mm")


# Second teardown


def implied(missed: Sequence[tuple[int, int]], agreed: Sequence[tuple[int, int]]) -> set[tuple[int, int]]:
    """Every pair that follows from both together."""
    following: dict[int, set[int]] = {}
    for first, then in (*missed, *agreed):
        following.setdefault(first, set()).add(then)
    found: set[tuple[int, int]] = set()
    for start in following:
        queue, seen = [start], set[int]()
        while queue:
            for there in following.get(queue.pop(), ()):
                if there not in seen:
                    seen.add(there)
                    queue.append(there)
                    found.add((start, there))
    return found


@given(st.permutations(range(7)), st.permutations(range(7)))
def test_missed_constraints_with_the_agreed_ones_imply_the_whole_new_order(
    refitted: list[int], taken_off: list[int]
) -> None:
    """Property: nothing a second teardown taught is lost by naming neighbours only."""
    found = compare(refitted, taken_off)
    backwards = taken_off[::-1]
    at = {key: place for place, key in enumerate(refitted)}
    pairs = [(a, b) for place, a in enumerate(backwards) for b in backwards[place + 1 :]]
    agreed = [(a, b) for a, b in pairs if at[a] < at[b]]
    inverted = {(a, b) for a, b in pairs if at[a] > at[b]}
    assert set(found.missed) <= inverted
    assert inverted <= implied(found.missed, agreed)
    assert bool(found.missed) == bool(inverted)


def test_a_second_teardown_in_the_right_order_proposes_nothing() -> None:
    found = compare(["bed", "saddle", "apron"], ["apron", "saddle", "bed"])
    assert found.missed == ()
    assert compare(["a", "b"], ["c", "a"]).missing == ("b",)
    assert compare(["a", "b"], ["c", "a"]).new == ("c",)


# Joints and torque


@given(
    st.sampled_from(joints_tour.TIGHT),
    st.sampled_from(joints_tour.TIGHT),
    st.sampled_from(["", "dry", "oiled"]),
)
def test_a_joint_is_final_exactly_when_it_lacks_nothing(tight: str, wanted: str, dress: str) -> None:
    final = joints_tour.is_final(tight, wanted, dress, "oiled")
    assert final == (joints_tour.unfinished(tight, wanted, dress, "oiled") == "")
    if final and tight != "pinned":
        harder = joints_tour.TIGHT[joints_tour.TIGHT.index(tight) + 1]
        assert joints_tour.is_final(harder, wanted, dress, "oiled")


# Source: usual shop torques, common practice: 1/4-20 5-8, 5/16-18 12-17, 3/8-16 20-30, 1/2-13 50-75 lb-ft
@pytest.mark.parametrize(("thread", "low", "high"), [("1/4-20", 5, 8), ("5/16", 12, 17), ("1/2-13", 50, 75)])
def test_usual_torques(thread: str, low: float, high: float) -> None:
    found = joint_torque.joint_torque(thread)
    lbft = joint_torque.LBFT
    assert (found.value.low_Nm / lbft, found.value.high_Nm / lbft) == pytest.approx((low, high))
    assert "common practice" in found.working.text()


def test_a_torque_nobody_knows_is_not_made_up() -> None:
    with pytest.raises(OutOfRange, match=r"has no usual torque here\. Give its class or grade"):
        joint_torque.joint_torque("7/16-14")
    dry, oiled = joint_torque.joint_torque("M10", "8.8"), joint_torque.joint_torque("M10", "8.8", "oiled")
    assert oiled.value.low_Nm < dry.value.low_Nm


# Clocks

AT = dt.datetime(2026, 3, 14, 8, 0)


@given(st.sampled_from(list(ClockKind)), st.integers(0, 5000), st.integers(0, 5000), st.integers(0, 20000))
def test_a_clock_goes_from_running_to_now_to_over(kind: ClockKind, low: int, more: int, gone: int) -> None:
    order = list(clock.Standing)
    here = clock.read_clock(kind.value, AT, low, low + more, AT + dt.timedelta(minutes=gone))
    later = clock.read_clock(kind.value, AT, low, low + more, AT + dt.timedelta(minutes=gone + 60))
    assert order.index(later.standing) >= order.index(here.standing)
    assert here.words
    assert (here.standing is clock.Standing.RUNNING) == (gone < low)


def test_clock_words() -> None:
    def words(kind: str, hours: float, low: float | None, high: float | None = None) -> str:
        return clock.read_clock(kind, AT, low, high, AT + dt.timedelta(hours=hours)).words

    assert words("recoat", 5, 240, 2880) == "recoat now, until 16 Mar 08:00"
    assert words("re-torque", 1, 120) == "re-torque from 14 Mar 10:00, in 1 h"
    assert words("re-level", 90, 72 * 60) == "re-level: due since 17 Mar 08:00"
    assert words("in the bath", 72, None, 2880).endswith("meant to be out by 16 Mar 08:00, 1 d ago")


# Already have it?


@pytest.mark.parametrize(
    ("wanted", "there", "serves"),
    [
        ("taper pins no. 4", "taper pin No 4, 25 off", True),
        ("taper pins no. 4", "taper pins No. 3", False),
        ("6203 bearing", "bearing 6203 x2", True),
        ("6203 bearing", "bearing 6204", False),
        ("M8 socket screws", "socket screws M8x1.25", True),
        ("M8 socket screws", "socket screws M10", False),
        ("phosphor bronze bushing 1 in", "bush, phosphor bronze, 25.4 mm", True),
        ("drive belt A38", "belt A42", False),
        ("felt 1/4", "paint, grey", False),
    ],
)
def test_likeness(wanted: str, there: str, serves: bool) -> None:
    assert (likeness(wanted, there).score >= ENOUGH) is serves


# Words of a refit step


def test_a_refit_step_says_what_the_hands_ask_for() -> None:
    off = CameOff("HS-02 cap", "unscrewed", orientation="stamp 1 to the front", fasteners=["4 × 3/8-16 screw"],
                  shims=["left: 0.0090 in"], place="bag 3", hard="took two people")  # fmt: skip
    assert refit_title(off) == "Refit HS-02 cap"
    assert refit_note(off).splitlines() == [
        "Lay in: bag 3", "Came off unscrewed", "Sat: stamp 1 to the front", "Shims left: 0.0090 in",
        "Holds: 4 × 3/8-16 screw", "Hard: took two people",
    ]  # fmt: skip
    assert wants_help(off) == "two people"
