"""Pairs of features of the lathe that run or sit together, with the clearance wanted [mm]."""

from __future__ import annotations

from functools import partial

from rebuild.demo.records import Pair

_pair = partial(Pair, unit="mm")

# One record to a few lines: a table reads better than a tower of single arguments.
# fmt: off
PAIRS = (
    _pair("spindle in the front bearing", "HS-02/bore, screws home", "HS-01/front journal", 0.018, 0.03,
        story="worn"),
    _pair("spindle in the rear bearing", "HS-03/bore, screws home", "HS-01/rear journal", 0.015, 0.025,
        story="worn"),
    _pair("back gear quill on its shaft", "BG-02/bore", "BG-01/quill journal", 0.02, 0.062, story="worn"),
    _pair("eccentric shaft in the headstock", "HS-04/back gear shaft bore", "BG-01/eccentric ends", 0.009,
        0.05, story="kept"),
    _pair("gear rim on the quill", "BG-03/bore", "BG-02/rim seat", -0.101, -0.044, story="worn"),
    _pair("first tumbler gear on its stud", "TR-02/bush bore@first", "TR-03/outside diameter@first", 0.016,
        0.052, story="worn"),
    _pair("second tumbler gear on its stud", "TR-02/bush bore@second", "TR-03/outside diameter@second", 0.016,
        0.052, story="worn"),
    _pair("bearing on the input shaft", "QC-07/bore", "QC-02/bearing seat", -0.025, -0.002, story="kept"),
    _pair("bearing on the output shaft, left", "QC-07/bore", "QC-06/bearing seat@left", -0.025, -0.002,
        story="kept"),
    _pair("bearing on the output shaft, right", "QC-07/bore", "QC-06/bearing seat@right", -0.025, -0.002,
        story="worn"),
    _pair("leadscrew in the right bracket", "LS-03/leadscrew bush bore", "LS-01/journal, bracket end", 0.0,
        0.034, story="worn"),
    _pair("feed shaft in the right bracket", "LS-03/feed shaft bush bore", "LS-02/outside diameter@far", 0.02,
        0.086, story="kept"),
    _pair("rear bush in the apron", "AP-01/bore for bush AP-12", "AP-12/outside diameter", -0.048, -0.014,
        story="pressed"),
    _pair("front bush in the apron", "AP-01/bore for bush AP-14", "AP-14/outside diameter", -0.048, -0.014,
        story="pressed"),
    _pair("cross feed shaft, rear", "AP-12/bore", "AP-11/journal B", 0.016, 0.052, story="remade"),
    _pair("cross feed shaft, front", "AP-14/bore", "AP-11/journal A", 0.016, 0.052, story="remade"),
    _pair("handwheel shaft in the apron", "AP-01/handwheel shaft bore", "AP-02/journal", 0.02, 0.062,
        story="worn"),
    _pair("quill in the tailstock", "TK-01/quill bore", "TK-02/outside diameter", 0.0, 0.041, story="worn"),
    _pair("tool post on its stud", "TS-06/bore", "TS-07/diameter", 0.007, 0.041, story="kept"),
    _pair("sheave on the motor", "DR-02/bore", "DR-01/shaft", -0.015, 0.019, story="kept"),
    _pair("bearing on the countershaft", "DR-04/bore", "DR-03/bearing seat", -0.025, -0.002, story="kept"),
)
