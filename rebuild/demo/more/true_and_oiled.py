"""Test charts with as found and some after, the level over days, oil cards with a blocked branch, and the run-in."""

from __future__ import annotations

from rebuild.demo.built import Built, Ids, at
from rebuild.demo.more.oil_points import LATHE as LATHE_POINTS, SHAPER as SHAPER_POINTS, PointData
from rebuild.words.charts import ChartStage, LevelWay, LimitStatus
from rebuild.words.lubrication import FlowProof
from rebuild.words.run_in import CutKind, RunState
from rebuild.work.charts.acts import (
    Reading,
    add_test,
    lay_out,
    read_position,
    set_allowed,
    take_library_limit,
)
from rebuild.work.charts.acts_levelling import LevelEntry, read_level
from rebuild.work.charts.rows import chart
from rebuild.work.lubrication.acts import add_point, prove_flow
from rebuild.work.records.rows_settings import verdict_rule
from rebuild.work.run_in.acts import (
    add_cut,
    add_step,
    end_step,
    lay_out_run,
    look_done,
    read_bearing,
    set_bed_sizes,
)
from rebuild.work.run_in.rows import looks

FOUND, AFTER = ChartStage.AS_FOUND, ChartStage.AFTER
LATHE_FOUND, LATHE_BED = "2025-12-14", "2026-11-07"

#: Test number, position, value, instrument, length read over; all as found, bar cold, 9 C.
LATHE_READ = (
    ("1", "along", "0.11", "kd", ""), ("1", "across", "+0.035 mm/m", "kv", ""),
    ("2", "vertical", "0.031", "kl", "500"), ("2", "horizontal", "0.018", "kl", "500"),
    ("3", "cam", "0.022", "kl", ""), ("4", "register", "0.012", "kl", ""), ("5", "nose", "0.011", "kt", ""),
    ("5", "far", "0.031", "kt", ""), ("6", "vertical", "0.028 falling", "kt", "300"),
    ("6", "horizontal", "0.019 toward", "kt", "300"), ("7", "cone", "0.014", "kl", ""),
    ("8", "vertical", "0.006 rising", "kl", "80"), ("8", "horizontal", "0.004 toward", "kl", "80"),
    ("9", "vertical", "-0.044", "kt", "300"), ("9", "horizontal", "+0.010", "kt", "300"),
    ("10", "height", "0.062 low", "kt", ""), ("12", "hollow", "0.009 proud", "kf", "160"),
    ("13", "horizontal", "+0.07", "kd", ""), ("13", "vertical", "-0.16", "kd", ""),
    ("14", "horizontal", "0.06", "kd", ""), ("14", "vertical", "0.13", "kd", ""),
)  # fmt: skip
SHAPER_READ = (
    ("1", "stroke", "0.0055 high", "dti"), ("2", "cross", "-0.0032", "dti"), ("3", "side", "+0.002", "dti"),
    ("4", "stroke", "+0.0021", "dti"), ("4", "cross", "0.0035 left", "dti"),
)  # fmt: skip
SHAPER_OWN = (
    (FOUND, "2025-08-30", ("-0.0042", "-0.0035", "0.0062")), (AFTER, "2026-10-03", ("+0.0003", "-0.0004", "0.0021")),
)  # fmt: skip
#: Days of the level on the bare lathe bed, mm/m at headstock and tailstock end, and what was turned.
LEVELS = (
    ("2025-12-14", 15, "0.01", "0.09", "rear right mount down a quarter turn"),
    ("2026-06-13", 17, "0.02", "0.05", ""), ("2026-10-23", 18, "0.02", "0.06", "front right mount down an eighth"),
    ("2026-10-24", 10, "0.02", "0.052", ""), ("2026-10-26", 19, "0.02", "0.037", ""),
    ("2026-10-31", 12, "0.015", "0.015", ""), ("2026-11-03", 19, "0.015", "0.006", ""),
    ("2026-11-07", 17, "0.015", "-0.006", ""),
)  # fmt: skip
#: Minutes and temperatures of the lathe's bearings as found, caps barely tight.
WARM = ((0, 9, 9), (5, 14, 11), (10, 21, 13), (15, 29, 15), (20, 38, 17), (25, 48, 19), (30, 61, 21))


def extend(built: Built) -> None:
    """Charts, levels, oil and first run of both machines."""
    shaper, lathe = built.machines
    _lathe_chart(built, lathe)
    _shaper_chart(built, shaper)
    _levels(built, lathe)
    for ids, points in ((shaper, SHAPER_POINTS), (lathe, LATHE_POINTS)):
        _oil(built, ids, points)
    _run(built, shaper, lathe)


def _lines(built: Built, ids: Ids) -> dict[tuple[str, str], int]:
    with built.store.read() as connection:
        rows = chart(connection, ids.machine, verdict_rule(built.store))
    return {(row.number, line.key or line.name): line.id for row in rows for line in row.lines}


def _lathe_chart(built: Built, ids: Ids) -> None:
    lay_out(built.store, ids.machine)
    lines = _lines(built, ids)
    take_library_limit(built.store, lines["6", "vertical"], 2)
    for number, key, text, tool, over in LATHE_READ:
        entry = Reading(FOUND, over, built.instruments[tool], "9", at(LATHE_FOUND, 13), division="0.02 mm/m")
        read_position(built.store, lines[number, key], text, entry, confirmed=True)
    for key, text, tool in (("along", "0.09", "kd"), ("across", "-0.021 mm/m", "kv")):
        entry = Reading(
            AFTER, "", built.instruments[tool], "10", at(LATHE_BED, 17), note="bare bed, ridge still on"
        )
        read_position(built.store, lines["1", key], text, entry, confirmed=True)


