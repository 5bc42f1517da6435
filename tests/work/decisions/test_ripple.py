"""What a decision touches: fits, followers, sheets, odd sizes."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry
from rebuild.store.act import Act
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitKind, Side
from rebuild.words.readings import FeatureKind
from rebuild.work.decisions import (
    acts as decide,
    acts_odd_sizes as odd_sizes,
    rows_odd_sizes as odd_lookup,
    rows_ripple as ripple,
)
from rebuild.work.decisions.acts import Taking
from rebuild.work.decisions.acts_odd_sizes import OddEntry
from rebuild.work.decisions.acts_ripple import Settling, settle
from rebuild.work.decisions.rows_ripple import Touch
from rebuild.work.editing import acts as edit
from rebuild.work.fits import acts as fits
from rebuild.work.fits.acts import FitEntry
from rebuild.work.fits.rows import fit
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts_features as spec
from tests.work.teardown.apron import Apron


@pytest.fixture
def apron(small_apron: Apron) -> Apron:
    return small_apron


def test_a_ripple_lists_fits_followers_and_sheets_before_the_decision_and_it_comes_true(apron: Apron) -> None:
    screw = apron.parts["XS-03"]
    with apron.store.read() as connection:
        before = ripple.ripple(
            connection, screw, Decision.REMAKE,
            sheets=lambda _connection, parts: [(1, f"sheet of {len(parts)} part")],
        )  # fmt: skip
    told = {touch.how: touch for touch in before.touched}
    assert told[Touch.STALE].fit_id == apron.screw_fit
    assert (
        told[Touch.WAITS].sentence
        == "XS-04 cross nut, nut thread waits for XS-03 cross screw, screw thread as made"
    )
    assert told[Touch.SHEET].sentence == "sheet of 1 part waits for XS-03 cross screw"
    assert before.parts == ((apron.parts["XS-04"], "XS-04 cross nut"),)
    settle(
        apron.store,
        screw,
        Settling(Decision.REMAKE, "worn mid-travel", taking=Taking("new length spliced on")),
    )
    with apron.store.read() as connection:
        after = fit(connection, apron.screw_fit)
    assert after.master_side is not None
    assert after.master_side.wait is not None
    assert after.master_side.title == "XS-03 cross screw, screw thread"
    assert after.stale == ("XS-03 cross screw decided remake, was reuse",)


def test_followers_behind_followers_are_among_the_parts(apron: Apron) -> None:
    cap = identify.add_part(apron.store, apron.machine, None, "dust cap", "AP-13")
    rim = spec.add_feature(apron.store, cap, "rim", FeatureKind.BORE, unit="in")
    fits.add_fit(apron.store, FitEntry(rim, apron.features["outside"], FitKind.PUSH, master=Side.INNER))
    with apron.store.read() as connection:
        found = ripple.ripple(connection, apron.parts["AP-11"], Decision.REMAKE)
    assert [title for _, title in found.parts] == ["AP-12 apron bush", "AP-13 dust cap"]


def test_a_follower_that_is_kept_does_not_wait_but_its_fit_is_stale(apron: Apron) -> None:
    decide.decide(apron.store, [apron.parts["XS-04"]], Decision.REUSE)
    with apron.store.read() as connection:
        found = ripple.ripple(connection, apron.parts["XS-03"], Decision.REMAKE)
    assert [touch.how for touch in found.touched if touch.fit_id] == [Touch.STALE]
    assert Touch.WAITS not in {touch.how for touch in found.touched}


def test_an_odd_size_is_carried_to_mates_spares_and_the_book(apron: Apron) -> None:
    spare = identify.add_part(apron.store, apron.machine, None, "spare bush", "AP-92")
    edit.edit(apron.store, "part", [spare], {"spare_of_id": str(apron.parts["AP-12"])})
    with apron.store.read() as connection:
        before = ripple.ripple(connection, apron.parts["AP-12"], Decision.REWORK, odd="bored 0.010 in over")
    carried = [touch.title for touch in before.touched if touch.how in (Touch.ODD, Touch.BOOK)]
    assert "AP-92 spare bush" in carried
    assert "machine's book" in carried
    odd = OddEntry("bored 0.010 in over", "0.625 in", "0.635", "score", apron.features["bore"])
    settle(apron.store, apron.parts["AP-12"], Settling(Decision.REWORK, "scored", odd=odd))
    with apron.store.read() as connection:
        (mates,) = odd_lookup.odd_sizes_for(connection, apron.parts["AP-11"])
        (spares,) = odd_lookup.odd_sizes_for(connection, spare)
        (book,) = odd_lookup.odd_sizes(connection, apron.machine)
    assert (mates.through, mates.size) == ("of its mate", "0.635 in")
    assert spares.through == "of the part it is a spare of"
    assert book.what == "bored 0.010 in over"
    apron.store.undo()
    with apron.store.read() as connection:
        assert odd_lookup.odd_sizes(connection, apron.machine) == []


def test_an_odd_size_of_another_parts_feature_is_refused(apron: Apron) -> None:
    with pytest.raises(BadEntry, match="of another part"):
        odd_sizes.add_odd_size(
            apron.store, apron.parts["AP-11"], OddEntry("over size", feature_id=apron.features["bore"])
        )


def test_an_odd_size_of_which_a_cell_is_left_out_is_shown_without(apron: Apron) -> None:
    """In a file with a bad cell a size may have its number and no text: the book ended in a fault."""
    odd_sizes.add_odd_size(apron.store, apron.parts["AP-11"], OddEntry("bore over size", size="16.5 mm"))
    with apron.store.act(Act.EDIT) as tx:
        tx.connection.exec_driver_sql("UPDATE odd_size SET size_text = NULL")
    with apron.store.read() as connection:
        assert [row.size for row in odd_lookup.odd_sizes(connection, apron.machine)] == [""]
