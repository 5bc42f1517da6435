"""Sizes that follow from a designation or from another size: nut bore, thread blank, pin ends, key, gear blank."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from rebuild.errors import BadEntry, RebuildError
from rebuild.trade.bearings.bushes import REAM, REAM_HIGH_MM, REAM_LOW_MM
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.drawing.thread_shown import ThreadShown
from rebuild.trade.gears.blank import gear_blank
from rebuild.trade.gears.pitches import Pitch, read_pitch
from rebuild.trade.gears.spur import ToothSystem, system_names, tooth_system
from rebuild.trade.joints import keys
from rebuild.trade.joints.taper_pin import INCH, METRIC, TaperPin, ends, pin
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Working
from rebuild.trade.sizes.number import read_whole
from rebuild.trade.sizes.quantity import parse_length
from rebuild.trade.sizes.show import show_both
from rebuild.trade.sizes.typed_text import plain_of
from rebuild.trade.threads.designation import parse_designation
from rebuild.trade.threads.form import form
from rebuild.trade.threads.lookup import limits_of
from rebuild.trade.threads.making import nut_bore
from rebuild.trade.threads.sizes import Side
from rebuild.words.making import PartShape


@dataclass(frozen=True, slots=True)
class Derived:
    """A size that follows from something else, and its working."""

    measure: Measure
    working: Working


@dataclass(frozen=True, slots=True)
class Designations:
    """What is written on the sheet: thread, taper, gear, key; each may be empty."""

    thread: str = ""
    taper: str = ""
    gear: str = ""
    key: str = ""


@dataclass(frozen=True, slots=True)
class GearText:
    """A gear as written: ``24 T DP 12 14.5``; ``mate`` teeth where it says ``with 48``."""

    teeth: int
    pitch: Pitch
    system: ToothSystem
    mate: int | None

    @property
    def centre_mm(self) -> float | None:
        """The centre distance to the mate named [mm]; None without one."""
        return None if self.mate is None else self.pitch.module_mm * (self.teeth + self.mate) / 2


@door()
def derived(shape: str, named: Designations, sizes: Mapping[str, Measure], unit: str) -> dict[str, Derived]:
    """Every size of a shape that follows from the designations, by role.

    Raises:
        BadEntry, Ambiguous, OutOfRange: a designation cannot be read.

    >>> found = derived("nut", Designations(thread="7/16-10 LH ACME"), {}, "in")
    >>> bore = found["bore"].measure
    >>> round(bore.low_mm / 25.4, 4), round(bore.high_mm / 25.4, 4)
    (0.3375, 0.3425)
    """
    if shape == PartShape.NUT and named.thread:
        bore = nut_bore(named.thread)
        return {"bore": Derived(Measure("bore", None, bore.value.low_mm, bore.value.high_mm), bore.working)}
    if shape == PartShape.SCREW and named.thread:
        return {"thread diameter": _thread_blank(named.thread)}
    if shape == PartShape.TAPER_PIN and named.taper:
        return _pin_ends(named.taper, sizes)
    if shape == PartShape.KEY and named.key:
        return _key_sizes(named.key, unit)
    if shape == PartShape.GEAR and named.gear:
        return _gear_sizes(named.gear)
    return {}


def before_pressing(bore: Measure) -> Derived:
    """The bore of a bush to leave before it is pressed in: finished size less 0.010 to 0.015 in.

    >>> made = before_pressing(Measure("bore", None, 0.6257 * 25.4, 0.6262 * 25.4)).measure
    >>> round(made.low_mm / 25.4, 4), round(made.high_mm / 25.4, 4)
    (0.6107, 0.6157)
    """
    finished = bore.low_mm if bore.low_mm is not None else bore.at_mm
    low, high = finished - REAM_HIGH_MM, finished - REAM_LOW_MM
    sheet = Sheet("Bore before pressing")
    sheet.equation("finished bore less 0.010 to 0.015 in", f"{low:.4f} to {high:.4f} mm", REAM)
    return Derived(Measure("bore before pressing", None, low, high), sheet.close())


@door()
def thread_shown(
    designation: str, shape: str, root_mm: tuple[float, float] | None = None
) -> ThreadShown | None:
    """How a thread is drawn, or None when none is written. Raises BadEntry, Ambiguous, OutOfRange.

    ``root_mm`` is the root of the nut or core of the screw as the sheet cuts it; left out, the standard's.

    >>> shown = thread_shown("M20x2.5", PartShape.SCREW)
    >>> shown.major_mm, thread_shown("", PartShape.NUT) is None
    (20.0, True)
    """
    if not designation.strip():
        return None
    thread = parse_designation(designation)
    inside = shape == PartShape.NUT
    found = limits_of(thread, Side.INTERNAL if inside else Side.EXTERNAL).value
    low, high = found.minor.low_mm, found.minor.high_mm
    core = next((end for end in (low, high) if end is not None), None)
    if core is None:
        core = thread.nominal_mm - 2 * form(thread.system).screw_depth * thread.pitch_mm
    if low is not None and high is not None:
        core = (low + high) / 2
    major = thread.nominal_mm
    if inside and found.major.low_mm is not None:
        major = found.major.low_mm
    if root_mm is not None:
        major, core = (root_mm[0], core) if inside else (major, sum(root_mm) / 2)
    return ThreadShown(thread.name, major, core)


def thread_name(designation: str) -> str:
    """The name of a thread as the steps say it, or what is written where that cannot be read.

    >>> thread_name("7/16-10 left acme"), thread_name("as the old one, with flat")
    ('7/16-10 ACME-LH', 'as the old one, with flat')
    """
    try:
        return parse_designation(designation).name if designation.strip() else ""
    except RebuildError:
        return designation


def _thread_blank(designation: str) -> Derived:
    worked = limits_of(parse_designation(designation), Side.EXTERNAL)
    band = worked.value.major
    return Derived(Measure("thread diameter", None, band.low_mm, band.high_mm), worked.working)


@door()
def read_pin(text: str) -> TaperPin:
    """A taper pin as written: ``no. 4``, ``taper pin #2/0``, ``5 mm``, ``taper pin 5x40 mm``.

    Raises:
        OutOfRange: no such size.

    >>> read_pin("taper pin no. 4").name, read_pin("5 mm").name
    ('taper pin no. 4', 'taper pin 5 mm')
    """
    plain = re.sub(r"taper\s*pin|\bpin\b", " ", text.lower()).strip()
    plain = re.split(r"\s*[x×]\s*", plain)[0] + (" mm" if "mm" in plain and "x" in plain else "")
    return pin(plain, METRIC if "mm" in plain else INCH)


def _pin_ends(text: str, sizes: Mapping[str, Measure]) -> dict[str, Derived]:
    which = read_pin(text)
    length = sizes.get("length")
    if length is None or not length.given:
        return {}
    found = ends(which, length.at_mm)
    return {
        "big end": Derived(Measure("big end", found.value.big_mm), found.working),
        "small end": Derived(Measure("small end", found.value.small_mm), found.working),
    }


@door()
def worked_key(text: str, unit: str) -> tuple[keys.Key, Working]:
    """A key as written, with its working: for which shaft, and its kind: ``1 in square``, ``30 mm tight``.

    Raises:
        BadEntry, OutOfRange: no shaft in it, or none in the table.

    >>> round(worked_key("1 in square", "in")[0].s_mm / 25.4, 3)
    0.859
    """
    plain = text.lower()
    words = [
        word for word in ("square", "rectangular", "taper", "tight", "class 2", "class 1") if word in plain
    ]
    rest = plain
    for word in (*words, "parallel", "key", "for", "shaft"):
        rest = rest.replace(word, " ")
    if not rest.strip():
        raise BadEntry(
            "names no shaft.", where="Key", value=text, way_out="Type it as 1 in square, or 30 mm."
        )
    shaft = parse_length(" ".join(rest.split()), unit, "Key")
    if shaft.unit == "mm":
        worked = keys.key_metric(shaft.mm, tight="tight" in words)
    else:
        kind = keys.RECTANGULAR if "rectangular" in words else keys.SQUARE
        worked = keys.key_inch(
            shaft.mm,
            kind,
            keys.TAPER if "taper" in words else keys.PARALLEL,
            "2" if "class 2" in words else "1",
        )
    return worked.value, worked.working


def _key_sizes(text: str, unit: str) -> dict[str, Derived]:
    key, working = worked_key(text, unit)
    width, height = key.key_width, key.key_height
    return {
        "width": Derived(Measure("width", None, width.low_mm, width.high_mm), working),
        "height": Derived(Measure("height", None, height.low_mm, height.high_mm), working),
    }


@door()
def read_gear(text: str) -> GearText:
    """A gear as written: teeth, pitch, and its tooth system or pressure angle; ``with 48`` names its mate.

    Raises:
        BadEntry: teeth or pitch are missing.

    >>> gear = read_gear("24 T DP 12 14.5 with 48")
    >>> gear.teeth, gear.pitch.name, gear.system.name, gear.mate
    (24, 'DP 12', 'full-14.5', 48)
    """
    ways = "Type it as 24 T DP 12 14.5, or 30 T module 2 20."
    plain = " ".join(plain_of(text, "Gear", ways, sort="a gear").lower().replace(",", " ").split())
    mate = re.search(r"\bwith (\d+)", plain)
    plain = plain.replace(mate[0], " ") if mate else plain
    teeth = re.search(r"\b(\d+)\s*(?:t|teeth|tooth)\b", plain)
    pitch = re.search(r"\b(?:dp|cp|module|mod|m)\s*[\d./ -]*\d|\b[\d.]+\s*dp\b", plain)
    if teeth is None or pitch is None:
        raise BadEntry(
            "does not say teeth and pitch.",
            where="Gear",
            value=text,
            way_out=ways,
        )
    # A pitch swallows the number after it (DP 12 14.5); the first number is the pitch.
    words = re.match(r"((?:dp|cp|module|mod|m)\s*[\d./]+|[\d.]+\s*dp)", pitch[0])
    found = read_pitch(words[1] if words else pitch[0])
    rest = plain.replace(teeth[0], " ").replace(words[1] if words else pitch[0], " ")
    beside = read_whole(mate[1], "Teeth of the mate") if mate else None
    return GearText(read_whole(teeth[1], "Teeth"), found, _system_in(rest, found), beside)


def _system_in(rest: str, pitch: Pitch) -> ToothSystem:
    for name in system_names():
        if name in rest:
            return tooth_system(name)
    if "stub" in rest:
        return tooth_system("stub-20")
    for angle, name in (("14.5", "full-14.5"), ("15", "old-15"), ("25", "full-25")):
        if re.search(rf"\b{re.escape(angle)}(?:\b|°)", rest):
            return tooth_system(name)
    if pitch.kind == "module":
        return tooth_system("iso-20")
    return tooth_system("fine-20" if pitch.diametral_pitch >= 20 else "coarse-20")


def _gear_sizes(text: str) -> dict[str, Derived]:
    gear = read_gear(text)
    worked = gear_blank(gear.teeth, gear.pitch, gear.system)
    blank = worked.value
    outside = Measure("outside diameter", None, blank.outside_low_mm, blank.outside_high_mm)
    return {
        "outside diameter": Derived(outside, worked.working),
        "pitch diameter": Derived(Measure("pitch diameter", blank.pitch_diameter_mm), worked.working),
        "root diameter": Derived(Measure("root diameter", blank.root_mm), worked.working),
    }


def centre_distance_words(gear: GearText, unit: str) -> str:
    """The centre distance to the mate named on the sheet; empty without one.

    >>> centre_distance_words(read_gear("24 T DP 12 14.5 with 48"), "in")  # (24 + 48) / (2 x 12)
    '3.0000 in (76.200 mm)'
    """
    return "" if gear.centre_mm is None else show_both(gear.centre_mm, unit)
