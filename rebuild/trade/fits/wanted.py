"""What is wanted between two sides, as people type it: ``0.02-0.04``, ``0.8-1.2 thou interference``, ``H7/g6``,
``RC4``, ``max 0.004``, ``rule slow bush``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from rebuild.errors import Ambiguous, BadEntry, Implausible
from rebuild.trade.fits.words import range_words
from rebuild.trade.limits.spec_entry import comma_settled, parse_spec
from rebuild.trade.limits.spec_forms import parse_deviations
from rebuild.trade.limits.spec_of_class import refuse_bare_inches
from rebuild.trade.limits.spec_parts import SpecEntry
from rebuild.trade.limits.spec_unit import LONGEST
from rebuild.trade.results.working import Sheet, Working
from rebuild.trade.sizes.comma import refuse_doubtful
from rebuild.trade.sizes.given import maybe_number_of, word_of
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.trade.sizes.show import exact_text, show_length
from rebuild.trade.sizes.typed_text import plain_of
from rebuild.words.fits import FitKind, WantedOrigin

WHERE = "To be"
WAYS_TO_TYPE = (
    "Type it as 0.02-0.04, -0.03 to -0.01, 0.8-1.2 thou interference, max 0.004, H7/g6, RC4 or rule slow."
)

_FIT = re.compile(
    r"(?:(?P<size>[\d.,/ -]*\d\s*(?:mm|in\.?|\")?)\s+)?"
    r"(?P<fit>[A-Z]{1,2}\d{1,2}\s*/\s*[a-z]{1,2}\d{1,2}|(?:RC|LC|LT|LN|FN)\s?\d{1,2})",
)
_RULE = re.compile(r"rule\s+(?P<name>.+)", re.I)
_TIGHT = re.compile(r"\b(?:interference|press|shrink|tight|drive|driving)\b", re.I)
_LOOSE = re.compile(r"\b(?:clearance|clear|loose|free|play)\b", re.I)
#: A range beyond this share of the size is held for a second look: a unit is probably mixed.
SHARE = 0.03
#: Kinds of fit that cannot run on an interference, and those that need one.
CLEAR_KINDS = (FitKind.RUNNING, FitKind.SLIDING, FitKind.THREAD, FitKind.MESH)
TIGHT_KINDS = (FitKind.PRESS, FitKind.SHRINK)


@dataclass(frozen=True, slots=True)
class Wanted:
    """A wanted range: clearance up, interference down; an end may be open. ``cite`` says where it comes from."""

    low: Size | None
    high: Size | None
    origin: WantedOrigin = WantedOrigin.OWN
    cite: str = ""
    working: Working | None = None


def parse_wanted(
    text: str,
    unit: str = "mm",
    *,
    kind: str = FitKind.RUNNING,
    nominal_mm: float | None = None,
    decimal_comma: bool | None = None,
) -> Wanted:
    """Read a wanted range; a bare number is in ``unit``.

    Args:
        kind: the kind of fit; a press or shrink fit asks what two bare numbers mean.
        nominal_mm: the size of the fit, for standard fits and rules of the trade.

    Raises:
        BadEntry: not a range, or one that cannot be for this kind of fit.
        Ambiguous: two bare numbers for a press fit, or a doubtful comma the file has not settled.
        OutOfRange: a standard fit or rule outside its table.

    >>> wanted = parse_wanted("0.8-1.2 thou interference", "in", kind="press")
    >>> round(wanted.low.mm, 5), round(wanted.high.mm, 5)
    (-0.03048, -0.02032)
    >>> parse_wanted("H7/g6", nominal_mm=25).low.mm
    0.007
    """
    kind = word_of("Kind of fit", kind, FitKind)
    nominal_mm = maybe_number_of("Nominal size", nominal_mm)
    whole = plain_of(text, WHERE, WAYS_TO_TYPE, longest=LONGEST, sort="a range")
    refuse_doubtful(whole, WHERE, decimal_comma)
    plain = comma_settled(whole, decimal_comma)
    named = _FIT.fullmatch(plain)
    ruled = _RULE.fullmatch(plain)
    if named:
        found = _standard(named, unit, nominal_mm, plain)
    elif ruled:
        found = _ruled(ruled["name"].strip().lower(), unit, nominal_mm, plain)
    else:
        found = _own(plain, unit, kind)
    refuse_unfit(kind, found.low, found.high, text.strip(), unit)
    return found


def refuse_unfit(kind: str, low: Size | None, high: Size | None, typed: str, unit: str) -> None:
    """Raise BadEntry for an interference in a running fit, or a clearance in a press fit.

    >>> refuse_unfit(FitKind.RUNNING, Size("-0.01", "mm", -0.01), None, "-0.01", "mm")
    Traceback (most recent call last):
    rebuild.errors.BadEntry: ...a running fit cannot work with an interference...
    """
    ends = range_words(low.mm if low else None, high.mm if high else None, unit)
    lowest = low if low is not None else high
    if kind in CLEAR_KINDS and lowest is not None and lowest.mm < 0:
        raise BadEntry(
            f"allows {ends}, and a {kind} fit cannot work with an interference.",
            where=WHERE,
            value=typed,
            way_out="Type a clearance of zero or more, or choose push or press as the kind of fit.",
        )
    if kind in TIGHT_KINDS and (high is None or high.mm > 0):
        raise BadEntry(
            f"allows {ends}, and a {kind} fit holds by interference alone.",
            where=WHERE,
            value=typed,
            way_out="Type it as 0.01-0.03 interference, or choose push as the kind of fit.",
        )


def refuse_mixed_units(wanted: Wanted, size_mm: float | None, typed: str, unit: str) -> None:
    """Raise Implausible for a range too large for the size: millimetres typed for inches, or the reverse.

    >>> refuse_mixed_units(parse_wanted("0.8-1.2"), 25.0, "0.8-1.2", "mm")
    Traceback (most recent call last):
    rebuild.errors.Implausible: ...is 5% of the size 25.000 mm...
    """
    ends = [abs(end.mm) for end in (wanted.low, wanted.high) if end is not None]
    if not size_mm or not ends or max(ends) <= SHARE * abs(size_mm):
        return
    other = (
        "millimetres typed for inches" if unit == "in" else "a decimal place, or inches and millimetres mixed"
    )
    raise Implausible(
        f"is {max(ends) / abs(size_mm):.0%} of the size {show_length(abs(size_mm), unit)} ({other}?).",
        where=WHERE,
        value=typed,
        way_out="Enter it again to keep it as it is, or mend it.",
    )


def _standard(match: re.Match[str], unit: str, nominal_mm: float | None, typed: str) -> Wanted:
    from rebuild.trade.fits.named import named_fit

    if match["size"] and match["size"].strip()[-1].isdigit() and "/" in match["fit"]:
        refuse_bare_inches(match["size"].strip(), match["fit"], unit, WHERE, typed)
    nominal = parse_length(match["size"], unit, WHERE).mm if match["size"] else nominal_mm
    if nominal is None:
        raise BadEntry(
            "needs a size.",
            where=WHERE,
            value=typed,
            way_out=f"Type it as 25 {match['fit']}, or measure a side first.",
        )
    fit = named_fit(nominal, match["fit"].replace(" ", ""))
    cite = f"{fit.value.name} at {show_length(nominal, unit)}"
    low, high = _size(fit.value.min_clearance_mm, unit), _size(fit.value.max_clearance_mm, unit)
    return Wanted(low, high, WantedOrigin.STANDARD, cite, fit.working)


def _ruled(name: str, unit: str, size_mm: float | None, typed: str) -> Wanted:
    from rebuild.trade.bearings.bushes import press_interference, running_clearance, use_names

    if name not in (*use_names(), FitKind.PRESS):
        raise BadEntry(
            "is not a rule here.",
            where=WHERE,
            value=typed,
            way_out=f"Rules: {', '.join((*use_names(), FitKind.PRESS))}; typed as rule slow.",
        )
    if size_mm is None:
        raise BadEntry(
            "needs a size.", where=WHERE, value=typed, way_out="Measure a side first, or give it a nominal."
        )
    sheet = Sheet(f"To be, by the rule “{name}”")
    sheet.read("size", show_length(size_mm, unit))
    if name == FitKind.PRESS:
        tight, source = press_interference(size_mm)
        low, high, label = -tight.high_mm, -tight.low_mm, "driving fit of a bush"
    else:
        use = running_clearance(name, size_mm)
        low, high, label, source = use.clearance.low_mm, use.clearance.high_mm, use.label, use.source
    sheet.table(label, range_words(low, high, unit), source)
    return Wanted(
        _size(low, unit), _size(high, unit), WantedOrigin.RULE, f"{label}: {source.cite()}", sheet.close()
    )


def _own(plain: str, unit: str, kind: str) -> Wanted:
    tight, loose = bool(_TIGHT.search(plain)), bool(_LOOSE.search(plain))
    if tight and loose:
        raise BadEntry("is both clear and tight.", where=WHERE, value=plain, way_out=WAYS_TO_TYPE)
    numbers = " ".join(_LOOSE.sub("", _TIGHT.sub("", plain)).split())
    entry = _numbers(numbers, unit, plain)
    if entry.low is None and entry.high is None:
        raise BadEntry("is one size, not a range.", where=WHERE, value=plain, way_out=WAYS_TO_TYPE)
    unsigned = all(end is None or end.mm >= 0 for end in (entry.low, entry.high))
    if tight and unsigned:
        return Wanted(_turned(entry.high), _turned(entry.low))
    if kind in TIGHT_KINDS and unsigned and not loose and "+" not in numbers:
        raise Ambiguous(
            f"may be the interference of this {kind} fit, or a clearance.",
            where=WHERE,
            value=plain,
            readings=(("so much too tight", f"{numbers} interference"), ("so much free", f"{numbers} clear")),
        )
    return Wanted(entry.low, entry.high)


def _numbers(text: str, unit: str, typed: str) -> SpecEntry:
    try:
        high, low = parse_deviations(text, unit, WHERE)
    except Ambiguous:
        raise
    except BadEntry:
        pass
    else:
        return SpecEntry(None, low, high)
    try:
        return parse_spec(text, unit, WHERE)
    except Ambiguous:
        raise
    except BadEntry:
        raise BadEntry("is not a range.", where=WHERE, value=typed, way_out=WAYS_TO_TYPE) from None


def _turned(end: Size | None) -> Size | None:
    """The other sign, for an interference typed without one."""
    if end is None:
        return None
    return Size(f"-{end.text}" if end.mm else end.text, end.unit, -end.mm if end.mm else 0.0)


def _size(mm: float, unit: str) -> Size:
    return Size(exact_text(mm, unit), unit, mm)
