"""Pairs of features of the shaper that run or sit together, with the clearance wanted [in]."""

from __future__ import annotations

from functools import partial

from rebuild.demo.records import Pair

_pair = partial(Pair, unit="in")

# One record to a few lines: a table reads better than a tower of single arguments.
# fmt: off
PAIRS = (
    _pair("bull gear hub in its bush", "BG-02/bore", "BG-01/hub journal", 0.0025, 0.0045, story="remade"),
    _pair("bull gear bush in the column", "BAS-01/bull gear bush bore", "BG-02/outside diameter", -0.0026,
        -0.001, story="pressed"),
    _pair("crank block on its pin", "RK-02/bore", "BG-05/block journal", 0.0013, 0.0028, story="remade"),
    _pair("crank pin in the slide", "BG-04/crank pin seat bore", "BG-05/seat", -0.0016, -0.0008,
        story="pressed"),
    _pair("crank block in the rocker slot", "RK-01/slot width", "RK-02/width", 0.0015, 0.003, story="remade"),
    _pair("rocker shaft, left", "RK-05/bore", "RK-04/journal, left", 0.0015, 0.003, story="remade"),
    _pair("rocker shaft, right", "RK-06/bore", "RK-04/journal, right", 0.0015, 0.003, story="conceded"),
    _pair("rocker bush, left, in the column", "BAS-01/rocker bush bore, left", "RK-05/outside diameter",
        -0.002, -0.0008, story="pressed"),
    _pair("rocker bush, right, in the column", "BAS-01/rocker bush bore, right", "RK-06/outside diameter",
        -0.002, -0.0008, story="pressed"),
    _pair("link on the upper pin", "RK-08/bore@upper", "RK-09/journal", 0.001, 0.002, story="remade"),
    _pair("link on the lower pin", "RK-08/bore@lower", "RK-10/journal", 0.001, 0.002, story="remade"),
    _pair("upper link bush in the link", "RK-07/upper bore", "RK-08/outside diameter@upper", -0.0018, -0.0006,
        story="pressed"),
    _pair("lower link bush in the link", "RK-07/lower bore", "RK-08/outside diameter@lower", -0.0018, -0.0006,
        story="pressed"),
    _pair("positioning shaft in its bush", "RAM-14/bore", "RAM-13/journal", 0.001, 0.002, story="conceded"),
    _pair("positioning bush in the ram", "RAM-01/positioning shaft bore", "RAM-14/outside diameter", -0.0016,
        -0.0008, story="pressed"),
    _pair("clapper block on its pin", "CB-04/bore", "CB-05/outside diameter", 0.0006, 0.0014, story="made"),
    _pair("clapper block between the cheeks", "CB-01/width between cheeks", "CB-02/width", 0.0006, 0.0014,
        story="remade"),
    _pair("clapper pin in the box, left", "CB-01/pin bore, left", "CB-05/outside diameter", 0.0002, 0.0012,
        story="made"),
    _pair("clapper bush in the block", "CB-02/bush bore", "CB-04/outside diameter", -0.0016, -0.0008,
        story="pressed"),
    _pair("old clapper block on the old pin", "CB-03/pin bore", "CB-06/outside diameter", 0.0006, 0.0014,
        story="worn"),
    _pair("pump plunger in its bore", "OIL-01/plunger bore", "OIL-02/outside diameter", 0.0008, 0.0015,
        story="made"),
    _pair("old pump plunger in the bore as found", "OIL-01/plunger bore", "OIL-03/outside diameter", 0.0005,
        0.0015, story="worn"),
    _pair("pinion shaft, front", "GB-12/bore", "GB-11/journal, front", 0.0015, 0.003, story="remade"),
    _pair("pinion shaft, rear", "GB-13/bore", "GB-11/journal, rear", 0.0015, 0.003, story="remade"),
    _pair("pinion bush, front, in the column", "BAS-01/pinion shaft bush bore, front",
        "GB-12/outside diameter", -0.002, -0.001, story="pressed"),
    _pair("pinion bush, rear, in the column", "BAS-01/pinion shaft bush bore, rear", "GB-13/outside diameter",
        -0.002, -0.001, story="pressed"),
    _pair("feed crank pin in the rod", "FD-03/eye bore, disc end", "FD-02/journal", 0.001, 0.002,
        story="remade"),
    _pair("cross screw in its bush, left", "RL-07/bore@left", "RL-06/journal, left", 0.001, 0.0025,
        story="worn"),
    _pair("cross screw in its bush, right", "RL-07/bore@right", "RL-06/journal, right", 0.001, 0.0025,
        story="kept"),
    Pair("bearing on the clutch shaft, sheave end", "DR-07/bore", "DR-06/bearing seat, sheave end", -0.03,
        -0.002, "mm", story="kept"),
    Pair("bearing on the clutch shaft, gear end", "DR-07/bore", "DR-06/bearing seat, gear end", -0.03, -0.002,
        "mm", story="worn"),
    Pair("bearing in the column", "BAS-01/clutch shaft bearing seat", "DR-07/outside diameter", 0.0, 0.043,
        "mm", story="kept"),
)
