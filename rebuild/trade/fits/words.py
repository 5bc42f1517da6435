"""A fit in words: its clearance, one sentence, the zones of its picture, and the whole working."""

from __future__ import annotations

from rebuild.trade.fits.adjuster import Adjusted
from rebuild.trade.fits.combining import Combining
from rebuild.trade.fits.now import GEOMETRY, FitNow, PairNow
from rebuild.trade.fits.pairing import Pairing
from rebuild.trade.limits.judgement import Verdict
from rebuild.trade.limits.uncertainty import SUM
from rebuild.trade.limits.verdict_words import working_of as verdict_working
from rebuild.trade.results.figured import Zone
from rebuild.trade.results.working import Sheet, Working
from rebuild.trade.sizes.show import DECIMALS, show_both, show_length, show_number
from rebuild.words.readings import Stage

INDEPENDENT = (
    "The two readings are taken as independent. Where one instrument read both, its own error partly cancels "
    "in a difference, so this is on the cautious side."
)
INDEPENDENT_SUM = (
    "The readings are taken as independent. Where one instrument read them all, its own error adds up in a sum, "
    "so the true uncertainty is a little larger."
)


def clearance_words(mm: float, unit: str) -> str:
    """A clearance with its word; half the last digit shown is neither.

    >>> clearance_words(0.0254, "in"), clearance_words(-0.03, "mm"), clearance_words(0.0, "mm")
    ('0.0010 in clear', '0.030 mm interference', 'size to size')
    """
    if show_number(mm, unit).strip("0.") == "":
        return "size to size"
    return f"{show_length(abs(mm), unit)} {'clear' if mm > 0 else 'interference'}"


def range_words(low_mm: float | None, high_mm: float | None, unit: str) -> str:
    """A wanted or found range in words.

    >>> range_words(0.0254, 0.0381, "in"), range_words(-0.03, -0.01, "mm"), range_words(None, 0.1, "mm")
    ('0.0010 to 0.0015 in clear', '0.010 to 0.030 mm interference', 'at most 0.100 mm clear')
    """
    if low_mm is None and high_mm is None:
        return "nothing"
    if low_mm is None or high_mm is None:
        end = high_mm if low_mm is None else low_mm
        assert end is not None
        return f"{'at most' if low_mm is None else 'at least'} {clearance_words(end, unit)}"
    if show_number(low_mm, unit) == show_number(high_mm, unit):
        return clearance_words(low_mm, unit)
    if low_mm >= 0:
        return f"{show_number(low_mm, unit)} to {show_length(high_mm, unit)} clear"
    if high_mm <= 0:
        return f"{show_number(-high_mm, unit)} to {show_length(-low_mm, unit)} interference"
    return f"{clearance_words(low_mm, unit)} to {clearance_words(high_mm, unit)}"


def value_words(now: FitNow, unit: str) -> str:
    """What a fit is now, tightest to loosest.

    >>> from rebuild.trade.fits.now import read_directly
    >>> from rebuild.trade.fits.side_reading import SideReading
    >>> from rebuild.trade.limits.uncertainty import combine
    >>> gaps = [SideReading(place, None, mm, combine([], k=2).value) for place, mm in (("near", 0.01), ("far", 0.05))]
    >>> now = read_directly(gaps, 0.02, 0.04)
    >>> value_words(now, "mm")
    '0.010 to 0.050 mm clear'
    """
    return range_words(now.least.value_mm, now.most.value_mm, unit)


def sentence(now: FitNow, unit: str) -> str:
    """One sentence: the place that decides, what it is, and the verdict.

    >>> from rebuild.trade.fits.now import read_directly
    >>> from rebuild.trade.fits.side_reading import SideReading
    >>> from rebuild.trade.limits.uncertainty import combine
    >>> gaps = [SideReading(place, None, mm, combine([], k=2).value) for place, mm in (("near", 0.01), ("far", 0.05))]
    >>> now = read_directly(gaps, 0.02, 0.04)
    >>> sentence(read_directly(gaps[1:], 0.02, 0.04), "mm")
    '0.050 mm clear ± 0.0000 mm, to be 0.020 to 0.040 mm clear: does not conform (too loose).'
    """
    pair = deciding(now)
    at = f" at {pair.station}" if pair.station and len(now.pairs) > 1 else ""
    judged = pair.judgement
    if judged.verdict is Verdict.NO_SPEC:
        return f"{value_words(now, unit)}; nothing is wanted yet, so nothing is judged."
    how = ""
    if judged.verdict is Verdict.DOES_NOT:
        tight = judged.low_mm is not None and pair.value_mm < judged.low_mm
        how = " (too tight)" if tight else " (too loose)"
    U = "" if judged.U_mm is None else f" ± {show_length(judged.U_mm, unit, DECIMALS[unit] + 1)}"
    wanted = range_words(judged.low_mm, judged.high_mm, unit)
    return f"{clearance_words(pair.value_mm, unit)}{U}{at}, to be {wanted}: {now.verdict.value}{how}."


