"""Every word of place the walk round the machine knows, spelled as people write it."""

from __future__ import annotations

import pytest

from rebuild.trade.joints.tour import STANDS, Stop, is_final, stand_of, walk, walk_key, wanted_for
from rebuild.words.joints import Tightness
from rebuild.words.teardown import FastenerKind

WORDS = {
    "underneath": ["under", "underneath", "underside", "below", "beneath", "sump", "pit"],
    "rear": ["rear", "back", "behind"],
    "front": ["front", "operator", "operator's", "operators", "apron"],
    "right": ["right", "tailstock", "outboard"],
    "left": ["left", "headstock", "end train"],
    "on top": ["top", "above", "over", "overarm", "overhead"],
}


@pytest.mark.parametrize(("stand", "word"), [(stand, word) for stand in WORDS for word in WORDS[stand]])
def test_a_word_of_place_tells_where_to_stand(stand: str, word: str) -> None:
    assert stand_of(f"cap, {word}") == stand
    assert stand_of(word.upper()) == stand


@pytest.mark.parametrize("word", ["stop", "leftover", "bright", "drear", "playback", "spit", "cockpit", ""])
def test_a_word_inside_another_tells_nothing(word: str) -> None:
    assert stand_of(word) == "elsewhere"


def test_the_walk_goes_round_from_the_front_and_ends_with_what_nobody_placed() -> None:
    stops = [Stop(stand, WORDS[stand][0] if stand in WORDS else "HS-04") for stand in reversed(STANDS)]
    assert walk(stops) == ["front", "right", "rear", "left", "on top", "underneath", "elsewhere"]


@pytest.mark.parametrize("high", ["top", "upper", "high", "higher", "above", "overhead"])
@pytest.mark.parametrize("low", ["bottom", "lower", "low", "foot", "feet", "base"])
def test_at_each_stand_one_goes_from_the_top_down(high: str, low: str) -> None:
    levels = [walk_key(f"rear {words}")[1] for words in (high, "cap", low)]
    assert levels == [0, 1, 2]


def test_the_user_s_own_order_stands_and_others_join_their_stand() -> None:
    stops = [Stop("a", "rear", 1), Stop("b", "front", 0), Stop("c", "rear low"), Stop("d", "left")]
    assert walk(stops) == ["b", "a", "c", "d"]


#: Common practice, no source: pins are pinned, set screws and rings locked, keys snug.
COMES_TO = {
    FastenerKind.TAPER_PIN: "pinned", FastenerKind.DOWEL: "pinned", FastenerKind.ROLL_PIN: "pinned",
    FastenerKind.RIVET: "pinned", FastenerKind.KEY: "snug", FastenerKind.SET_SCREW: "locked",
    FastenerKind.RING: "locked",
}  # fmt: skip


@pytest.mark.parametrize("kind", list(FastenerKind))
def test_what_each_fastener_comes_to(kind: FastenerKind) -> None:
    for known, otherwise in ((True, "torqued"), (False, "snug")):
        assert wanted_for(kind, torque_known=known) == COMES_TO.get(kind, otherwise)


def test_tightness_rises_in_the_order_of_the_work() -> None:
    order = ["apart", "loose", "finger", "snug", "torqued", "locked", "pinned"]
    assert [tight.value for tight in Tightness] == order
    for place, tight in enumerate(order):
        # "Apart" is no end to come to: whoever says so means snug, else a part in a bag would count as done.
        least = [order.index("snug"), *range(1, 7)]
        assert [is_final(tight, wanted) for wanted in order] == [other <= place for other in least]
