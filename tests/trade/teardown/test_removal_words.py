"""Words of the removal log."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry
from rebuild.trade.joints import tour as joints_tour
from rebuild.trade.teardown import removal_words
from rebuild.trade.teardown.fastener_words import fastener_words
from rebuild.trade.teardown.meant import Named, NotAmong, meant
from rebuild.trade.teardown.removal_words import parse_removal
from rebuild.trade.waiting import clock
from rebuild.words.joints import Tightness
from rebuild.words.teardown import FastenerKind, RemovalWay
from rebuild.words.waiting import ClockKind


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


def test_what_is_said_exactly_wins_and_a_number_is_the_whole_number() -> None:
    things = [Named(1, "", "Saddle"), Named(2, "", "Saddle gib"), Named(3, "", "bag 70")]
    assert meant("saddle", things[1:], things).key == 1, "exactly, although another list comes first"
    assert meant("gib", things).key == 2
    with pytest.raises(NotAmong, match="“bag 7” is none of those there"):
        meant("bag 7", things, where="Stored in")


@pytest.mark.parametrize(
    ("line", "parts", "how"),
    [
        ("Gib, tapered l, > bag 7", ("Gib, tapered",), RemovalWay.LIFTED),
        ("drive shaft w", ("drive shaft",), RemovalWay.PULLED),
        ("driven small end", (), RemovalWay.DRIVEN),
        ("“Screw, left hand, long” u", ("Screw, left hand, long",), RemovalWay.UNSCREWED),
        ("Pull rod s + 2 l", ("Pull rod s", "2"), RemovalWay.LIFTED),
        ("cap unscrewed 4 x 3/8-16", ("cap",), RemovalWay.UNSCREWED),
        ("spring m", ("spring",), RemovalWay.MISSING),
    ],
)
def test_names_hold_commas_and_words_of_the_log(line: str, parts: tuple[str, ...], how: RemovalWay) -> None:
    said = parse_removal(line, known=("Gib, tapered", "Gib", "Pull rod s", "2"))
    assert (said.parts, said.how) == (parts, how)


def test_the_end_the_way_round_and_what_broke_come_from_the_same_line() -> None:
    said = parse_removal("pin w, from the front, oil hole up, mark two dots, broke one ear")
    assert (said.from_end, dict(said.typed)) == (
        "front", {"orientation": "oil hole up", "match_mark": "two dots", "broke": "one ear"},
    )  # fmt: skip
    assert dict(parse_removal("lug x snapped at the root").typed) == {"broke": "snapped at the root"}
    assert dict(parse_removal("lug x, lost behind the bed").typed) == {"broke": "lost behind the bed"}


def test_words_that_lean_on_the_word_before_them_keep_it() -> None:
    said = parse_removal("pin d, from above, hard to start, broke at the collar, found in the sump")
    assert dict(said.typed) == {
        "hard": "hard to start", "broke": "broke at the collar", "found": "found in the sump",
    }  # fmt: skip
    assert removal_words.way_words(said.how, said.from_end) == "driven out from above"
    assert dict(parse_removal("lug broke at the collar").typed) == {"broke": "broke at the collar"}
    assert parse_removal("lug broke in bag 3").place == "bag 3"
    assert dict(parse_removal("pin d, from above, hard 3 t, at the rear").typed) == {
        "hard": "3 t", "location": "the rear",
    }  # fmt: skip


@pytest.mark.parametrize(
    "clause",
    [
        "wide end to the rear", "wide end at the front", "shoulder to the front", "open side to the nose",
        "thick side out", "marked side out", "chamfer in", "flat up", "small end towards the wheel", "step side down",
        "closed end facing the belt", "narrow end inwards", "hook to the rear", "rack to the left",
        "oil hole towards the column",
    ],
)  # fmt: skip
def test_which_way_round_is_said_as_people_say_it(clause: str) -> None:
    """The first five are lines of a stranger, read as notes."""
    said = parse_removal(f"ring s, {clause}, > bag 3")
    assert (dict(said.typed), said.place) == ({"orientation": clause}, "bag 3")


def test_words_like_those_of_a_way_round_keep_their_own_sense() -> None:
    said = parse_removal("cap u, 2 taper pin, big end front, mark two dots, flat spot worn, shim under it")
    assert dict(said.typed) == {"match_mark": "two dots", "note": "flat spot worn; shim under it"}
    worn = parse_removal("ring s, hole out of round, rack to be cleaned, lug at the left broken")
    assert "orientation" not in dict(worn.typed)
    assert "big end front" in fastener_words(said.fasteners[0])
    assert parse_removal("pin d small end").from_end == "small end"


def test_words_of_the_bench_go_where_they_belong() -> None:
    """Said by a fitter at the bench (common practice, no source); a pin comes out across from where it is struck."""

    def typed(line: str) -> dict[str, str]:
        return dict(parse_removal(line).typed)

    assert typed("ring s, tight") == {"hard": "tight"}
    assert typed("ring s, badly worn at the top") == {"found": "badly worn at the top"}
    assert typed("bush p, from the rear, worn") == {"found": "worn"}
    assert typed("screw u, upper one marked A, lower one B, tight") == {
        "match_mark": "upper one marked A; lower one B",
        "hard": "tight",
    }
    assert typed("stud u, sheared off flush") == {"broke": "sheared off flush"}
    broken = parse_removal("stud sheared off flush, > bag 2")
    assert (broken.how.value, dict(broken.typed)) == ("broken off", {"broke": "sheared off flush"})
    assert parse_removal("pin d, out the front").from_end == "rear"
    assert parse_removal("pin d out the front, > bag 1").from_end == "rear"
    assert parse_removal("pin d out front").from_end == "front", "as it was said till now"
    assert parse_removal("shaft w, out the front").from_end == "front"
    held = parse_removal("cover u, 3x M6 x 16, spring washer, > bag 1").fasteners
    assert [(one.count, one.thread, one.length, one.note) for one in held] == [
        (3, "M6", "16", "spring washer")
    ]
    alone = parse_removal("cover l, spring washer").fasteners
    assert [(one.kind, one.note) for one in alone] == [("other", "spring washer")]
    assert typed("bush p, from the rear, bore 14.00") == {"note": "bore 14.00"}
    assert removal_words.says_a_size("bore 14.00")
    assert not removal_words.says_a_size("goes in bag 14")
