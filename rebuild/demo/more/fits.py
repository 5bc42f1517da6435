"""Fits of both machines in every state: pairs of the tables, screws and nuts, slides, a mesh, a shrink fit."""

from __future__ import annotations

from rebuild.demo.built import Built, Ids, at
from rebuild.demo.lathe.fits import PAIRS as LATHE_PAIRS
from rebuild.demo.records import Pair
from rebuild.demo.shaper.fits import PAIRS as SHAPER_PAIRS
from rebuild.trade.wear.rules import rules
from rebuild.words.decisions import Decision
from rebuild.words.fits import Adjuster, FitJoint, FitKind, Side
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.decisions.acts import Taking
from rebuild.work.decisions.acts_odd_sizes import OddEntry, add_odd_size
from rebuild.work.decisions.acts_options import add_option, set_rule
from rebuild.work.decisions.acts_ripple import Settling, settle
from rebuild.work.fits.acts import FitEntry, add_fit
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.readings.acts_features import add_feature
from rebuild.work.steps.acts import add_task

#: Pairs made by heat and cold.
SHRUNK = ("gear rim on the quill",)
#: Pairs whose dearer part is to be bushed, so that the other is the master.
BUSHED = (
    "handwheel shaft in the apron", "feed shaft in the right bracket", "gear rim on the quill",
    "first tumbler gear on its stud", "second tumbler gear on its stud",
)  # fmt: skip
#: A pair nobody has said yet what is wanted of.
NO_RANGE = ("sheave on the motor",)
#: The evening everything here that has a day is done on.
DAY = "2026-11-07"
#: When the fits were gone through, all in one evening.
LOOKED = at("2026-11-06", 20)


def extend(built: Built) -> None:
    """Add fits to both machines, options for what is undecided, odd sizes, a ripple, and news that makes stale."""
    shaper, lathe = built.machines
    for ids, pairs in ((shaper, SHAPER_PAIRS), (lathe, LATHE_PAIRS)):
        for pair in pairs:
            _pair(built, ids, pair)
    _cross_feed(built, shaper)
    _crank_slide(built, shaper)
    _cross_slide(built, lathe)
    _pinion_on_rack(built, lathe)
    _rim_choices(built, lathe)
    _odd_sizes(built, shaper, lathe)
    _news(built, lathe)
    _ripple(built, lathe)
    set_rule(built.store, "spindle-lift", good="0.0012 in", note="content with it: the lathe is not run fast")


def _pair(built: Built, ids: Ids, pair: Pair) -> int:
    wanted = "" if pair.name in NO_RANGE else f"{pair.low:g} to {pair.high:g}"
    entry = FitEntry(
        _feature(ids, pair.hole), _feature(ids, pair.shaft),
        FitKind.SHRINK if pair.name in SHRUNK else _kind(pair), wanted=wanted, unit=pair.unit,
        name=pair.name[:1].upper() + pair.name[1:], master=_master(ids, pair),
        outer_station_id=ids.stations.get(pair.hole), inner_station_id=ids.stations.get(pair.shaft),
    )  # fmt: skip
    return add_fit(built.store, entry, confirmed=True, at=LOOKED)


def _feature(ids: Ids, name: str) -> int:
    return ids.features[name.partition("@")[0]]


def _kind(pair: Pair) -> FitKind:
    if pair.high <= 0:
        return FitKind.PRESS
    if pair.low < 0:
        return FitKind.PUSH
    sliding = any(word in pair.name for word in ("block", "slot", "quill in", "plunger"))
    return FitKind.SLIDING if sliding else FitKind.RUNNING


def _master(ids: Ids, pair: Pair) -> Side:
    """The seat is made to a bought bearing's bore; else the dearer part is the one that stays."""
    names = {part.code: part.name for group in ids.data.groups for part in group.parts}
    dear = [rules().dear(names[side.partition("/")[0]]) for side in (pair.hole, pair.shaft)]
    if "ball bearing" in names[pair.hole.partition("/")[0]]:
        return Side.OUTER
    return Side.OUTER if dear[0] >= dear[1] and pair.name not in BUSHED else Side.INNER


def _cross_feed(built: Built, shaper: Ids) -> None:
    """The screw worn mid-travel: lost motion read at five places, three ways to go."""
    store, screw, nut = built.store, shaper.parts["RL-06"], shaper.parts["RL-05"]
    thread, pitch = (
        add_feature(
            store, part, "pitch diameter", FeatureKind.THREAD, unit="in", typed={"thread": "1-5 Acme"}
        )
        for part in (nut, screw)
    )
    add_fit(
        store,
        FitEntry(
            thread, pitch, FitKind.THREAD,
            FitJoint.NUT_AND_SCREW, wanted="max 0.012", name="Cross-feed nut on its screw", unit="in",
            master=Side.INNER, adjuster=Adjuster.NUT, gap_id=shaper.features["RL-06/lost motion"],
            note="read as lost motion on the dial, nut as found",
        ),
        confirmed=True,
        at=LOOKED,
    )  # fmt: skip
    for decision, method, typed in (
        (Decision.REUSE, "new nut only, made to pass the ends", {"cost": "18", "work_min": "4 h", "wait_days": "3"}),
        (Decision.REMAKE, "new screw from ground Acme bar, then the nut to it",
         {"cost": "74", "work_min": "11 h", "wait_days": "12", "note": "bar is 3 ft, shank turned down and pinned"}),
        (Decision.REWORK, "splice a new length on the old shank",
         {"cost": "41", "work_min": "9 h", "wait_days": "12", "reversible": "no"}),
    ):  # fmt: skip
        add_option(store, screw, decision, {"method": method, **typed})


