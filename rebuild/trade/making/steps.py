"""The steps and tools a shape usually needs, with speed and feed for its material; proposed once, edited after."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from rebuild.errors import OutOfRange, RebuildError
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.making.stock import Way
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.shop.cutting import M_PER_FT, Advice, advice, operations, rpm
from rebuild.trade.shop.materials import Material
from rebuild.trade.sizes.show import show_length
from rebuild.trade.threads.designation import parse_designation

#: What a short piece gets instead of parting off.
TURNED_ROUND = "Turn it round; face the second end to"
_MM_FIRST = re.compile(r"([\d.]+(?: to [\d.]+)? mm) \(([\d.]+(?: to [\d.]+)? in)\)")


@dataclass(frozen=True, slots=True)
class StepProposal:
    """One step: what to do, where, how it is held, with what tool, speed and feed; what to leave; stop and measure."""

    what: str
    machine: str
    hold: str
    tool: str
    speed: str
    feed: str
    leave: str
    measure: bool


@dataclass(frozen=True, slots=True)
class ToolProposal:
    """One tool to have before starting, and what for."""

    what: str
    why: str


@door()
def propose_steps(
    shape: str,
    sizes: Mapping[str, Measure],
    material: Material | None,
    unit: str,
    *,
    thread: str = "",
    way: Way = Way.CHUCK,
) -> tuple[StepProposal, ...]:
    """The usual steps of a shape, those left out whose size the part does not have.

    ``way`` is how the piece in hand is held: a short one is turned round, and nothing parted off.

    >>> from rebuild.trade.shop.materials import material
    >>> sizes = {"outside diameter": Measure("outside", 25.4), "bore": Measure("bore", 15.0)}
    >>> steps = propose_steps("washer", sizes, material("bearing bronze C93200"), "in")
    >>> steps[0].what
    'Turn the outside to {outside diameter} and bore to {bore}'
    """
    cut = cutting_name(material) if material is not None else ""
    found = []
    for row in table("making_steps").rows:
        if row["shape"] != shape or not _holds(row["only"], sizes, thread):
            continue
        speed, feed = _speed_and_feed(cut, row["operation"], sizes.get(row["role"]), unit)
        if row["operation"] == "threading" and speed:
            speed = _slow_enough(speed, _highest_rpm(cut, sizes[row["role"]]), thread, unit)
        what, hold, tool = _as_held(row["what"], row["hold"], row["tool"], way)
        found.append(
            StepProposal(
                _own_first(what, unit),
                row["machine"],
                hold,
                tool,
                speed,
                feed,
                _own_first(row["leave"], unit),
                row["measure"] == "1",
            )
        )
    return tuple(found)


def _as_held(what: str, hold: str, tool: str, way: Way) -> tuple[str, str, str]:
    """A step of the table as the piece is held; only parting off, and sawing off, follow it."""
    if way is Way.TURN_ROUND:
        if what.startswith("Part off and face to "):
            length = what.removeprefix("Part off and face to ")
            return (
                f"{TURNED_ROUND} {length}; turn what the jaws held",
                "soft jaws on the turned end",
                "facing tool",
            )
        return what.replace("Saw the blank; face one end", "Hold one end, face the other"), hold, tool
    return what, hold, tool


def propose_tools(shape: str, sizes: Mapping[str, Measure], *, thread: str = "") -> tuple[ToolProposal, ...]:
    """The tools a shape usually needs before work starts.

    >>> any("ream" in tool.what.lower() for tool in propose_tools("bush", {"bore": Measure("bore", 16.0)}))
    True
    """
    return tuple(
        ToolProposal(row["what"], row["why"])
        for row in table("making_tools").rows
        if row["shape"] == shape and _holds(row["only"], sizes, thread)
    )


def _own_first(words: str, unit: str) -> str:
    """The table says ``1 mm (0.04 in)``; on an inch sheet the inches come first.

    >>> _own_first("ream 0.25 to 0.4 mm (0.010 to 0.015 in)", "in")
    'ream 0.010 to 0.015 in (0.25 to 0.4 mm)'
    """
    return _MM_FIRST.sub(r"\2 (\1)", words) if unit == "in" else words


def _holds(only: str, sizes: Mapping[str, Measure], thread: str) -> bool:
    """Whether a row belongs to a part: its size is there, or (with ``!``) is not."""
    if not only:
        return True
    if only == "thread":
        return bool(thread.strip())
    if only.startswith("!"):
        return only[1:] not in sizes
    return only in sizes


#: Words of a steel's name, and how it cuts; the first that is found counts.
_STEELS = (
    ("12L14", "free-cutting steel"), ("1144", "free-cutting steel"), ("4140", "prehard alloy steel"),
    ("4340", "prehard alloy steel"), ("8620", "medium carbon steel"), ("16MnCr5", "medium carbon steel"),
    ("1045", "medium carbon steel"), ("1040", "medium carbon steel"), ("drill rod", "tool steel annealed"),
    ("bearing steel", "tool steel annealed"), ("gauge-block", "tool steel annealed"),
)  # fmt: skip
_FAMILIES = {
    "brass": "brass",
    "aluminium": "aluminium",
    "plastic": "acetal or nylon",
    "stainless": "stainless",
}


@door()
def cutting_name(material: Material) -> str:
    """How the cutting table calls a material; empty when it has no row for it.

    >>> from rebuild.trade.shop.materials import material
    >>> cutting_name(material("bearing bronze C93200")), cutting_name(material("steel 1045 / C45"))
    ('bronze', 'medium carbon steel')
    """
    name = material.name
    if material.family == "steel":
        return next((cut for word, cut in _STEELS if word in name), "mild steel")
    if material.family == "iron":
        return "ductile iron" if name.startswith(("ductile", "malleable")) else "grey cast iron"
    if material.family == "bronze":
        return "aluminium bronze" if name.startswith("aluminium") else "bronze"
    return _FAMILIES.get(material.family, "")


def _speed_and_feed(cut: str, operation: str, size: Measure | None, unit: str) -> tuple[str, str]:
    if not cut or operation not in operations() or size is None or not size.given or size.at_mm <= 0:
        return "", ""
    try:
        found = advice(cut, "hss", operation, size.at_mm).value
    except OutOfRange:  # a drill larger than the feed table: the speed alone is known
        found = advice(cut, "hss", operation).value
    return _speed(found, size.at_mm, unit), _feed(found, unit)


def _highest_rpm(cut: str, size: Measure) -> float:
    return rpm(advice(cut, "hss", "threading").value.speed_high_m_min, size.at_mm).value.rpm


#: Faster than this the carriage cannot be stopped at a shoulder by hand [mm/min]. Common practice, no source.
CARRIAGE_MM_MIN = 250.0


def _slow_enough(speed: str, high_rpm: float, thread: str, unit: str) -> str:
    """A threading speed the half nuts can be opened at: a coarse lead is turned slowly, whatever the tool bears."""
    try:
        lead = parse_designation(thread).lead_mm
    except RebuildError:
        return speed
    most = CARRIAGE_MM_MIN / lead
    if high_rpm <= most:
        return speed
    moves = show_length(CARRIAGE_MM_MIN, unit, 0)
    return f"at most {most:.0f} rpm: a lead of {show_length(lead, unit, 3)} then moves the carriage {moves} a minute"


def _speed(found: Advice, diameter_mm: float, unit: str) -> str:
    low, high = (
        rpm(speed, diameter_mm).value.rpm for speed in (found.speed_low_m_min, found.speed_high_m_min)
    )
    scale, name = (M_PER_FT, "ft/min") if unit == "in" else (1.0, "m/min")
    return (
        f"{low:.0f} to {high:.0f} rpm "
        f"({found.speed_low_m_min / scale:.0f} to {found.speed_high_m_min / scale:.0f} {name})"
    )


def _feed(found: Advice, unit: str) -> str:
    if found.feed_low_mm is None or found.feed_high_mm is None:
        return ""
    scale, places = (25.4, 3) if unit == "in" else (1.0, 2)
    low, high = found.feed_low_mm / scale, found.feed_high_mm / scale
    return f"{low:.{places}f} to {high:.{places}f} {unit}/{found.per}"
