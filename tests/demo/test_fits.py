"""The demo's fits: in every state, with a ripple, a worn screw with its nut, and a shrink fit's two ways."""

from __future__ import annotations

from collections import Counter

from rebuild.store.store import Store
from rebuild.trade.joints.shrink_choice import ways_to_assemble
from rebuild.words.fits import FitKind
from rebuild.work.decisions import rows_odd_sizes as odd_sizes, rows_options as options
from rebuild.work.fits import rows as fits
from rebuild.work.fits.rows import FitRow, FitState
from rebuild.work.making.rows_order import making_order


def every(demo: Store) -> list[FitRow]:
    with demo.read() as connection:
        return [row for machine in (1, 2) for row in fits.rows(connection, fits.fit_ids(connection, machine))]


def named(demo: Store, name: str) -> FitRow:
    return next(row for row in every(demo) if row.name == name)


def test_there_are_fits_in_every_state(demo: Store) -> None:
    rows = every(demo)
    assert len(rows) >= 20
    assert set(Counter(row.state for row in rows)) == set(FitState)
    assert {row.kind for row in rows} >= {
        FitKind.RUNNING, FitKind.SLIDING, FitKind.PRESS, FitKind.PUSH, FitKind.SHRINK, FitKind.THREAD, FitKind.MESH,
    }  # fmt: skip


def test_two_fits_are_stale_one_by_a_reading_one_by_the_ripple(demo: Store) -> None:
    stale = {row.name: row.stale for row in every(demo) if row.stale}
    assert set(stale) == {"Feed shaft in the right bracket", "Handwheel shaft in the apron"}
    assert stale["Handwheel shaft in the apron"] == ("AP-02 handwheel shaft decided rework, was reuse",)
    assert "measured again 22.052 mm" in stale["Feed shaft in the right bracket"][0]
    with demo.read() as connection:
        order = making_order(connection, 2)
    casting = next(row for row in order.rows if row.title == "AP-01 apron casting")
    assert "AP-02 handwheel shaft, journal is to be reworked" in casting.needs[0].sentence


def test_the_worn_screws_say_what_no_nut_can_take_up(demo: Store) -> None:
    cross_feed, cross_slide = (
        named(demo, "Cross-feed nut on its screw"),
        named(demo, "Cross slide nut on its screw"),
    )
    for row, mm in ((cross_feed, 0.025 * 25.4), (cross_slide, 17.832 - 17.512)):
        assert row.after_adjusting is not None
        assert abs(row.after_adjusting.remains_mm - mm) < 1e-6
        assert any("an adjustable nut cannot take up" in remark for remark in row.remarks)
    with demo.read() as connection:
        listed = options.options(connection, cross_feed.inner.part_id)
    assert [option.decision.value for option in listed] == ["reuse", "remake", "rework"]


def test_the_shrink_fit_offers_freezer_and_oven(demo: Store) -> None:
    rim = named(demo, "Gear rim on the quill")
    assert rim.low_mm is not None
    ways = ways_to_assemble(120.0, -rim.low_mm, rim.outer.material, rim.inner.material).value
    hub = {way.cold: way.hub_C for way in ways}
    assert hub["household freezer"] < hub[""]
    with demo.read() as connection:
        assert len(options.options(connection, rim.outer.part_id)) == 2


def test_odd_sizes_reach_the_mates(demo: Store) -> None:
    mate = named(demo, "Handwheel shaft in the apron").outer.part_id
    with demo.read() as connection:
        known = {row.what: row.through for row in odd_sizes.odd_sizes_for(connection, mate)}
    assert known["journal about 0.03 mm under its drawing"] == "of its mate"