def deciding(now: FitNow) -> PairNow:
    """The place whose verdict is the fit's: of those, the one farthest out.

    >>> from rebuild.trade.fits.now import read_directly
    >>> from rebuild.trade.fits.side_reading import SideReading
    >>> from rebuild.trade.limits.uncertainty import combine
    >>> gaps = [SideReading(place, None, mm, combine([], k=2).value) for place, mm in (("near", 0.01), ("far", 0.05))]
    >>> now = read_directly(gaps, 0.02, 0.04)
    >>> deciding(read_directly([*gaps, SideReading("middle", None, 0.3, combine([], k=2).value)], 0.02, 0.04)).station
    'middle'
    """
    worst = [pair for pair in now.pairs if pair.judgement.verdict is now.verdict]
    return max(worst, key=_outside)


def _outside(pair: PairNow) -> float:
    low, high = pair.judgement.low_mm, pair.judgement.high_mm
    ends = [
        end
        for end in (
            low - pair.value_mm if low is not None else None,
            pair.value_mm - high if high is not None else None,
        )
        if end is not None
    ]
    return max(ends, default=pair.value_mm)


def adjusted_words(found: Adjusted, what: str, unit: str, combining: Combining) -> str:
    """What an adjuster leaves: the sentence a worn screw or way needs.

    >>> from rebuild.trade.fits.now import read_directly
    >>> from rebuild.trade.fits.side_reading import SideReading
    >>> from rebuild.trade.limits.uncertainty import combine
    >>> gaps = [SideReading(place, None, mm, combine([], k=2).value) for place, mm in (("near", 0.01), ("far", 0.05))]
    >>> now = read_directly(gaps, 0.02, 0.04)
    >>> from rebuild.trade.fits.adjuster import adjusted
    >>> adjusted_words(adjusted(now, 0.02, 0.04), "the gib", "mm", now.combining).split(" is ")[0]
    '0.040 mm (± 0.0000 mm)'
    """
    text = (
        f"{show_length(found.remains_mm, unit)} (± {show_length(found.U_mm, unit, DECIMALS[unit] + 1)}) is the "
        f"difference between the loosest and the tightest place: the loss {what} cannot take up."
    )
    if found.axial_mm is not None:
        text += f" Along the axis that is {show_length(found.axial_mm, unit)}."
    return text


def zones(
    now: FitNow | None, found: FitNow | None, low_mm: float | None, high_mm: float | None
) -> tuple[Zone, ...]:
    """The picture of a fit: the band it is to lie in, then as found, then now, each from tightest to loosest.

    >>> from rebuild.trade.fits.now import read_directly
    >>> from rebuild.trade.fits.side_reading import SideReading
    >>> from rebuild.trade.limits.uncertainty import combine
    >>> gaps = [SideReading(place, None, mm, combine([], k=2).value) for place, mm in (("near", 0.01), ("far", 0.05))]
    >>> now = read_directly(gaps, 0.02, 0.04)
    >>> [(zone.label, round(zone.low_mm, 3), round(zone.high_mm, 3)) for zone in zones(now, None, 0.02, 0.04)]
    [('to be', 0.02, 0.04), ('now', 0.01, 0.05)]
    """
    drawn: list[Zone] = []
    if low_mm is not None or high_mm is not None:
        low = low_mm if low_mm is not None else min(0.0, high_mm or 0.0)
        high = high_mm if high_mm is not None else max(_ends(now) or _ends(found) or [low_mm or 0.0])
        drawn.append(Zone("to be", low, max(low, high), "band"))
    for name, state in ((Stage.AS_FOUND, found), ("now", now)):
        if state is not None and not (name == "now" and state == found):
            ends = _ends(state) or []
            drawn.append(Zone(str(name), min(ends), max(ends), "reading"))
    return tuple(drawn)


