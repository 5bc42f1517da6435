"""The first run through its acts: plan, temperatures, cut tests, checks, and the gate before power."""

from __future__ import annotations

import pytest

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.limits.judgement import Rule, Verdict
from rebuild.trade.run_in.warming import Heat
from rebuild.words.joints import Tightness
from rebuild.words.run_in import CutKind, LookWhen, RunState
from rebuild.work.checks.check import check
from rebuild.work.editing.acts import edit
from rebuild.work.joints import acts as joints
from rebuild.work.lubrication import acts as lubricate
from rebuild.work.power.rows import before_power
from rebuild.work.readings.acts_features import add_instrument
from rebuild.work.records.ways_out import Refused
from rebuild.work.run_in import acts as commission
from rebuild.work.run_in.rows import checks, run_steps
from rebuild.work.run_in.rows_cuts import cut_tests
from tests.conftest import Shop
from tests.support import refuses


def test_a_plan_with_looks_is_one_act(shop: Shop) -> None:
    made = commission.lay_out_run(shop.store, shop.machine, 30, 1200)
    with shop.store.read() as connection:
        rows, seen = run_steps(connection, shop.machine), checks(connection, shop.machine)
    assert [row.id for row in rows] == made
    assert all(row.limit_origin and row.limit_status.value == "common practice, no source" for row in rows)
    assert [check.due for check in seen] == sorted((check.due for check in seen), key=tuple(LookWhen).index)
    shop.store.undo()
    with shop.store.read() as connection:
        assert run_steps(connection, shop.machine) == []
        # The list of checks came with the machine.
        assert checks(connection, shop.machine) == seen


def test_temperatures_make_a_course(shop: Shop) -> None:
    step = commission.add_step(shop.store, shop.machine, "slow", {"limit_c": "60 C", "speed_rpm": "60"})
    for minute, warm in ((0, "18"), (20, "33"), (40, "37"), (60, "37.5")):
        commission.read_bearing(shop.store, step, "front", minute, warm)
    commission.read_bearing(shop.store, step, "rear", 60, "150 F")
    with refuses(shop.store, "“slow”: rear .* is over 60 °C", Refused):
        commission.end_step(shop.store, step, RunState.RUN, noise="quiet")
    commission.end_step(shop.store, step, RunState.RUN, noise="quiet", reason="the stove stands beside it")
    with shop.store.read() as connection:
        (row,) = run_steps(connection, shop.machine)
    front, rear = row.courses
    assert front.heated.value.heat is Heat.STEADY
    assert rear.heated.value.heat is Heat.OVER
    assert row.highest is rear
    assert (row.state, row.noise) == (RunState.RUN, "quiet")
    assert row.started_at is not None


@pytest.mark.parametrize(("bearing", "minute", "warm", "said"), [
    ("", 0, "20", "Bearing"), ("front", -1, "20", "Minute"), ("front", 0, "200 C", "hotter than a bearing"),
    ("front", 0, "warm", "warm"),
])  # fmt: skip
def test_what_no_bearing_reads_is_refused(
    shop: Shop, bearing: str, minute: float, warm: str, said: str
) -> None:
    step = commission.add_step(shop.store, shop.machine, "slow")
    with pytest.raises(BadEntry, match=said):
        commission.read_bearing(shop.store, step, bearing, minute, warm)


def test_a_hot_bare_number_is_asked_about(shop: Shop) -> None:
    step = commission.add_step(shop.store, shop.machine, "slow")
    with pytest.raises(Ambiguous, match="61"):
        commission.read_bearing(shop.store, step, "front", 5, "61")


