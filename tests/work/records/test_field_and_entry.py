"""One entry as it is asked for: numbers and words read the same for a record's field and for a figure's entry."""

from __future__ import annotations

from enum import StrEnum

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.results.asked import Asked
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.input import Input, InputKind
from rebuild.work.records.field import Field, FieldKind

WORDS = ("dry", "lubricated", "lubricated, waxed")


class Condition(StrEnum):
    DRY = "dry"
    OILED = "lubricated"
    WAXED = "lubricated, waxed"


def as_entry(kind: InputKind, text: str) -> object:
    entries = Entries((Input("x", "Thread, face", kind, choices=WORDS),), {"x": text})
    return {
        InputKind.NUMBER: entries.number,
        InputKind.WHOLE: entries.whole,
        InputKind.CHOICE: entries.choice,
    }[kind]("x")


def as_field(kind: FieldKind, text: str) -> object:
    return Field("x", "Thread, face", kind, choices=Condition).read(text)["x"]


@pytest.mark.parametrize(("text", "value"), [("1.5", 1.5), ("1,5", 1.5), ("−2", -2.0), ("0", 0.0)])
def test_a_number_is_read_alike(text: str, value: float) -> None:
    assert as_entry(InputKind.NUMBER, text) == as_field(FieldKind.NUMBER, text) == value


@pytest.mark.parametrize("text", ["inf", "-inf", "nan", "1e999", "two", "1.2.3"])
def test_what_is_no_finite_number_is_refused_alike(text: str) -> None:
    said = f"Thread, face: “{text}” is not a number. Type a number, for example 1.5."
    for read in (lambda: as_entry(InputKind.NUMBER, text), lambda: as_field(FieldKind.NUMBER, text)):
        with pytest.raises(BadEntry) as refusal:
            read()
        assert str(refusal.value) == said


@pytest.mark.parametrize("text", ["2.0", "two", "½"])
def test_what_is_no_whole_number_is_refused_alike(text: str) -> None:
    for read in (lambda: as_entry(InputKind.WHOLE, text), lambda: as_field(FieldKind.WHOLE, text)):
        with pytest.raises(BadEntry, match=r"is not a whole number\. Type a whole number, for example 2\."):
            read()


@pytest.mark.parametrize(
    ("text", "word"),
    [("dry", "dry"), ("D", "dry"), ("LUBRICATED", "lubricated"), ("lubricated,", "lubricated, waxed")],
)
def test_a_word_is_read_alike(text: str, word: str) -> None:
    assert as_entry(InputKind.CHOICE, text) == as_field(FieldKind.CHOICE, text) == word


@pytest.mark.parametrize("text", ["lub", "wet", "dryer"])
def test_a_beginning_of_two_words_or_of_none_is_refused_alike(text: str) -> None:
    said = f"Thread, face: “{text}” is not one of the words. Choose dry, lubricated, lubricated, waxed."
    for read in (lambda: as_entry(InputKind.CHOICE, text), lambda: as_field(FieldKind.CHOICE, text)):
        with pytest.raises(BadEntry) as refusal:
            read()
        assert str(refusal.value) == said


def test_both_are_the_same_description() -> None:
    assert issubclass(Field, Asked)
    assert issubclass(Input, Asked)
    assert (Field("a", "A").required, Input("a", "A", InputKind.TEXT).required) == (False, True)
