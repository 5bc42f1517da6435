"""Is the demo plausible to a machinist: fits, limits, gears, threads, materials, verdicts."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable

import pytest
from sqlalchemy import text

from rebuild.demo.lathe.fits import PAIRS as LATHE_PAIRS
from rebuild.demo.lathe.machine import LATHE
from rebuild.demo.records import MachineData, Pair, PartData, Reads
from rebuild.demo.shaper.fits import PAIRS as SHAPER_PAIRS
from rebuild.demo.shaper.machine import SHAPER
from rebuild.store.store import Store
from rebuild.trade.limits.verdict import Verdict
from rebuild.trade.schedule.network import ordered
from rebuild.trade.shop.materials import find_material
from rebuild.trade.sizes.quantity import parse_repeats
from rebuild.trade.threads.designation import parse_designation
from rebuild.trade.threads.trapezoidal import limits as trapezoidal_limits
from rebuild.words.readings import Stage
from rebuild.words.steps import TaskKind
from rebuild.work.machines.rows_tree import machines
from rebuild.work.plan.rows_what_next import what_next
from rebuild.work.readings import rows_grid as grid
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.records.rows_settings import verdict_rule

MACHINES = pytest.mark.parametrize("data", [SHAPER, LATHE], ids=["shaper", "lathe"])
PAIRS = [(SHAPER, pair) for pair in SHAPER_PAIRS] + [(LATHE, pair) for pair in LATHE_PAIRS]
#: Sums of sizes typed to a tenth of a thou leave this much binary dust [mm].
DUST_MM = 1e-6


def _parts(data: MachineData) -> dict[str, PartData]:
    return {part.code: part for group in data.groups for part in group.parts} | {
        p.code: p for p in data.loose
    }


def _values(data: MachineData, name: str, pick: Callable[[list[Reads]], Reads]) -> dict[str, float]:
    """Size by station of one feature at one visit [mm]."""
    full, _, only = name.partition("@")
    code, _, feature_name = full.partition("/")
    part = _parts(data)[code]
    feature = next(feature for feature in part.features if feature.name == feature_name)
    visits = [visit for visit in feature.reads if not visit.strike]
    visit = pick(visits)
    unit = feature.unit or data.typed["unit"]
    sizes = {
        station: sum(size.mm for size in parse_repeats(typed, unit)) / len(parse_repeats(typed, unit))
        for station, typed in zip(feature.stations or ("",), visit.values, strict=True)
        if typed != "-"
    }
    return {only: sizes[only]} if only else sizes


def _clearances(data: MachineData, pair: Pair, pick: Callable[[list[Reads]], Reads]) -> list[float]:
    """Clearance at each place both were measured, else of every combination [mm]."""
    hole, shaft = _values(data, pair.hole, pick), _values(data, pair.shaft, pick)
    if len(hole) > 1 and set(hole) == set(shaft):
        return [hole[station] - shaft[station] for station in hole]
    return [bore - journal for bore in hole.values() for journal in shaft.values()]


def _first(visits: list[Reads]) -> Reads:
    return visits[0]


def _last(visits: list[Reads]) -> Reads:
    return visits[-1]


@pytest.mark.parametrize(("data", "pair"), PAIRS, ids=[pair.name for _, pair in PAIRS])
def test_a_pair_tells_its_story(data: MachineData, pair: Pair) -> None:
    factor = 25.4 if pair.unit == "in" else 1.0
    low, high = pair.low * factor - DUST_MM, pair.high * factor + DUST_MM
    now = _clearances(data, pair, _last)
    inside = all(low <= clearance <= high for clearance in now)
    if pair.story in ("remade", "made", "pressed", "kept"):
        assert inside, now
    if pair.story == "remade":
        assert max(_clearances(data, pair, _first)) > high, "was too loose as found"
    if pair.story == "worn":
        found = _clearances(data, pair, _first)
        assert max(found) > high, found
    if pair.story == "conceded":
        assert not inside
        codes = {pair.hole.split("/")[0], pair.shaft.split("/")[0]}
        assert any(_parts(data)[code].conceded for code in codes)
    if pair.story == "pressed":
        assert max(now) < 0, "holds by interference"


def test_every_story_of_a_fit_is_told() -> None:
    stories = Counter(pair.story for _, pair in PAIRS)
    assert set(stories) == {"remade", "made", "pressed", "kept", "worn", "conceded"}
    assert sum(stories.values()) >= 20


def _grid(store: Store, machine_id: int) -> list[grid.GridRow]:
    rule = verdict_rule(store)
    with store.read() as connection:
        limits = instrument_limits(connection)
        keys = grid.keys(connection, grid.Asked(machine_id), rule, limits)
        return grid.rows(connection, keys, rule, limits)


def test_every_reading_against_a_spec_has_a_verdict_and_they_are_mixed(demo: Store) -> None:
    with demo.read() as connection:
        listed = machines(connection)
    for machine in listed:
        rows = [row for row in _grid(demo, machine.id) if row.speaking is not None]
        with_spec = [row for row in rows if row.low_mm is not None or row.high_mm is not None]
        verdicts = Counter(row.judgement.verdict for row in with_spec if row.judgement is not None)
        assert sum(verdicts.values()) == len(with_spec)
        for verdict in (Verdict.CONFORMS, Verdict.DOES_NOT, Verdict.UNDECIDED):
            assert verdicts[verdict] >= 15, (machine.name, verdicts)
        assert sum(1 for row in with_spec if row.judgement and row.judgement.too_coarse) >= 10
        assert all(row.judgement.complete for row in with_spec if row.judgement), "each names its instrument"


def test_what_was_made_is_within_its_spec_or_conceded(demo: Store) -> None:
    with demo.read() as connection:
        conceded = set(connection.execute(text("SELECT feature_id FROM concession")).scalars())
        listed = machines(connection)
    made = [
        row
        for machine in listed
        for row in _grid(demo, machine.id)
        if row.speaking is not None and row.speaking.stage in (Stage.REWORKED, Stage.AS_MADE, Stage.FITTED)
    ]
    assert len(made) > 80
    outside = {
        (row.part_code, row.feature)
        for row in made
        if row.feature_id not in conceded and row.speaking is not None
        and (
            (row.low_mm is not None and row.speaking.value_mm < row.low_mm - DUST_MM)
            or (row.high_mm is not None and row.speaking.value_mm > row.high_mm + DUST_MM)
        )
    }  # fmt: skip
    assert outside == set()


@MACHINES
def test_links_name_steps_that_exist_and_run_without_loops(data: MachineData) -> None:
    steps = {step.key: step for group in data.groups for step in group.steps}
    steps |= {step.key: step for step in data.general}
    links = [(before, key) for key, step in steps.items() for before in step.after]
    links += [(wait.before, key) for key, step in steps.items() for wait in step.because]
    assert {before for before, _ in links} <= steps.keys()
    assert len(links) == len(set(links))
    assert len(ordered(links, steps)) == len(steps)


def test_wear_is_where_the_travel_is() -> None:
    """Ways and screws are worst away from their unworn end, which reads best."""
    for data, code, name in (
        (SHAPER, "BAS-01", "left ram way, drop from the rear end"),
        (SHAPER, "RL-06", "lost motion"),
        (LATHE, "BED-01", "front V way, drop from the tailstock end"),
        (LATHE, "XS-03", "lost motion on the dial"),
    ):
        values = list(_values(data, f"{code}/{name}", _first).values())
        assert max(values) not in (values[-1],), name
        assert max(values) > 1.5 * values[-1]


def _features(data: MachineData) -> list[tuple[PartData, str, str, Reads]]:
    return [
        (part, feature.name, feature.unit or data.typed["unit"], visit)
        for part in _parts(data).values()
        for feature in part.features
        for visit in feature.reads
    ]


_GEAR = re.compile(r"(\d+) teeth, (?:module ([\d.]+)|(\d+) DP)")


def test_spur_gears_have_the_outside_diameter_of_their_teeth() -> None:
    """Outside diameter = (N + 2) x module, or (N + 2) / DP; a worn or turned-down blank is a little less."""
    seen = 0
    for data in (SHAPER, LATHE):
        for part, name, unit, visit in _features(data):
            match = _GEAR.search(visit.note)
            if (
                not match
                or "outside diameter" not in name
                or "degrees: outside" in visit.note
                or "bevel" in part.name
            ):
                continue
            teeth = int(match[1]) + 2
            nominal = teeth * float(match[2]) if match[2] else teeth * 25.4 / int(match[3])
            found = parse_repeats(visit.values[0], unit)[0].mm
            assert nominal - 0.30 <= found <= nominal + 0.02, (part.code, name, nominal, found)
            seen += 1
    assert seen >= 10


def test_threads_are_real_designations() -> None:
    features = (f for data in (SHAPER, LATHE) for part in _parts(data).values() for f in part.features)
    named = {feature.typed["thread"] for feature in features if "thread" in feature.typed}
    assert len(named) >= 5
    for thread in named:
        parse_designation(thread.replace(", right hand", ""))


def test_the_leadscrews_limits_are_those_of_its_class() -> None:
    """Tr 30x6-7e, ISO 2903: the spec on the part against the program's own table."""
    part = _parts(LATHE)["LS-01"]
    low, high = (float(end) for end in part.features[0].spec.split("-"))
    computed = trapezoidal_limits(30, 6, "7e").value.pitch_diameter
    assert (low, high) == (computed.low_mm, computed.high_mm)


