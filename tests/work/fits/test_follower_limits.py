"""Limits of a follower from its master as measured."""

from __future__ import annotations

import pytest
from sqlalchemy import Connection

from rebuild.errors import BadEntry, NotThere, OutOfRange
from rebuild.trade.results.working import Worked
from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.fits import acts as fits
from rebuild.work.fits.rows import fit
from rebuild.work.fits.rows_follower import Follower, limits_in
from tests.work.teardown.apron import Apron

IN = 25.4


@pytest.fixture
def apron(small_apron: Apron) -> Apron:
    return small_apron


def wanted_follower_limits(
    connection: Connection, fit_id: int, *, allow_for_uncertainty: bool = False
) -> Worked[Follower]:
    return limits_in(fit(connection, fit_id), allow_for_uncertainty=allow_for_uncertainty)


def test_the_bush_follows_the_casting_as_measured(apron: Apron) -> None:
    with apron.store.read() as connection:
        found = wanted_follower_limits(connection, apron.press).value
    assert (found.low_mm, found.high_mm) == (pytest.approx(0.8136 * IN), pytest.approx(0.8140 * IN))
    assert found.final
    assert found.part_id == apron.parts["AP-12"]
    assert found.master_words[0].startswith("0.8128 in as found")


def test_limits_allowing_for_the_masters_uncertainty_are_narrower_by_it(apron: Apron) -> None:
    with apron.store.read() as connection:
        wide = wanted_follower_limits(connection, apron.press).value
        narrow = wanted_follower_limits(connection, apron.press, allow_for_uncertainty=True).value
    assert narrow.allowed_for_mm > 0
    assert wide.low_mm is not None
    assert wide.high_mm is not None
    assert narrow.low_mm == pytest.approx(wide.low_mm + narrow.allowed_for_mm)
    assert narrow.high_mm == pytest.approx(wide.high_mm - narrow.allowed_for_mm)


def test_limits_from_a_worn_master_to_be_remade_are_given_but_not_final(apron: Apron) -> None:
    apron.read("journal A", "0.6211")
    decide.decide(apron.store, [apron.parts["AP-11"]], Decision.REMAKE, reason="step")
    with apron.store.read() as connection:
        worked = wanted_follower_limits(connection, apron.running)
    assert not worked.value.final
    assert "is to be remade" in worked.working.text()
    apron.read("journal A", "0.6247", Stage.AS_MADE)
    with apron.store.read() as connection:
        found = wanted_follower_limits(connection, apron.running).value
    assert found.final
    assert (found.low_mm, found.high_mm) == (pytest.approx(0.6257 * IN), pytest.approx(0.6262 * IN))
    assert "measured 0.6247 in as made" in found.stale[-1].replace("again ", "")


def test_what_cannot_be_worked_out_says_why(apron: Apron) -> None:
    with apron.store.read() as connection:
        with pytest.raises(BadEntry, match="journal A: has no reading yet"):
            wanted_follower_limits(connection, apron.running)
        with pytest.raises(NotThere):
            wanted_follower_limits(connection, 999)
    fits.change_fit(apron.store, apron.running, {"master": ""})
    with apron.store.read() as connection, pytest.raises(BadEntry, match="Choose which side is not touched"):
        wanted_follower_limits(connection, apron.running)


def test_a_master_that_varies_more_than_the_range_leaves_no_room(apron: Apron) -> None:
    for station, size in zip(apron.stations("screw thread"), ("0.3830", "0.3590", "0.3828"), strict=True):
        apron.read("screw thread", size, station=station)
    with (
        apron.store.read() as connection,
        pytest.raises(OutOfRange, match=r"varies by 0\.0240 in along its length"),
    ):
        wanted_follower_limits(connection, apron.screw_fit)
