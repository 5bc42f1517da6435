"""One glance of a part holds what the pages hold of it."""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.errors import NotThere
from rebuild.words.places import PlaceKind
from rebuild.work.log.acts import ask
from rebuild.work.machines import acts as identify
from rebuild.work.part_card.rows import About, glance
from rebuild.work.readings.acts import Entry, record_reading
from tests.conftest import Shop

NOW = dt.datetime(2026, 3, 14, 19, 0)


def test_a_part_with_nothing_known_tells_where_it_lies_and_that_it_is_not_decided(shop: Shop) -> None:
    part = identify.add_part(shop.store, shop.machine, shop.headstock, "long pin")
    with shop.store.read() as connection:
        found = glance(connection, part, NOW)
    assert [(about, lines[0].words) for about, lines in found.sections] == [
        (About.LIES, "no place noted"),
        (About.DECIDED, "still to be decided"),
    ]


def test_readings_come_with_their_range_and_the_worst_verdict(shop: Shop) -> None:
    record_reading(shop.store, "59.985", Entry(shop.journal, shop.near, instrument_id=shop.micrometer))
    with shop.store.read() as connection:
        (line,) = glance(connection, shop.spindle, NOW).of(About.READ)
    assert line.words == "front journal: 59.985 mm, 1 station not read"
    record_reading(
        shop.store, "59.90", Entry(shop.journal, shop.far, instrument_id=shop.micrometer), confirmed=True
    )
    with shop.store.read() as connection:
        (line,) = glance(connection, shop.spindle, NOW).of(About.READ)
    assert line.words == "front journal: 59.900 mm to 59.985 mm"
    assert line.tail == "does not conform"


def test_place_decision_steps_and_questions_stand_in_it(shop: Shop) -> None:
    tote = identify.add_place(shop.store, "7", PlaceKind.TOTE)
    identify.put(shop.store, [shop.cap], tote)
    question = ask(shop.store, shop.machine, "Was it bored in line?", part_id=shop.cap)
    with shop.store.read() as connection:
        found = glance(connection, shop.cap, NOW)
    assert found.title == "HS-02 bearing cap"
    assert found.of(About.LIES)[0].words == "tote 7"
    assert (found.of(About.DECIDED)[0].words, found.of(About.DECIDED)[0].tail) == (
        "remake",
        "cracked through",
    )
    assert found.of(About.QUESTIONS)[0].row_id == question
    (step,) = found.of(About.STEPS)
    assert (step.words, step.tail) == ("Make a new cap", "waits for Measure the journals")


def test_a_part_that_is_gone_says_so(shop: Shop) -> None:
    with (
        shop.store.read() as connection,
        pytest.raises(NotThere, match=r"The part no\. 999 is no longer there"),
    ):
        glance(connection, 999, NOW)