@MACHINES
def test_materials_of_measured_parts_are_known(data: MachineData) -> None:
    unknown = {
        f"{part.code} {part.typed['material']}"
        for part in _parts(data).values()
        if part.features and part.typed["material"] and find_material(part.typed["material"]) is None
    }
    assert {entry for entry in unknown if "A228" not in entry} == set(), "music wire is not in the table"


def test_the_awkward_cases_are_there(demo: Store) -> None:
    with demo.read() as connection:
        one = lambda sql: connection.execute(text(sql)).scalar()  # noqa: E731
        identities = set(connection.execute(text("SELECT identity FROM part")).scalars())
        places = set(
            connection.execute(
                text("SELECT DISTINCT p.kind FROM part x JOIN place p ON p.id = x.place_id")
            ).scalars()
        )
        assert len(identities) == 4
        assert len(places) >= 7
        assert one("SELECT COUNT(*) FROM reading WHERE struck IS NOT NULL") == 3
        assert one("SELECT COUNT(*) FROM reading WHERE repeats > 1") > 20
        assert one("SELECT COUNT(*) FROM reading WHERE temperature_c IS NOT NULL") > 60
        assert one("SELECT COUNT(DISTINCT stage) FROM reading") == 5
        assert one("SELECT COUNT(*) FROM part WHERE match_mark <> ''") >= 8
        assert one("SELECT COUNT(*) FROM part WHERE spare_of_id IS NOT NULL") >= 1
        assert one("SELECT COUNT(*) FROM task WHERE irreversible") >= 10
        assert one("SELECT COUNT(*) FROM feature WHERE unit = 'mm' AND part_id IN (SELECT p.id FROM part p "
                   "JOIN machine m ON m.id = p.machine_id WHERE m.unit = 'in')") >= 3  # fmt: skip


def test_what_next_has_something_to_say(demo: Store) -> None:
    with demo.read() as connection:
        for machine in machines(connection):
            answer = what_next(connection, machine.id)
            best = answer.candidates[0]
            assert best.startable
            assert best.sentence, "what the finish hangs on comes first, freed steps or none"
            most = max(answer.candidates, key=lambda candidate: len(candidate.freed))
            assert len(most.freed) >= 3, most
            assert most.startable or most.holds, (
                "the half nut frees most, and waits for its tap to be come by"
            )
            assert len(answer.now) >= 10
            assert len(answer.waiting) > len(answer.now)
            assert len(answer.questions) >= 3
            assert answer.undecided


@MACHINES
def test_both_are_mid_rebuild(data: MachineData) -> None:
    steps = [step for group in data.groups for step in group.steps]
    done = sum(1 for step in steps if step.done)
    assert 0.3 < done / len(steps) < 0.7
    assert sum(1 for step in steps if step.state == "under way") >= 2
    assert not any(step.kind is TaskKind.COMMISSION and step.done for step in (*steps, *data.general))
