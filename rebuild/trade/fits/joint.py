"""How two sizes make a clearance for each sort of joint, from what is written in the features' thread fields."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from rebuild.errors import BadEntry
from rebuild.trade.fits.combining import SIZES, Combining, mesh_combining, taper_combining, thread_combining
from rebuild.trade.sizes.given import word_of
from rebuild.words.fits import FitJoint


@dataclass(frozen=True, slots=True)
class Joined:
    """The way to combine the two sizes, or None with what is missing; ``note`` says what could not be used."""

    combining: Combining | None
    missing: str = ""
    note: str = ""


def joined(joint: FitJoint, texts: Sequence[str]) -> Joined:
    """How a joint's two sizes combine.

    Args:
        joint: a word of ``FitJoint``.
        texts: the thread, taper or pitch written on either side (``7/16-10 LH Acme``, ``MT3``, ``DP 8``).

    >>> round(joined(FitJoint.NUT_AND_SCREW, ["7/16-10 LH Acme", ""]).combining.axial, 4)
    0.2586
    >>> joined(FitJoint.GEAR_MESH, ["", ""]).missing
    'write the module or diametral pitch (DP 8, module 2) in the thread field of either gear'
    """
    return _joined(word_of("Joint", joint, FitJoint), tuple(text.strip() for text in texts if text.strip()))


@lru_cache(maxsize=512)
def _joined(joint: FitJoint, texts: tuple[str, ...]) -> Joined:
    if joint is FitJoint.NUT_AND_SCREW:
        return _threads(texts)
    if joint is FitJoint.TAPER:
        return _tapers(texts)
    if joint is FitJoint.GEAR_MESH:
        return _gears(texts)
    return Joined(SIZES)


def _threads(texts: tuple[str, ...]) -> Joined:
    from rebuild.trade.threads.designation import parse_designation
    from rebuild.trade.threads.form import form

    for text in texts:
        try:
            return Joined(thread_combining(form(parse_designation(text).system).half_rad))
        except BadEntry:
            continue
    return Joined(SIZES, note="No thread is named on either side, so play along the axis is not worked out.")


def _tapers(texts: tuple[str, ...]) -> Joined:
    from rebuild.trade.tapers.machine_tapers import parse_taper

    for text in texts:
        try:
            return Joined(taper_combining(parse_taper(text).rate))
        except BadEntry:
            continue
    return Joined(SIZES, note="No taper is named on either side, so the stand-off is not worked out.")


def _gears(texts: tuple[str, ...]) -> Joined:
    from rebuild.trade.gears.pitches import read_pitch

    for text in texts:
        for piece in (text, *text.split(",")):
            try:
                return Joined(mesh_combining(read_pitch(piece.strip()).module_mm))
            except BadEntry:
                continue
    return Joined(
        None,
        missing="write the module or diametral pitch (DP 8, module 2) in the thread field of either gear",
    )
