"""Which pipe thread is it: from its outside and, if they were counted, its threads per inch.

27 and 28, 11 and 11 1/2 threads differ by less than one on the length one can count, so every thread within one of the
count is told, each with how far the readings are off it.
"""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.likeness import Likeness, Misfit, check_tolerance, worst
from rebuild.trade.results.working import Sheet, Worked
from rebuild.trade.sizes.own_unit import both, own_unit, said
from rebuild.trade.sizes.show import show_length
from rebuild.trade.threads.pipe import INCH_MM, NOT_TOGETHER, NPT, SYSTEMS, TAPER, G, PipeThread, pipe_threads

#: How far off an outside is still worth showing, and a count.
NEAR_MM, NEAR_TPI = 0.7, 1.0
#: What a thread gauge or a rule over an inch tells of a pitch (common practice, no source).
PITCH_SHARE = 0.03
#: A sound outside thread reads under its basic major by up to this [mm] (larger sizes of ISO 228-1; from memory).
UNDER_MM = 0.3
MOST_TOLD = 8


@dataclass(frozen=True, slots=True)
class PipeGuess:
    """A pipe thread the readings may be, and how it fits them."""

    thread: PipeThread
    likeness: Likeness


@door()
def identify_pipe_thread(
    major_mm: float, tpi: float | None = None, tolerance_mm: float = 0.1
) -> Worked[tuple[PipeGuess, ...]]:
    """The pipe threads a measured outside and pitch may be, best first; those that do not agree say so.

    Args:
        major_mm: outside over the crests; of a taper thread near its full end.
        tpi: threads per inch, if they were counted.
        tolerance_mm: how far the outside may be off.

    Raises:
        OutOfRange: nothing near; a size or pitch not above zero; or a tolerance that says nothing.

    >>> identify_pipe_thread(20.8, 14.0).value[0].thread.name
    'G 1/2'
    """
    if not (major_mm > 0 and (tpi is None or tpi > 0)):
        raise OutOfRange("is not above zero.", where="Outside", value=_read(major_mm, tpi))
    check_tolerance(tolerance_mm)
    near = [
        _guess(thread, major_mm, tpi, tolerance_mm)
        for thread in pipe_threads()
        if abs(thread.major_mm - major_mm) <= NEAR_MM and (tpi is None or abs(thread.tpi - tpi) <= NEAR_TPI)
    ]
    near.sort(key=_order)
    if not near:
        raise OutOfRange(
            f"{f'with {tpi:g} threads per inch ' if tpi is not None else ''}is near no pipe thread held.",
            where="Outside",
            value=said(major_mm),
            way_out="Measure over the crests; or it is no pipe thread (see identify-thread).",
        )
    found = tuple(near[:MOST_TOLD])
    sheet = Sheet("Which pipe thread")
    sheet.read("readings", _read(major_mm, tpi))
    for guess in found:
        sheet.table(guess.thread.name, f"{guess.likeness.sizes}; {guess.likeness.off()}", guess.thread.source)
    sheet.note(
        "A 55° and a 60° thread gauge tells G and R from NPT; a rule along the crests tells R from G.",
        NOT_TOGETHER,
    )
    return Worked(found, sheet.close())


def _order(one: PipeGuess) -> tuple[bool, float, int]:
    """Those that agree first, by how far the outside is off; the others by their worst reading."""
    agrees, misfits = one.likeness.agrees, one.likeness.misfits
    return (
        not agrees,
        abs(misfits[0].off_mm) if agrees else worst(misfits),
        SYSTEMS.index(one.thread.system),
    )


def _read(major_mm: float, tpi: float | None) -> str:
    return both(major_mm) + (f", {tpi:g} per inch" if tpi is not None else "")


def _guess(thread: PipeThread, major_mm: float, tpi: float | None, tolerance_mm: float) -> PipeGuess:
    # A taper is smaller towards its end and larger beyond the gauge plane, over which its outside is given.
    slope = (thread.gauge_mm or 0.0) / TAPER
    over = tolerance_mm if thread.system in (G, NPT) else tolerance_mm + 0.6 * slope
    misfits = [Misfit("outside", major_mm - thread.major_mm, tolerance_mm + max(UNDER_MM, slope), over)]
    if tpi is not None:
        off = PITCH_SHARE * thread.pitch_mm
        misfits.append(Misfit("pitch", INCH_MM / tpi - thread.pitch_mm, off, off))
    sizes = f"{show_length(thread.major_mm, own_unit())}, {thread.tpi:g} per inch"
    return PipeGuess(thread, Likeness(thread.name, sizes, tuple(misfits), thread.source.cite()))