def test_collars_say_what_to_turn_and_count_both_readings(shop: Shop) -> None:
    mic = add_instrument(shop.store, "Micrometer 25-50", {"resolution": "0.001", "mpe": "0.002"})
    commission.set_bed_sizes(shop.store, shop.machine, "165", "320", "1200")
    typed = {"first": "40.000", "second": "40.030", "apart": "150", "allowed": "0.01", "allowed_over": "150",
             "instrument_id": str(mic)}  # fmt: skip
    commission.add_cut(shop.store, shop.machine, CutKind.TWO_COLLAR, typed)
    with shop.store.read() as connection:
        (row,) = cut_tests(connection, shop.machine, Rule.CONFORMANCE_95)
    assert row.judgement is not None
    assert row.judgement.verdict is Verdict.DOES_NOT
    single = (0.002**2 / 3 + 0.001**2 / 12) ** 0.5
    assert row.judgement.u_mm == pytest.approx(single * 2**0.5, rel=0.05)
    lift = 0.03 / (2 * 165) / 150 * 1200 * 320
    assert any(f"{lift:.3f} mm" in words for words in row.found.adjust)


def test_facing_proud_does_not_conform(shop: Shop) -> None:
    for hollow in ("-0.004", "0.004"):
        typed = {"first": hollow, "apart": "160", "allowed": "0.02", "allowed_over": "160"}
        commission.add_cut(shop.store, shop.machine, CutKind.FACING, typed)
    with shop.store.read() as connection:
        hollow_row, proud = cut_tests(connection, shop.machine, Rule.SIMPLE)
    assert proud.judgement is not None
    assert hollow_row.judgement is not None
    assert (proud.judgement.verdict, hollow_row.judgement.verdict) == (Verdict.DOES_NOT, Verdict.CONFORMS)


@pytest.mark.parametrize(("kind", "typed", "said"), [
    (CutKind.TWO_COLLAR, {"first": "40", "apart": "150"}, "Collar at the free end"),
    (CutKind.TWO_COLLAR, {"first": "40", "second": "1.575", "apart": "150"}, "a unit mixed up"),
    (CutKind.FACING, {"first": "0.01"}, "Diameter faced"),
])  # fmt: skip
def test_a_cut_test_with_a_size_missing_is_named(
    shop: Shop, kind: CutKind, typed: dict[str, str], said: str
) -> None:
    with pytest.raises(BadEntry, match=said):
        commission.add_cut(shop.store, shop.machine, kind, typed)


def test_the_gate_counts_joints_oil_and_checks_until_they_are_done(shop: Shop) -> None:
    joint = joints.add_joint(
        shop.store,
        shop.machine,
        shop.headstock,
        "front cap screws",
        {"wanted": "torqued", "torque_wanted": "20 N·m"},
    )
    point = lubricate.add_point(shop.store, shop.machine, "front bearing")
    guards = commission.add_check(shop.store, shop.machine, "Guards on")
    after = commission.add_check(shop.store, shop.machine, "Oil changed", LookWhen.AFTER_RUN)
    with shop.store.read() as connection:
        standing = [one.sort for one in before_power(connection, shop.machine)]
        usual = [one.target for one in before_power(connection, shop.machine) if one.sort == "check"]
    assert (standing[:2], set(standing[2:])) == (["joint", "oil"], {"check", "part"})
    for key in usual:
        commission.check_done(shop.store, key, "the electrician")
    joints.set_joints(shop.store, [joint], joints.JointState(Tightness.TORQUED, None, "20 N·m"))
    lubricate.prove_flow(shop.store, [point])
    edit(shop.store, "part", [shop.cap], {"decision": "reuse"})
    with shop.store.read() as connection:
        assert before_power(connection, shop.machine) == []
    commission.check_again(shop.store, guards)
    with shop.store.read() as connection:
        assert [one.target for one in before_power(connection, shop.machine)] == [guards]
    assert after != guards
    assert check(shop.path) == []


def test_licensed_work_wants_a_name(shop: Shop) -> None:
    earth = commission.add_check(
        shop.store, shop.machine, "Earth tested", typed={"licensed": "yes", "topic": "mains"}
    )
    with pytest.raises(BadEntry, match="licensed hands"):
        commission.check_done(shop.store, earth)
    commission.check_done(shop.store, earth, "the electrician")
    with shop.store.read() as connection:
        found = next(row for row in checks(connection, shop.machine) if row.id == earth)
        assert found.done_by == "the electrician"
    with pytest.raises(BadEntry, match="is not a caution"):
        commission.add_check(shop.store, shop.machine, "Odd", typed={"topic": "ghosts"})