def _ends(now: FitNow | None) -> list[float] | None:
    """The ends of the bar: the clearance, opened by the expanded uncertainty."""
    if now is None:
        return None
    return [now.least.value_mm - now.least.budget.U_mm, now.most.value_mm + now.most.budget.U_mm]


def working(title: str, sides: tuple[str, str], now: FitNow, unit: str, wanted: str) -> Working:
    """The whole working of a fit: each pair, the uncertainty, the verdict that decides.

    >>> from rebuild.trade.fits.now import read_directly
    >>> from rebuild.trade.fits.side_reading import SideReading
    >>> from rebuild.trade.limits.uncertainty import combine
    >>> gaps = [SideReading(place, None, mm, combine([], k=2).value) for place, mm in (("near", 0.01), ("far", 0.05))]
    >>> now = read_directly(gaps, 0.02, 0.04)
    >>> working("Gib", ("slide", "way"), now, "mm", "0.02-0.04").steps[0].text
    '0.02-0.04'
    """
    sheet = Sheet(title)
    sheet.read("wanted", wanted)
    for pair in now.pairs:
        place = f", {pair.station}" if pair.station else ""
        if pair.inner is None:
            sheet.read(f"clearance read{place}", f"{pair.outer.words} ({sides[0]})")
            continue
        sheet.read(f"outer{place}", f"{pair.outer.words} ({sides[0]})")
        sheet.read(f"inner{place}", f"{pair.inner.words} ({sides[1]})")
        sheet.equation(f"{now.combining.equation}{place}", _subtraction(pair, now.combining, unit), GEOMETRY)
    _tell_pairing(sheet, now)
    pair = deciding(now)
    _tell_uncertainty(sheet, pair, now)
    if now.combining.axial is not None:
        along = show_both(pair.value_mm * now.combining.axial, unit)
        sheet.equation(now.combining.axial_name, f"x {now.combining.axial:.4f} = {along}", GEOMETRY)
    sheet.take(verdict_working(pair.value_mm, pair.judgement, pair.budget.dof, unit))
    return sheet.close()


def _subtraction(pair: PairNow, way: Combining, unit: str) -> str:
    assert pair.inner is not None
    offset = f"{show_number(way.offset_mm, unit, DECIMALS[unit] + 1)} " if way.offset_mm else ""
    outer = (
        f"{'- ' if way.outer_sign < 0 else ''}{show_number(pair.outer.value_mm, unit, DECIMALS[unit] + 1)}"
    )
    inner = (
        f"{'-' if way.inner_sign < 0 else '+'} {show_number(pair.inner.value_mm, unit, DECIMALS[unit] + 1)}"
    )
    return (
        f"{offset}{outer} {inner} = {show_both(pair.value_mm, unit)}, {clearance_words(pair.value_mm, unit)}"
    )


def _tell_pairing(sheet: Sheet, now: FitNow) -> None:
    if len(now.pairs) > 1:
        sheet.note(f"Paired {now.pairing.value}.")
    if now.pairing is Pairing.EXTREMES:
        sheet.note("The two sides name no station in common: the largest is set against the smallest.")
    if now.unpaired:
        sheet.note(f"Not paired, because only one side was read there: {', '.join(now.unpaired)}.")


def _tell_uncertainty(sheet: Sheet, pair: PairNow, now: FitNow) -> None:
    squares = " + ".join(f"{part.u_mm * 1000:.3g}²" for part in pair.budget.components) or "0"
    sheet.equation("u of the clearance", f"√({squares}) = {pair.budget.u_mm * 1000:.3g} µm", SUM)
    if pair.inner is not None:
        sheet.note(
            INDEPENDENT if now.combining.outer_sign * now.combining.inner_sign < 0 else INDEPENDENT_SUM
        )
    if not pair.budget.complete:
        sheet.note(
            "A reading was taken with no instrument whose error is known: nothing can be proven with it."
        )
