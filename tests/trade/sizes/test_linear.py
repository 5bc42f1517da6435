"""No typed text takes longer than its length: long ones are refused before a pattern is tried on them.

Measured by growth, never by the clock alone: the same text four times as long may not take more than ten times as long.
"""

from __future__ import annotations

import contextlib
import time
from collections.abc import Callable

import pytest

from rebuild.errors import RebuildError
from rebuild.trade.bearings.identify import bearing
from rebuild.trade.charts.entry import SignWords, read_allowed, read_deviation, read_slope
from rebuild.trade.fits.b4_1 import parse_inch_class
from rebuild.trade.fits.wanted import parse_wanted
from rebuild.trade.gears.change_gears import read_lead, read_wheels
from rebuild.trade.gears.pitches import read_pitch
from rebuild.trade.joints.bolts import bolt_thread
from rebuild.trade.limits.iso286_classes import parse_class, parse_typed
from rebuild.trade.limits.spec_entry import parse_spec
from rebuild.trade.limits.spec_forms import parse_deviations
from rebuild.trade.lubrication.oil_today import figure_in
from rebuild.trade.lubrication.old_oil import read_old_oil
from rebuild.trade.making.derive import read_gear, read_pin
from rebuild.trade.schedule.week_entry import parse_day
from rebuild.trade.shop.materials import wanted
from rebuild.trade.sizes.amounts import parse_celsius, parse_minutes, parse_torque
from rebuild.trade.sizes.exact import exact
from rebuild.trade.sizes.number import read_number, read_whole
from rebuild.trade.sizes.quantity import parse_length, parse_repeats
from rebuild.trade.sizes.unit_behind import split_unit
from rebuild.trade.tapers.angles import parse_angle
from rebuild.trade.tapers.machine_tapers import parse_taper
from rebuild.trade.teardown.fastener_words import parse_fastener
from rebuild.trade.teardown.removal_words import parse_removal
from rebuild.trade.teardown.shims import parse_leaves
from rebuild.trade.threads.designation import parse_designation
from rebuild.trade.threads.pitch import parse_pitch
from rebuild.words.charts import LimitSign

READERS: dict[str, Callable[[str], object]] = {
    "number": read_number, "whole": read_whole, "exact": exact, "unit": split_unit, "length": parse_length,
    "repeats": parse_repeats, "minutes": parse_minutes, "celsius": parse_celsius, "torque": parse_torque,
    "angle": parse_angle, "taper": parse_taper, "fastener": parse_fastener, "removal": parse_removal,
    "leaves": parse_leaves, "thread": parse_designation, "thread pitch": parse_pitch, "lead": read_lead,
    "wheels": read_wheels, "gear pitch": read_pitch, "bolt": bolt_thread, "spec": parse_spec,
    "deviations": parse_deviations, "wanted": parse_wanted, "class": parse_class, "size and class": parse_typed,
    "inch class": parse_inch_class, "old oil": read_old_oil, "oil in words": figure_in, "gear": read_gear,
    "pin": read_pin, "slope": read_slope, "day": lambda text: parse_day(text, 0), "material": wanted,
    "allowed": lambda text: read_allowed(text, "mm"), "bearing": bearing,
    "deviation": lambda text: read_deviation(text, "mm", SignWords(LimitSign.EITHER), "Test 1"),
}  # fmt: skip
PIECES = (
    "1",
    "1/2 ",
    "1x",
    "1 x ",
    "1,",
    "1-",
    ".1",
    "m8 ",
    "x ",
    " ",
    "'",
    "1 in ",
    "shim ",
    "h7 ",
    "no. 1 ",
    "±1 ",
)
SHORT = 4_000


def _spent(read: Callable[[str], object], text: str) -> float:
    least = float("inf")
    for _ in range(2):
        began = time.thread_time()
        with contextlib.suppress(RebuildError):
            read(text)
        least = min(least, time.thread_time() - began)
    return least


def _both(read: Callable[[str], object], short: str, long: str) -> tuple[float, float]:
    return _spent(read, short), _spent(read, long)


def _grows_little(short: float, long: float) -> bool:
    return long < 10 * short + 0.005


@pytest.mark.parametrize("name", READERS)
def test_four_times_the_text_takes_no_more_than_ten_times_the_time(name: str) -> None:
    for piece in PIECES:
        for end in ("", "q", " q"):
            text = piece * (SHORT // len(piece))
            spent = [_both(READERS[name], text + end, text * 4 + end)]
            while len(spent) < 4 and not _grows_little(*spent[-1]):
                spent.append(_both(READERS[name], text + end, text * 4 + end))
            assert _grows_little(*spent[-1]), (piece, end, spent)


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("angle", "1" * 50 + "x"),
        ("angle", "9" * 75 + "q"),
        ("angle", "9" * 10_000 + "q"),
        ("fastener", "1/2 " * 3_000),
        ("wanted", "0.02-" * 9_600),
        ("wanted", "1" * 48_000),
        ("wheels", "10-3000000000"),
        ("wheels", "10-300 by 1"),
        ("wheels", "9" * 5_000),
        ("bolt", "M" + "9" * 5_000),
        ("thread", "M" + "9" * 5_000),
        ("gear", "9" * 5_000 + " T DP 12"),
        ("whole", "9" * 5_000),
    ],
)
def test_what_once_took_seconds_or_all_memory_is_refused_in_a_sentence(name: str, text: str) -> None:
    with pytest.raises(RebuildError) as refusal:
        READERS[name](text)
    assert refusal.value.way_out
    assert len(str(refusal.value)) < 700
