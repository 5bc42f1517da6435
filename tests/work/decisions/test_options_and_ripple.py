"""Follower limits, the order of making, proposals, options and ripples of a small apron."""

from __future__ import annotations

import pytest
from sqlalchemy import Connection

from rebuild.errors import BadEntry, NotThere, OutOfRange
from rebuild.store.store import Store
from rebuild.trade.results.working import Worked
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitKind, Side
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.decisions import acts_odd_sizes as odd_sizes
from rebuild.work.decisions import acts_options as options
from rebuild.work.decisions import rows_odd_sizes as odd_lookup
from rebuild.work.decisions import rows_options as option_lookup
from rebuild.work.decisions import rows_proposals as proposals
from rebuild.work.decisions import rows_ripple as ripple
from rebuild.work.decisions.acts import Taking
from rebuild.work.decisions.acts_odd_sizes import OddEntry
from rebuild.work.decisions.acts_ripple import Settling, settle
from rebuild.work.decisions.rows_ripple import Touch
from rebuild.work.editing import acts as edit
from rebuild.work.fits import acts as fits
from rebuild.work.fits.acts import FitEntry
from rebuild.work.fits.rows import fit
from rebuild.work.fits.rows_follower import Follower, limits_in
from rebuild.work.machines import acts as identify
from rebuild.work.making.rows_order import MakingOrder, NeedKind, making_order
from rebuild.work.readings import acts_features as spec
from rebuild.work.steps import acts as tasks
from tests.work.teardown.apron import Apron, build

IN = 25.4


@pytest.fixture
def apron(store: Store) -> Apron:
    return build(store)


def made(shop: Apron) -> MakingOrder:
    with shop.store.read() as connection:
        return making_order(connection, shop.machine)


# Follower limits


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


# Order of making


def test_the_shaft_comes_before_its_bush_and_the_bush_waits_for_it_as_made(apron: Apron) -> None:
    apron.read("journal A", "0.6211")
    parts = apron.parts
    decide.decide(apron.store, [parts["AP-11"], parts["AP-12"]], Decision.REMAKE, reason="worn")
    found = made(apron)
    assert [row.title for row in found.rows] == ["AP-11 pinion shaft", "AP-12 apron bush"]
    assert [row.tonight for row in found.rows] == [True, False]
    (need,) = found.rows[1].needs
    assert (need.kind, need.stage) == (NeedKind.MAKE, Stage.AS_MADE)
    assert found.rows[0].frees == ("AP-12 apron bush",)
    (measurement,) = found.measurements
    assert (measurement.feature_id, measurement.now) == (apron.features["journal A"], False)
    apron.read("journal A", "0.6247", Stage.AS_MADE)
    found = made(apron)
    assert [row.title for row in found.tonight] == ["AP-12 apron bush"]
    assert not found.measurements


def test_a_master_not_measured_is_a_measurement_to_take_now(apron: Apron) -> None:
    decide.decide(apron.store, [apron.parts["XS-04"]], Decision.REMAKE, reason="stripped")
    found = made(apron)
    (measurement,) = found.measurements
    assert measurement.now
    assert measurement.title == "XS-03 cross screw, screw thread"
    assert measurement.waiting == ("XS-04 cross nut",)


def test_a_loop_is_named_and_nothing_in_it_may_be_started(apron: Apron) -> None:
    store, f = apron.store, apron.features
    width = [spec.add_feature(store, apron.parts[code], "shoulder", FeatureKind.WIDTH, unit="in")
             for code in ("AP-11", "AP-12")]  # fmt: skip
    fits.add_fit(store, FitEntry(width[0], width[1], FitKind.SLIDING, master=Side.INNER, name="shoulder"))
    decide.decide(store, [apron.parts["AP-11"], apron.parts["AP-12"]], Decision.REMAKE, reason="worn")
    found = made(apron)
    assert found.loops == (
        ("AP-11 pinion shaft", "AP-12 apron bush", "AP-11 pinion shaft"),
    ) or found.loops == (("AP-12 apron bush", "AP-11 pinion shaft", "AP-12 apron bush"),)
    assert found.tonight == ()
    assert f["bore"]


def test_a_fit_without_a_master_asks_for_one(apron: Apron) -> None:
    fits.change_fit(apron.store, apron.running, {"master": ""})
    decide.decide(apron.store, [apron.parts["AP-11"]], Decision.REMAKE, reason="worn")
    (need,) = made(apron).rows[0].needs
    assert need.kind is NeedKind.CHOOSE


# Proposals


def test_a_worn_journal_is_proposed_for_remaking_with_its_working(apron: Apron) -> None:
    spec.set_spec(apron.store, [apron.features["journal A"]], "0.6245-0.6250")
    apron.read("journal A", "0.6211")
    with apron.store.read() as connection:
        first = proposals.proposals(connection, apron.parts["AP-11"])[0]
        listed = proposals.to_decide(connection, apron.machine)
    assert (first.decision, first.rule_key, first.value) == ("remake", "shaft-journal", "0.0034 in")
    text = first.working.text()
    assert "good up to 0.001 in, rework up to 0.003 in" in text
    assert "common practice" in text
    assert [row.part_id for row in listed] == [apron.parts["AP-11"]]
    assert listed[0].why == ("journal A does not conform",)


