"""What is said of a joint's duty: its torque, or how it is set when it takes none."""

from __future__ import annotations

from rebuild.errors import RebuildError
from rebuild.trade.joints.duty import how_set
from rebuild.trade.joints.usual_torque import torque_words as both_units
from rebuild.trade.sizes.amounts import parse_torque_band
from rebuild.work.joints.rows import JointRow, wanted_torque


def takes_no_torque(row: JointRow) -> bool:
    """Whether a joint is set by feel and reading; the owner's own figure stands above that."""
    return bool(how_set(row.duty)) and not row.torque_wanted


def torque_words(row: JointRow) -> str:
    """The torque of each screw; how it was set; or what must be said before there is a figure."""
    if takes_no_torque(row):
        return row.how_set or "set, not torqued"
    try:
        return wanted_torque(row).value.words
    except RebuildError:
        return "" if row.duty is not None or not row.thread else "say its duty first"


def duty_words(row: JointRow) -> str:
    """One sentence on what it is there for and how it is brought to its end."""
    if row.duty is None:
        return (
            "What it is there for is not said: choose it at the right before any torque."
            if row.thread
            else ""
        )
    if takes_no_torque(row):
        said = f" Set: {row.how_set}." if row.how_set else ""
        return f"{row.duty.value}: {how_set(row.duty)}. No torque from its thread.{said}"
    why = f" Left so: {row.torque_reason}." if row.torque_reason else ""
    return f"There as: {row.duty.value}.{why}"


def hint(row: JointRow | None) -> str:
    """What the line under the table asks for."""
    if row is None:
        return "Torqued to: as 25 N·m or 20 lb-ft, then Enter"
    if takes_no_torque(row):
        return "How it was set: e.g. 0.001 in lift at mid travel, then Enter"
    try:
        wanted = f"to be {wanted_torque(row).value.words}; "
    except RebuildError:
        wanted = ""
    return f"Torqued to: {wanted}as 25 N·m or 20 lb-ft, then Enter"


def read_back(text: str) -> str:
    """A torque, or a band of it, as it was read, in both units."""
    low, high = (torque.newton_metres for torque in parse_torque_band(text))
    return f"{text}, read as {both_units(low, high)}"
