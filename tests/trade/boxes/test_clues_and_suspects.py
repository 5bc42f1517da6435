"""Clues as people type them, and which part a thing may be."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.boxes.clues import read_clue
from rebuild.trade.boxes.suspects import Candidate, HasSize, Seen, suspects
from rebuild.words.boxes import ClueKind, SizeOf

K = ClueKind


@pytest.mark.parametrize(
    ("typed", "kind", "text", "mm"),
    [
        ("24.98", K.SIZE, "across", 24.98),
        ("bore 0.9835 in", K.SIZE, "bore", 24.9809),  # Source: 1 in = 25.4 mm, ISO 31-1
        ("1-1/4 in across the flats", K.SIZE, "across the flats", 31.75),
        ("M10 x 1.5", K.THREAD, "M10 x 1.5", None),
        ("thread 3/8-16 UNC", K.THREAD, "3/8-16 UNC", None),
        ("7/16-10 LH ACME", K.THREAD, "7/16-10 LH ACME", None),
        ("MT 3", K.TAPER, "Morse 3", None),
        ("taper B&S 7", K.TAPER, "Brown & Sharpe 7", None),
        ("stamped 418 F", K.MARK, "418 F", None),
        ("smells of gear oil", K.OTHER, "smells of gear oil", None),
    ],
)
def test_a_clue_is_what_it_looks_like(typed: str, kind: ClueKind, text: str, mm: float | None) -> None:
    read = read_clue(typed)
    assert (read.kind, read.text) == (kind, text)
    assert (read.size.mm if read.size else None) == (pytest.approx(mm, abs=1e-3) if mm else None)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("   ", "Clue: is empty. Type one thing seen"),
        ("x" * 201, "is 201 letters long; 200 fit"),
        ("thread of an old kind", "is not a thread designation"),
        ("taper long", "Type it as MT3"),
    ],
)
def test_what_says_it_is_one_and_is_none_is_refused(typed: str, said: str) -> None:
    with pytest.raises(BadEntry, match=said):
        read_clue(typed)
    assert read_clue("x" * 200).kind is K.OTHER


def test_what_is_missing_comes_first_then_by_size_and_the_reasons_are_said() -> None:
    parts = (
        Candidate("gear", False, "change gear", (HasSize("bore", 24.99, 25.02),)),
        Candidate("bush", True, "idler bush", (HasSize("bore", 24.96, 25.0),)),
        Candidate("far", True, "gib", (HasSize("thickness", 6.0, 6.0),)),
        Candidate("none", False, "gib screw"),
        Candidate("near", False, "collar", (HasSize("bore", 25.3, 25.3),)),
    )
    found = suspects("ring", (Seen(K.SIZE, "bore", 24.98),), parts)
    assert [(one.key, round(one.score, 1)) for one in found] == [
        ("bush", 5.0),
        ("gear", 3.0),
        ("far", 2.0),
        ("near", 1.8),  # 0.32 mm off of 0.4996 at most: nearer than that counts more than 1
    ]
    assert found[0].why == ("missing", "bore 24.980 mm (0.9835 in) agrees with bore")
    assert found[3].why == ("bore 24.980 mm (0.9835 in) is 0.32 mm off bore",)


def test_a_size_told_twice_speaks_once_and_a_tenth_off_beats_what_is_only_missing() -> None:
    """A bronze washer: a vice handle that is missing once stood before the bores it goes into."""
    clues = (Seen(K.SIZE, "bore", 31.877), Seen(K.SIZE, "bore as read", 31.877))
    parts = (
        Candidate("handle", True, "vice handle"),
        Candidate("collar", False, "thrust collar", (HasSize("bore", 31.977, 32.0),)),
        Candidate("same", False, "spacer", (HasSize("bore", 31.87, 31.9),)),
    )
    found = suspects("bronze washer", clues, parts)
    assert [one.key for one in found] == ["same", "collar", "handle"]
    assert [len(one.why) for one in found] == [1, 1, 1]
    assert found[0].score == 3.0


def test_the_same_size_ends_where_it_is_said_to() -> None:
    at = (Candidate("part", False, "", (HasSize("bore", 10.0, 10.0),)),)
    for mm, reason in ((10.05, "agrees"), (10.0501, "is 0.05 mm off"), (10.2, "is 0.2 mm off")):
        assert reason in suspects("", (Seen(K.SIZE, "bore", mm),), at)[0].why[0], mm
    assert suspects("", (Seen(K.SIZE, "bore", 10.21),), at) == []


def test_threads_are_told_by_their_size_pitch_and_hand_not_by_how_they_are_typed() -> None:
    parts = (
        Candidate("right", False, "", (), ("M10x1.5",)),
        Candidate("fine", False, "", (), ("M10 x 1.25",)),
        Candidate("left", False, "", (), ("M10 x 1.5 LH",)),
        Candidate("stamped", False, "", (), (), (), "418 F"),
        Candidate("sleeve", False, "", (), (), ("Morse 3",)),
    )
    assert [one.key for one in suspects("", (Seen(K.THREAD, "M10"),), parts)] == ["right"]
    assert [one.key for one in suspects("", (Seen(K.MARK, "418"),), parts)] == ["stamped"]
    assert [one.key for one in suspects("", (Seen(K.TAPER, "Morse 3"),), parts)] == ["sleeve"]


@pytest.mark.parametrize(
    ("typed", "kind", "text"),
    [
        ("tapered 1:50", ClueKind.TAPER, "1:50"),
        ("taper 1 in 50", ClueKind.TAPER, "1:50"),
        ("1:7.5", ClueKind.TAPER, "1:7.5"),
        ("strip tapered 1:50", ClueKind.TAPER, "strip tapered 1:50"),
        ("bore 1 in", ClueKind.SIZE, "bore"),
        ("bore 1 in 3 mm deep", ClueKind.SIZE, "bore 3 mm deep"),
    ],
)
def test_a_ratio_is_a_taper_and_no_size(typed: str, kind: ClueKind, text: str) -> None:
    clue = read_clue(typed)
    assert (clue.kind, clue.text) == (kind, text)
    assert (clue.size is not None) == (kind is ClueKind.SIZE)


def test_a_thing_called_by_one_short_word_suspects_the_part_of_that_name() -> None:
    gib, knob = Candidate(1, False, "Gib", tapers=("1 in 50",)), Candidate(2, False, "Gib screw knob")
    found = suspects("gib", (), (knob, gib))
    assert {one.key for one in found} == {1, 2}
    assert [
        one.key for one in suspects("old gib", (Seen(ClueKind.TAPER, "strip tapered 1:50"),), (knob, gib))
    ] == [1]


def test_a_stamped_number_that_is_a_parts_own_comes_before_all_else_and_is_held_whole() -> None:
    missing = Candidate(
        "missing", True, "ring", (HasSize("length", 24.98, 24.98), HasSize("bore", 20.0, 20.0))
    )
    own = Candidate("own", False, "spacer", numbers=("15-303", ""))
    maker = Candidate("maker", False, "washer", numbers=("WA-01", "15 303"))
    longer = Candidate("longer", False, "washer", numbers=("15-3031", "303"))
    clues = (Seen(K.SIZE, "length", 24.98), Seen(K.SIZE, "bore", 20.0), Seen(K.MARK, "15-303"))
    found = suspects("steel ring", clues, (missing, own, maker, longer))
    assert [one.key for one in found] == ["own", "maker", "missing"], "303 and 15-3031 are other numbers"
    assert found[0].why == ("stamped 15-303: its own number is 15-303",)
    marked = suspects("", (Seen(K.MARK, "15-303 F"),), (own,))
    assert [one.key for one in marked] == ["own"], "a letter stamped beside the number hides it not"


def test_what_it_is_made_of_hides_no_name_and_what_was_seen_counts_as_its_name() -> None:
    parts = (Candidate("felt", False, "Felt ring"), Candidate("gear", False, "Gear"))
    assert [(one.key, one.why) for one in suspects("steel ring", (), parts)] == [("felt", ("called ring",))]
    seen = (Seen(K.OTHER, "ring, felt"),)
    assert [(one.key, one.why) for one in suspects("soft thing", seen, parts)] == [
        ("felt", ("called felt, ring",))
    ]


def test_a_size_is_held_only_to_sizes_that_go_across_the_same() -> None:
    def answers(words: str) -> list[tuple[str, float]]:
        return [(one.key, one.score) for one in suspects("", (Seen(K.SIZE, words, 24.98),), parts)]

    at = 24.98
    parts = (
        Candidate("journal", False, "", (HasSize("front", at, at, SizeOf.OUTSIDE),)),
        Candidate("bush", False, "", (HasSize("bore", at, at),)),
        Candidate("spacer", False, "", (HasSize("thickness", at, at),)),
        Candidate("unsaid", False, "", (HasSize("seat", at, at),)),
    )
    assert answers("length") == [("spacer", 1.5), ("unsaid", 1.5)], "a length is no diameter"
    assert answers("bore") == [("bush", 3.0), ("unsaid", 1.5)]
    assert answers("outside diameter") == [("journal", 3.0), ("unsaid", 1.5)]
    assert {key for key, _ in answers("")} == {"journal", "bush", "spacer", "unsaid"}
    bare = suspects("", (Seen(K.SIZE, "across", at),), parts)
    assert all(one.why[0].endswith("though nobody said what of it was measured") for one in bare)
