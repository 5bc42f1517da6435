"""A nut's sheet before there is a fit: the screw with the same thread in the file is offered, never passed over."""

from __future__ import annotations

import pytest

from rebuild.errors import BrokenOrder
from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.words.making import MakingProgress, PartShape
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.machines import acts as identify
from rebuild.work.making import acts as making, acts_sizes as making_sizes
from rebuild.work.making.acts_offered import make_fit, not_its_mate
from rebuild.work.making.rows_sheet import sheet_page
from rebuild.work.making.rows_sheet_lists import SheetPage
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.readings.acts import Entry
from tests.support import refuses

INCH = 25.4


@pytest.fixture
def nut(store: Store) -> int:
    """A sheet of a nut 1/2-10 LH Acme, its screw read over wires, no fit between them; a gib screw beside."""
    machine = identify.add_machine(store, "Bench shaper", {"unit": "in"})
    group = identify.add_subassembly(store, machine, "Rail", "RL")
    screw = identify.add_part(store, machine, group, "crosshead screw", "RL-01")
    other = identify.add_part(store, machine, group, "gib screw", "RL-09")
    part = identify.add_part(store, machine, group, "crosshead nut", "RL-02")
    decide.decide(store, [part], Decision.REMAKE, reason="worn")
    decide.decide(store, [screw], Decision.REUSE, reason="good for now")
    typed = {"thread": "1/2-10 LH ACME"}
    thread = spec.add_feature(store, screw, "thread", FeatureKind.THREAD, unit="in", typed=typed)
    spec.add_feature(store, other, "thread", FeatureKind.THREAD, unit="in", typed={"thread": "1/4-20 UNC"})
    measure.record_reading(
        store, "0.5050 over 0.0516 wires", Entry(thread, None, Stage.CLEANED), confirmed=True
    )
    sheet = making.start_sheet(store, part, shape=PartShape.NUT)
    making.change_sheet(store, sheet, typed)
    for size in page(store, sheet).sizes:
        if size.name in ("body diameter", "length"):
            making_sizes.set_size(store, size.id, "1.000 ±0.005")
    return sheet


def page(store: Store, sheet: int) -> SheetPage:
    with store.read() as connection:
        return sheet_page(connection, sheet)


def test_the_screw_is_offered_and_its_fit_gives_the_limits(store: Store, nut: int) -> None:
    """By hand: E = 0.5050 - 0.0516 x 4.99393 + 0.05 x 3.86671 = 0.44065, less the lead angle's 0.00050: 0.44014.

    The lead angle's part is (w/2) tan² s cos a cot a, tan s = 0.1/(pi 0.44): 0.0258 x 0.00523 x 0.96815 x 3.86671.
    With 0.002 to 0.005 wanted: 0.44214 to 0.44514, inwards 0.4422 to 0.4451.
    """
    offer = page(store, nut).offered
    assert offer is not None
    assert offer.mate == "RL-01 crosshead screw"
    assert "run on RL-01 crosshead screw? No fit says so, and it was read 0.44" in offer.sentence
    with pytest.raises(BrokenOrder, match="Does this 1/2-10 LH ACME run on RL-01 crosshead screw"):
        making.release(store, nut)
    with refuses(store, "To be: is empty"):
        make_fit(store, nut, offer, " ")
    before = page(store, nut)
    make_fit(store, nut, offer, "0.002-0.005")
    now = page(store, nut)
    assert now.offered is None
    pitch = [size for size in now.sizes if "pitch diameter" in size.name]
    assert len(pitch) == 1
    low, high = pitch[0].measure.low_mm, pitch[0].measure.high_mm
    assert low is not None
    assert high is not None
    assert low / INCH == pytest.approx(0.4422, abs=0.00001)
    assert high / INCH == pytest.approx(0.4451, abs=0.00001)
    assert not now.course.stale
    store.undo()
    assert page(store, nut) == before
    store.redo()
    making.release(store, nut)
    assert page(store, nut).course.progress is MakingProgress.RELEASED


def test_not_its_mate_is_noted_and_not_asked_again(store: Store, nut: int) -> None:
    not_its_mate(store, nut)
    found = page(store, nut)
    assert found.offered is None
    assert found.outcome.note == "Does not run on RL-01 crosshead screw."
    making.release(store, nut)
    assert page(store, nut).course.progress is MakingProgress.RELEASED


def test_released_all_the_same_at_the_second_press(store: Store, nut: int) -> None:
    making.release(store, nut, sure=True)
    assert page(store, nut).course.progress is MakingProgress.RELEASED