def _crank_slide(built: Built, shaper: Ids) -> None:
    """A slide with its gib, read at three places of one side and two of the other, and by feeler."""
    add_fit(
        built.store,
        FitEntry(
            shaper.features["BG-01/crank slide way width"], shaper.features["BG-04/slide width"], FitKind.SLIDING,
            FitJoint.SLIDE_AND_WAY, wanted="0.001-0.002", name="Crank slide in the bull gear", unit="in",
            master=Side.OUTER, adjuster=Adjuster.GIB, gap_id=shaper.features["BG-07/gap"],
        ),
        confirmed=True,
        at=LOOKED,
    )  # fmt: skip


def _cross_slide(built: Built, lathe: Ids) -> None:
    """Screw and nut measured over wires: the loss along the axis follows from the flanks."""
    store = built.store
    nut = add_feature(
        store, lathe.parts["XS-04"], "pitch diameter", FeatureKind.THREAD, typed={"thread": "Tr 20x4 LH"}
    )
    _read(built, nut, "18.05", "k1", Stage.CLEANED, "by a plug turned to suit")
    add_fit(
        store,
        FitEntry(
            nut, lathe.features["XS-03/pitch diameter"], FitKind.THREAD, FitJoint.NUT_AND_SCREW,
            wanted="0.19-0.37", name="Cross slide nut on its screw", master=Side.INNER, adjuster=Adjuster.NUT,
            note="0.05 to 0.10 mm along the axis, on the pitch diameter",
        ),
        confirmed=True,
        at=LOOKED,
    )  # fmt: skip


def _pinion_on_rack(built: Built, lathe: Ids) -> None:
    """A mesh worked out from two tooth thicknesses, one of them not taken yet."""
    pinion = add_feature(
        built.store,
        lathe.parts["AP-11"],
        "pinion tooth thickness",
        FeatureKind.GEAR,
        typed={"thread": "module 2"},
    )
    add_fit(
        built.store,
        FitEntry(
            lathe.features["BED-05/tooth thickness, headstock end"], pinion, FitKind.MESH, FitJoint.GEAR_MESH,
            wanted="0.05-0.15", name="Rack pinion in the rack", master=Side.OUTER,
        ),
        confirmed=True,
        at=LOOKED,
    )  # fmt: skip


def _rim_choices(built: Built, lathe: Ids) -> None:
    """How the new rim goes on its seat: oven alone, or oven and freezer."""
    for method, typed in (
        ("shrunk on, oven at 185 °C, quill at room temperature", {"cost": "0", "work_min": "45 min"}),
        (
            "shrunk on, quill a night in the freezer, oven at 150 °C",
            {"cost": "0", "work_min": "1 h", "wait_days": "1"},
        ),
    ):
        options = {"method": method, "reversible": "no", "note": "rim is cut outside first", **typed}
        add_option(built.store, lathe.parts["BG-03"], Decision.REMAKE, options)


def _odd_sizes(built: Built, shaper: Ids, lathe: Ids) -> None:
    add_odd_size(
        built.store, shaper.parts["CB-05"],
        OddEntry("pin 0.010 in over its drawing", "0.750 in", "0.760", "the holes in the clapper box were worn oval",
                 shaper.features["CB-05/outside diameter"]),
        at=at(DAY, 20),
    )  # fmt: skip
    add_odd_size(
        built.store, lathe.parts["BG-06"],
        OddEntry("taper pin 6.5 in place of 6", "6 x 50", "6.5", "hole reamed until it cleaned up"), at=at(DAY, 20),
    )  # fmt: skip


def _news(built: Built, lathe: Ids) -> None:
    """A bore measured again after its fit was looked at."""
    bore = lathe.features["LS-03/feed shaft bush bore"]
    _read(built, bore, "22.052", "kb", Stage.CLEANED, "again, warm shop: ring set with the blocks")


def _ripple(built: Built, lathe: Ids) -> None:
    """The handwheel shaft must be polished true before its new bush is bored: the bush waits for it."""
    shaft = lathe.parts["AP-02"]
    settle(
        built.store, shaft,
        Settling(
            Decision.REWORK, "scored where the old bore ran dry: polish it true before the bush is bored to it",
            "no step a nail can feel", "it does not clean up within 0.05 mm: then remake it",
            Taking("polish between centres", "score 0.015 mm deep at the gear end", 0.0, 60.0, 0.0),
            OddEntry("journal about 0.03 mm under its drawing", "20 f7", "", "polished until the score is gone",
                     lathe.features["AP-02/journal"]),
        ),
        at=at(DAY, 21),
    )  # fmt: skip
    add_task(
        built.store, lathe.machine, lathe.groups["AP"], "Polish the handwheel shaft's journal true",
        part_id=shaft, typed={"kind": "rework", "low_min": "40", "likely_min": "60", "high_min": "90"},
    )  # fmt: skip


def _read(built: Built, feature_id: int, typed: str, instrument: str, stage: Stage, note: str) -> None:
    entry = Entry(
        feature_id, stage=stage, instrument_id=built.instruments[instrument], temperature="15 C",
        taken_at=at(DAY, 19), note=note,
    )  # fmt: skip
    record_reading(built.store, typed, entry, confirmed=True)