def _shaper_chart(built: Built, ids: Ids) -> None:
    lay_out(built.store, ids.machine)
    own = {
        "sign": "either way", "plus_means": "rising outward", "minus_means": "falling outward",
        "allowed": "0.0008 in per 12 in", "status": LimitStatus.OWN.value,
        "origin": "our own: half of what the table is allowed",
    }  # fmt: skip
    square = {
        "sketch": "square",
        "set_up": "Square from the rail face, indicator slid along the ram way on a block.",
    }
    add_test(
        built.store, ids.machine, "Ram ways square to the rail face", ("left way", "right way"), limit=own, typed=square
    )  # fmt: skip
    rim = {"sketch": "nose-runout", "set_up": "Indicator on the rim beside the teeth, gear turned by hand."}
    heard = {
        "allowed": "0.003 in", "origin": "a shaper rebuilder's word", "status": LimitStatus.PRACTICE.value
    }  # fmt: skip
    add_test(built.store, ids.machine, "Runout of the bull gear", ("on its rim",), limit=heard, typed=rim)
    lines = _lines(built, ids)
    copied = "a chart of the same family, copied by hand"
    side = [lines["3", "side"]]
    set_allowed(built.store, side, "0.002 in per 6 in", origin=copied, status=LimitStatus.MEMORY)
    for number, key, text, tool in SHAPER_READ:
        entry = Reading(
            FOUND, "6" if number in "34" else "12", built.instruments[tool], "64 F", at("2025-05-17", 14)
        )
        read_position(built.store, lines[number, key], text, entry, confirmed=True)
    for stage, day, values in SHAPER_OWN:
        for line, text in zip(
            (("5", "left way"), ("5", "right way"), ("6", "on its rim")), values, strict=True
        ):
            over = "12" if line[0] == "5" else ""
            entry = Reading(stage, over, built.instruments["dti"], "18 C", at(day, 15))
            read_position(built.store, lines[line], text, entry, confirmed=True)


def _levels(built: Built, ids: Ids) -> None:
    for day, hour, head, tail, turned in LEVELS:
        for minute, place, distance, text in (
            (0, "headstock end", "150", head),
            (10, "tailstock end", "1350", tail),
        ):
            entry = LevelEntry(
                "mm/m", "0.02 mm/m", distance, built.instruments["kv"], "12", at(day, hour, minute),
                turned if place == "tailstock end" else "",
            )  # fmt: skip
            read_level(built.store, ids.machine, place, LevelWay.ACROSS, text, entry)


def _oil(built: Built, ids: Ids, points: tuple[PointData, ...]) -> None:
    made: dict[str, int] = {}
    for data in points:
        typed = {
            "number": data.number, "old_oil": data.oil, "duty": data.duty if data.oil else "",
            "quantity": data.quantity, "interval": data.interval, "path": data.path, "dose_ml": data.dose,
            "delivery_ml": data.gives,
            "fed_by_id": str(made[data.by]) if data.by else "", "part_id": str(ids.parts.get(data.part, "")),
            "task_id": str(ids.steps.get(data.hidden_by, "")),
        }  # fmt: skip
        given = {name: text for name, text in typed.items() if text}
        if data.proof is FlowProof.NOT_NEEDED:
            given["proof"] = data.proof.value
        made[data.number] = add_point(built.store, ids.machine, data.feeds, data.kind, given, at=data.at)
        if data.seen:
            prove_flow(built.store, [made[data.number]], data.proof, data.how, at=at(data.seen, 18))


def _run(built: Built, shaper: Ids, lathe: Ids) -> None:
    before = add_step(built.store, lathe.machine, "as found, 250 rpm, before anything was touched", {
        "speed_rpm": "250", "planned_min": "30 min", "limit_c": "60 C", "ambient_c": "9 C",
        "limit_origin": "about what a hand can just be held on", "limit_status": LimitStatus.PRACTICE.value,
    })  # fmt: skip
    for minute, front, rear in WARM:
        for bearing, warm in (("front spindle bearing", front), ("rear spindle bearing", rear)):
            read_bearing(built.store, before, bearing, minute, f"{warm} C", at=at("2025-12-13", 11))
    end_step(
        built.store,
        before,
        RunState.STOPPED,
        noise="growls, front cap too hot to touch",
        oil_seen="rear cup dry",
    )
    lay_out_run(built.store, lathe.machine, 30, 1200)
    lay_out_run(built.store, shaper.machine, 12, 90)
    set_bed_sizes(built.store, lathe.machine, "165", "320", "1200")
    collars = {
        "first": "39.962", "second": "40.008", "apart": "150", "allowed": "0.01", "allowed_over": "150",
        "stage": FOUND.value, "allowed_origin": "our own", "temperature_c": "9",
        "instrument_id": str(built.instruments["k2"]),
    }  # fmt: skip
    add_cut(built.store, lathe.machine, CutKind.TWO_COLLAR, collars, at=at("2025-12-13", 14))
    faced = {
        "first": "-0.009", "apart": "160", "allowed": "0.02", "allowed_over": "160", "stage": FOUND.value,
        "allowed_origin": "inspection record of a current engine lathe", "allowed_status": LimitStatus.ONE_RECORD.value,
        "instrument_id": str(built.instruments["kf"]),
    }  # fmt: skip
    add_cut(built.store, lathe.machine, CutKind.FACING, faced, at=at("2025-12-13", 15))
    with built.store.read() as connection:
        first = looks(connection, lathe.machine)[0]
    look_done(
        built.store, first.id, "owner", "plug in the pocket, tag on the switch", at=at("2026-02-07", 10)
    )
