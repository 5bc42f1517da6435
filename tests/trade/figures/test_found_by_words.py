"""A figure is found by what the shop calls it, from the beginning of a word, and by nothing inside one."""

from __future__ import annotations

import pytest

from rebuild.trade.figures import all_figures
from rebuild.trade.figures.shop_words import SHOP_WORDS
from rebuild.trade.results.figure_find import found_by, none_found


def _topics(asked: str) -> list[str]:
    return [figure.topic for figure in found_by(all_figures().values(), asked)]


@pytest.mark.parametrize(
    ("asked", "topic"),
    [
        ("circlip", "ring-groove"),
        ("snap ring", "ring-groove"),
        ("bolt circle", "hole-circle"),
        ("half moon", "woodruff"),
        ("IT7", "it-grade"),
        ("compression spring", "spring"),
        ("v-belt", "belt"),
        ("oil line", "identify-pipe"),
        ("taper 0.475", "identify-taper"),
        ("NPT", "identify-pipe"),
        ("1/4-18 NPT", "pipe-thread"),
        ("1/4-18", "pipe-thread"),
        ("1/2-10 LH ACME", "acme"),
        ("1/2-13", "thread"),
        ("2768", "general-tolerance"),
        ("gears", "gear"),
        ("three wires", "over-wires"),
    ],
)
def test_the_shops_words(asked: str, topic: str) -> None:
    assert topic in _topics(asked)


def test_a_word_is_found_from_its_beginning() -> None:
    found = _topics("ring")
    assert "ring-groove" in found
    assert not {"bearing", "spring", "verdict"} & set(found)


def test_every_figure_has_words_and_no_word_is_for_nothing() -> None:
    assert set(SHOP_WORDS) == set(all_figures())
    assert _topics("") == list(all_figures())
    assert _topics("0.475") == []
    assert "“xyzzy”" in none_found("xyzzy")


@pytest.mark.parametrize(
    ("asked", "topic"),
    [
        ("center of mass", "centre-of-mass"),
        ("center of gravity", "centre-of-mass"),
        ("back gear", "spindle-speeds"),
        ("dividing", "dividing"),
        ("sheave", "belt"),
        ("drill chuck", "taper"),
        ("6904", "bearing"),
        ("6305-2RS", "bearing"),
        ("R8", "bearing"),
        ("MT2", "taper"),
        ("lb/in", "spring"),
    ],
)
def test_the_nearest_comes_first_in_the_spelling_of_either_side(asked: str, topic: str) -> None:
    assert _topics(asked)[0] == topic


def test_numbers_lead_to_all_that_bear_them() -> None:
    # Source: ISO 15: 606 is a bearing of 6 x 17 x 6; ASME B17.2: 606 is a Woodruff key.
    assert {"bearing", "woodruff", "identify-woodruff"} <= set(_topics("606"))
    assert "sling" in _topics("pounds")