def test_the_users_own_limit_is_used_and_shown_as_edited_then_taken_back(apron: Apron) -> None:
    spec.set_spec(apron.store, [apron.features["journal A"]], "0.6245-0.6250")
    apron.read("journal A", "0.6211")
    options.set_rule(apron.store, "shaft-journal", rework="0.005", note="slow shaft")
    with apron.store.read() as connection:
        found = {p.rule_key: p for p in proposals.proposals(connection, apron.parts["AP-11"])}
        rule = next(rule for rule in proposals.criteria(connection) if rule.key == "shaft-journal")
    assert found["shaft-journal"].decision == "rework"
    assert found["shaft-journal"].edited
    assert "edited; the rule's own: 0.001 in and 0.003 in" in found["shaft-journal"].working.text()
    assert rule.edited
    options.set_rule(apron.store, "shaft-journal")
    with apron.store.read() as connection:
        assert not any(rule.edited for rule in proposals.criteria(connection))
    options.set_rule(apron.store, "shaft-journal", left_out=True)
    with apron.store.read() as connection:
        keys = {p.rule_key for p in proposals.proposals(connection, apron.parts["AP-11"])}
    assert "shaft-journal" not in keys
    with pytest.raises(BadEntry, match="above the limit for rework"):
        options.set_rule(apron.store, "shaft-journal", good="0.004")


def test_the_nut_gives_way_to_the_screw_and_a_worn_screw_is_said_to_need_both(apron: Apron) -> None:
    apron.read("nut thread", "0.3900")
    for station in apron.stations("screw thread"):
        apron.read("screw thread", "0.3830", station=station)
    with apron.store.read() as connection:
        nut = proposals.proposals(connection, apron.parts["XS-04"])[0]
        screw = {p.rule_key: p for p in proposals.proposals(connection, apron.parts["XS-03"])}
    assert (nut.decision, nut.rule_key) == ("remake", "nut-before-screw")
    assert screw["nut-before-screw"].decision == "reuse"
    apron.read("screw thread", "0.3590", station=apron.stations("screw thread")[1])
    with apron.store.read() as connection:
        worst = proposals.proposals(connection, apron.parts["XS-03"])[0]
    assert (worst.decision, worst.rule_key) == ("remake", "uneven-wear")
    assert "no nut suits it everywhere" in worst.why


def test_nothing_is_proposed_without_a_reading_and_reuse_when_all_conforms(apron: Apron) -> None:
    with apron.store.read() as connection:
        assert proposals.proposals(connection, apron.parts["AP-11"]) == ()
    spec.set_spec(apron.store, [apron.features["journal A"]], "0.6245-0.6255")
    apron.read("journal A", "0.6250")
    with apron.store.read() as connection:
        (only,) = [p for p in proposals.proposals(connection, apron.parts["AP-11"]) if p.rule_key == "limits"]
    assert only.decision == "reuse"


# Options


def test_two_options_are_compared_on_fits_cost_days_and_what_they_free(apron: Apron) -> None:
    store, part = apron.store, apron.parts["AP-12"]
    apron.read("outside", "0.8120")
    make = tasks.add_task(store, apron.machine, None, "Make the bush", part_id=part, typed={"kind": "make"})
    tasks.add_task(store, apron.machine, None, "Refit the apron", after=[make])
    leave = options.add_option(
        store, part, Decision.REUSE, {"method": "with retaining compound", "cost": "4"}
    )
    new = options.add_option(
        store,
        part,
        Decision.REMAKE,
        {"method": "new bush", "cost": "12.50", "work_min": "2 h", "wait_days": "3"},
    )
    with store.read() as connection:
        found = option_lookup.compare(connection, leave, new)
    lines = {row.label: row for row in found.rows}
    press = lines["AP-12 outside in AP-02 apron casting"]
    assert "does not conform (too loose)" in press.a
    assert press.b == "outside made 0.8136 to 0.8140 in to suit AP-02 apron casting, housing"
    assert lines["Fits in order"].better == "b"
    assert (lines["Cost"].a, lines["Cost"].b, lines["Cost"].better) == ("4.00", "12.50", "a")
    assert lines["Frees"].a == "at once: Refit the apron"
    assert lines["Frees"].b == "after 3 days and 2 h: Refit the apron"


def test_options_of_two_parts_are_not_compared(apron: Apron) -> None:
    a = options.add_option(apron.store, apron.parts["AP-12"], Decision.REUSE)
    b = options.add_option(apron.store, apron.parts["AP-11"], Decision.REUSE)
    with apron.store.read() as connection, pytest.raises(BadEntry, match="two different options of one part"):
        option_lookup.compare(connection, a, b)


# Ripples


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
        (nut,) = (
            row for row in making_order(connection, apron.machine).rows if row.part_id == apron.parts["XS-04"]
        )
        assert [need.title for need in nut.needs] == ["XS-03 cross screw, screw thread"]
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
