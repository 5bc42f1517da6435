"""Thread, taper, gear and key data as they stand on a sheet: short lines, each block with its working."""

from __future__ import annotations

from collections.abc import Callable
from math import pi

from rebuild.errors import RebuildError
from rebuild.trade.gears.backlash import recommended, thinning_each_mm
from rebuild.trade.gears.blank import gear_blank, index_text
from rebuild.trade.gears.indexing import indexing
from rebuild.trade.gears.span import span_target
from rebuild.trade.gears.spur import SpurGear
from rebuild.trade.joints.taper_pin import INCH
from rebuild.trade.joints.taper_pin_hole import hole
from rebuild.trade.making.block import DataBlock as DataBlock
from rebuild.trade.making.derive import (
    Designations,
    centre_distance_words,
    read_gear,
    read_pin,
    worked_key,
)
from rebuild.trade.making.thread_block import ThreadAsCut, thread_block
from rebuild.trade.results.door import door
from rebuild.trade.results.working import joined
from rebuild.trade.sizes.show import show_both
from rebuild.trade.tapers.machine_tapers import dimensions, parse_taper
from rebuild.words.making import PartShape


@door()
def blocks(
    shape: str,
    named: Designations,
    unit: str,
    length_mm: float | None = None,
    cut: ThreadAsCut | None = None,
) -> tuple[DataBlock, ...]:
    """The data blocks of a sheet. A designation that cannot be read gives a block with its sentence.

    ``cut`` is what the sheet says of its thread: depth and wires follow it, not the designation alone.

    >>> block = blocks("nut", Designations(thread="7/16-10 LH ACME"), "in")[0]
    >>> dict(block.lines)["depth of cut"], dict(block.lines)["tool flat"]
    ('0.0600 in (1.524 mm)', '0.0319 in (0.810 mm)')
    """
    asked = cut or ThreadAsCut(length_mm=length_mm)
    makers: tuple[tuple[str, str, Callable[[], DataBlock]], ...] = (
        ("Thread", named.thread, lambda: thread_block(named.thread, shape, unit, asked)),
        ("Taper", named.taper, lambda: _taper(named.taper, shape, unit, length_mm)),
        ("Gear", named.gear, lambda: _gear(named.gear, unit)),
        ("Key", named.key, lambda: _key(named.key, unit)),
    )
    found = []
    for title, text, make in makers:
        if not text.strip():
            continue
        try:
            found.append(make())
        except RebuildError as trouble:
            found.append(DataBlock(title, (), None, str(trouble)))
    return tuple(found)


def _taper(text: str, shape: str, unit: str, length_mm: float | None) -> DataBlock:
    if shape == PartShape.TAPER_PIN or "pin" in text.lower():
        which = read_pin(text)
        lines = [
            ("pin", which.name),
            ("taper", f"1:{1 / which.rate:g} on diameter"),
            ("sized by its", "big end" if which.standard == INCH else "small end"),
        ]
        if length_mm is None:
            return DataBlock("Taper pin", tuple(lines))
        worked = hole(which, length_mm)
        lines.append(("hole, big side", show_both(worked.value.big_mm, unit)))
        lines.append(("hole, small side", show_both(worked.value.small_mm, unit)))
        lines.append(("drill through", worked.value.steps[0].drill.name))
        lines.append(("reamer", worked.value.reamer))
        return DataBlock("Taper pin", tuple(lines), worked.working)
    taper = parse_taper(text)
    worked_taper = dimensions(taper)
    return DataBlock(
        "Taper",
        (
            ("taper", taper.name),
            ("gauge line", show_both(taper.large_mm, unit)),
            ("small end", show_both(taper.small_mm, unit)),
            ("length", show_both(taper.length_mm, unit)),
            ("on diameter", f"{taper.per_foot_in:.5f} in per foot, 1:{taper.ratio:.4g}"),
            (
                "half angle",
                f"{taper.half_angle_deg:.4f}°: set by sine bar or a master, not by the degree scale",
            ),
            ("check", "blue shows 75 to 80 % bearing, nearer the big end"),
        ),
        worked_taper.working,
    )


def _gear(text: str, unit: str) -> DataBlock:
    gear = read_gear(text)
    blank = gear_blank(gear.teeth, gear.pitch, gear.system)
    wheel = SpurGear.of(gear.system, gear.teeth, gear.pitch.module_mm)
    lines = [
        (
            "teeth",
            f"{gear.teeth}, {gear.pitch.name} (module {gear.pitch.module_mm:.4g}, "
            f"DP {gear.pitch.diametral_pitch:.4g})",
        ),
        ("tooth form", gear.system.label),
        ("outside", _span(blank.value.outside_low_mm, blank.value.outside_high_mm, unit)),
        ("pitch diameter", show_both(blank.value.pitch_diameter_mm, unit)),
        ("cut to depth", show_both(blank.value.whole_depth_mm, unit)),
        (
            "cutter",
            f"number {blank.value.cutter}" if blank.value.cutter else "none of the set of eight cuts it",
        ),
        (
            "indexing",
            f"{index_text(blank.value.turns)} turns a tooth on a 40:1 head: {indexing(gear.teeth).value.words}",
        ),
    ]
    workings = [blank.working]
    distance = centre_distance_words(gear, unit)
    if distance and gear.mate is not None:
        lines.append((f"centres with {gear.mate} teeth", distance))
    thin = (0.0, 0.0)
    if gear.centre_mm is not None:
        backlash = recommended(gear.centre_mm, gear.pitch.module_mm)
        thin = thinning_each_mm(backlash.value)
        workings.append(backlash.working)
        lines.append(
            (
                "backlash",
                _span(backlash.value.low_mm, backlash.value.high_mm, unit),
            )
        )
    span = span_target(wheel, thin_low_mm=thin[0], thin_high_mm=thin[1])
    workings.append(span.working)
    low, high = span.value.low_mm, span.value.high_mm
    reach = _span(low, high, unit) if low < high else show_both(high, unit)
    lines.append((f"span over {span.value.over} teeth", reach))
    lines.append(("tooth thickness", show_both(pi * gear.pitch.module_mm / 2, unit)))
    return DataBlock("Gear", tuple(lines), joined(f"Gear of {gear.teeth} teeth", workings))


def _key(text: str, unit: str) -> DataBlock:
    key, working = worked_key(text, unit)
    return DataBlock(
        "Key",
        (
            ("standard", f"{key.standard}, {key.kind}, for a shaft of {show_both(key.shaft_mm, unit)}"),
            ("key", f"{show_both(key.width_mm, unit)} wide, {show_both(key.height_mm, unit)} high"),
            ("key width", _span(key.key_width.low_mm, key.key_width.high_mm, unit)),
            ("shaft keyseat", _span(key.shaft_slot.low_mm, key.shaft_slot.high_mm, unit) + " wide"),
            ("hub keyway", _span(key.hub_slot.low_mm, key.hub_slot.high_mm, unit) + " wide"),
            ("across the shaft", _span(key.s.low_mm, key.s.high_mm, unit)),
            ("across the bore", _span(key.t.low_mm, key.t.high_mm, unit)),
        ),
        working,
    )


def _span(low_mm: float, high_mm: float, unit: str) -> str:
    return f"{show_both(low_mm, unit)} to {show_both(high_mm, unit)}"
