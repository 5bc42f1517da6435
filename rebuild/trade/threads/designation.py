"""Thread designations as people write them: ``3/8-16 UNC-2B``, ``M8x1.25``, ``7/16-10 LH ACME``, ``2 BA``.

A pair without a series word is Unified when it is a standard Unified pair; a pair that is standard only as
Whitworth is asked about, never guessed.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.given import text_of
from rebuild.trade.sizes.number import read_whole
from rebuild.trade.sizes.typed_text import plain_of
from rebuild.trade.threads.pitch import mixed
from rebuild.trade.threads.series import (
    MM_PER_IN,
    System,
    inch_series,
    metric_coarse,
    standards,
    tpi_of,
    unified_series,
)
from rebuild.trade.threads.thread_name import WAYS_TO_TYPE, ThreadDesignation

__all__ = ["WAYS_TO_TYPE", "ThreadDesignation", "parse_designation"]

_SIZE = r"(?P<size>\d+[ -]\d+/\d+|\d+/\d+|\d*\.\d+|\d+(?:\.\d+)?)\s*(?:\"|IN\.?)?"
_TPI = r"(?P<tpi>\d+(?:\.\d+| \d/\d)?)\s*(?:T\.?P\.?I\.?)?"
_LEFT = re.compile(r"(?<![A-Z])(?:LH|L\.H\.|LEFT[ -]?HAND(?:ED)?|LEFT)(?![A-Z])")
_RIGHT = re.compile(r"(?<![A-Z])(?:RH|R\.H\.|RIGHT[ -]?HAND(?:ED)?)(?![A-Z])")
_STARTS = re.compile(r"\(?(?P<word>\d|SINGLE|DOUBLE|TWO|THREE|TRIPLE|FOUR|QUADRUPLE)[ -]*STARTS?\)?")
_START_WORDS = {"SINGLE": 1, "DOUBLE": 2, "TWO": 2, "THREE": 3, "TRIPLE": 3, "FOUR": 4, "QUADRUPLE": 4}
_METRIC = re.compile(
    r"M\s*(?P<d>\d+(?:\.\d+)?)(?:\s*[X×*]\s*(?P<p>\d*\.?\d+)|\s*-\s*(?P<q>\d*\.\d+|\d)(?![A-Z\d]))?"
    r"(?:[\s-]*(?P<cls>\d[A-H](?:\d[A-H])?))?",
    re.I,
)
_TRAPEZOIDAL = re.compile(
    r"TR\.?\s*(?P<d>\d+(?:\.\d+)?)\s*[X×*]\s*(?P<lead>\d+(?:\.\d+)?)"
    r"(?:\s*\(?\s*P\s*(?P<p>\d+(?:\.\d+)?)\s*\)?)?(?:[\s-]*(?P<cls>\d[A-H]))?",
    re.I,
)
_BA = re.compile(r"(?:NO\.?\s*|#)?(?P<n>\d+)[\s-]*B\.?\s*A\.?|B\.?A\.?[\s-]*(?:NO\.?\s*|#)?(?P<m>\d+)")
_BRITISH = re.compile(
    rf"{_SIZE}(?:\s*[-X×]\s*{_TPI})?[\s,-]*(?P<series>B\.?S\.?W\.?|B\.?S\.?F\.?|B\.?S\.?B\.?|ME|"
    r"WHIT(?:WORTH|\.)?)(?:[\s,-]*(?P<cls>CLOSE|MEDIUM|FREE|NORMAL))?"
)
_ACME = re.compile(
    rf"{_SIZE}\s*[-X×]\s*(?:(?P<pitch>\d*\.\d+)\s*P\s*-\s*(?P<lead>\d*\.\d+)\s*L|{_TPI})[\s-]*"
    r"(?P<stub>STUB[\s-]*)?ACME(?:[\s-]*(?P<cls>\d[A-Z]))?"
)
_PIPE = re.compile(
    rf"(?P<g>G)\s*{_SIZE}\s*[AB]?|{_SIZE.replace('size', 'size2')}(?:\s*-\s*[\d.]+)?[\s-]*(?P<word>BSPP?|NPT)|"
    rf"(?P<before>BSPP?|NPT)[\s-]*{_SIZE.replace('size', 'size3')}(?:\s*-\s*[\d.]+)?"
)
_UNIFIED = re.compile(
    rf"(?P<number>#|NO\.?\s*)?{_SIZE}(?:\s*[-X×]\s*{_TPI})?"
    r"(?:[\s-]*(?P<series>UNC|UNF|UNEF|UNS|UNRC|UNRF|UNR|UN|N\.?C\.?|N\.?F\.?))?"
    r"(?:[\s-]*(?P<cls>[123][AB]))?"
)


def parse_designation(text: str, field: str = "Thread") -> ThreadDesignation:
    """Read a thread designation.

    Args:
        text: as typed.
        field: named in the message when it cannot be taken.

    Raises:
        BadEntry: not a designation, or a size the named series does not have.
        Ambiguous: a bare inch pair that is standard only as Whitworth.

    >>> thread = parse_designation("7/16-10 LH ACME")
    >>> thread.system.value, thread.nominal_in, thread.tpi, thread.left_hand
    ('Acme', 0.4375, 10.0, True)
    >>> parse_designation("M8").pitch_mm
    1.25
    """
    if not text_of(field, text, WAYS_TO_TYPE).strip():
        raise BadEntry("is not a thread designation.", where=field, value=text, way_out=WAYS_TO_TYPE)
    whole = plain_of(text, field, WAYS_TO_TYPE, sort="a thread designation")
    plain = re.sub(r"(?<=\d),(?=\d)", ".", whole.upper())
    left = bool(_LEFT.search(plain))
    plain = _RIGHT.sub(" ", _LEFT.sub(" ", plain))
    starts, plain = _starts_off(plain)
    plain = re.sub(r"[\s-]+$", "", " ".join(plain.split()).lstrip("- ")).replace("- ACME", "-ACME")
    readers: tuple[tuple[re.Pattern[str], _Reader], ...] = (
        (_METRIC, _metric),
        (_TRAPEZOIDAL, _trapezoidal),
        (_BA, _ba),
        (_BRITISH, _british),
        (_ACME, _acme),
        (_PIPE, _pipe),
        (_UNIFIED, _unified),
    )
    for pattern, read in readers:
        match = pattern.fullmatch(plain)
        if match:
            return read(match, _Typed(text.strip(), field, starts, left))
    raise BadEntry("is not a thread designation.", where=field, value=text.strip(), way_out=WAYS_TO_TYPE)


@dataclass(frozen=True, slots=True)
class _Typed:
    text: str
    field: str
    starts: int
    left: bool

    def bad(self, what: str, way_out: str = WAYS_TO_TYPE) -> BadEntry:
        return BadEntry(what, where=self.field, value=self.text, way_out=way_out)


_Reader = Callable[[re.Match[str], _Typed], ThreadDesignation]


def _starts_off(plain: str) -> tuple[int, str]:
    match = _STARTS.search(plain)
    if not match:
        return 1, plain
    word = match["word"]
    return (_START_WORDS.get(word) or read_whole(word, "Starts")), plain.replace(match[0], " ")


def _metric(match: re.Match[str], typed: _Typed) -> ThreadDesignation:
    d = float(mixed(match["d"]))
    written = match["p"] or match["q"]
    pitch = float(mixed(written)) if written else metric_coarse().get(d)
    if d <= 0 or pitch == 0:
        raise typed.bad("has a size that is not more than zero.")
    if pitch is None:
        raise typed.bad(f"has no coarse pitch in ISO 261 at {d:g} mm.", f"Write the pitch: M{d:g}x1.")
    if typed.starts > 1:
        raise typed.bad("has several starts, which ISO 965-1 does not cover.", "Identify it by measurement.")
    series = "M coarse" if metric_coarse().get(d) == pitch else "M fine"
    cls = _cased(match["cls"], typed)
    return ThreadDesignation(typed.text, System.METRIC, series, f"{d:g}", d, pitch, None, 1, typed.left, cls)


def _cased(cls: str | None, typed: _Typed) -> str:
    """A metric class in the case it was typed in, since H and h differ."""
    if not cls:
        return ""
    found = re.findall(re.escape(cls), typed.text, re.I)
    return str(found[-1]) if found else cls


def _trapezoidal(match: re.Match[str], typed: _Typed) -> ThreadDesignation:
    d, lead = (float(mixed(match[part])) for part in ("d", "lead"))
    pitch = float(mixed(match["p"])) if match["p"] else lead / typed.starts
    starts = round(lead / pitch) if pitch > 0 else 0
    if starts < 1 or abs(starts * pitch - lead) > 1e-9:
        raise typed.bad("has a lead that is no whole number of pitches.", "Write it as Tr 40x14(P7).")
    cls = _cased(match["cls"], typed)
    return ThreadDesignation(
        typed.text, System.TRAPEZOIDAL, "Tr", f"{d:g}", d, pitch, None, starts, typed.left, cls
    )


def _ba(match: re.Match[str], typed: _Typed) -> ThreadDesignation:
    number = match["n"] or match["m"]
    for row in standards():
        if row.series == "BA" and row.size == number:
            return ThreadDesignation(
                typed.text, System.BA, "BA", number, row.major_mm, row.pitch_mm, None, 1, typed.left
            )
    raise typed.bad("is not a BA number (0 to 16, BS 93).")


def _british(match: re.Match[str], typed: _Typed) -> ThreadDesignation:
    series = match["series"].replace(".", "")
    series = "Whit" if series.startswith("WHIT") else series
    size = mixed(match["size"])
    known = tpi_of("BSW" if series == "Whit" else series).get(round(float(size), 4))
    tpi = float(mixed(match["tpi"])) if match["tpi"] else known
    if tpi is None:
        raise typed.bad(f"is not a size of {series}.", "Write the threads per inch too: 1/2-12 BSW.")
    if series in ("BSW", "BSF") and known is not None and tpi != known:
        raise typed.bad(
            f"is not {series}: {match['size']} {series} has {known:g} threads per inch.",
            f"Write {match['size']}-{tpi:g} Whit for a special pitch.",
        )
    cls = (match["cls"] or "").lower()
    return _inch(typed, System.WHITWORTH, series, match["size"], size, tpi, cls)


def _acme(match: re.Match[str], typed: _Typed) -> ThreadDesignation:
    system = System.STUB_ACME if match["stub"] else System.ACME
    starts = typed.starts
    if match["pitch"]:
        pitch, lead = (float(mixed(match[part])) for part in ("pitch", "lead"))
        if pitch <= 0:
            raise typed.bad("has a size that is not more than zero.")
        starts, tpi = round(lead / pitch), _whole_if_near(1 / pitch)
        if abs(lead - starts * pitch) > 0.01 * pitch:
            raise typed.bad("has a lead that is no whole number of pitches.")
    else:
        tpi = float(mixed(match["tpi"]))
    cls = match["cls"] or ""
    if cls.endswith("C"):
        raise typed.bad(
            "is a centralizing Acme thread; only the general purpose classes 2G, 3G, 4G are carried here.",
            "Take 2G to 4G, or the standard itself.",
        )
    typed = _Typed(typed.text, typed.field, starts, typed.left)
    series = "STUB ACME" if match["stub"] else "ACME"
    return _inch(typed, system, series, match["size"], mixed(match["size"]), tpi, cls)


def _whole_if_near(tpi: float) -> float:
    half = round(2 * tpi) / 2
    return half if abs(tpi - half) < 0.005 * tpi else tpi


def _pipe(match: re.Match[str], typed: _Typed) -> ThreadDesignation:
    """Pipe threads are named and measured here; their limits are not carried."""
    series = "NPT" if "NPT" in (match["word"], match["before"]) else "G"
    size = (match["size"] or match["size2"] or match["size3"]).replace("-", " ")
    for row in standards():
        if row.series == series and row.size == size:
            return ThreadDesignation(
                typed.text, row.system, series, size, row.major_mm, row.pitch_mm, row.tpi, 1, typed.left
            )
    raise typed.bad("is not a pipe thread size carried here (1/16 to 2).")


def _unified(match: re.Match[str], typed: _Typed) -> ThreadDesignation:
    word = (match["series"] or "").replace(".", "")
    series = {"NC": "UNC", "NF": "UNF", "UNRC": "UNC", "UNRF": "UNF", "UNR": "UN"}.get(word, word)
    text, tpi = match["size"], float(mixed(match["tpi"])) if match["tpi"] else None
    size, label = _number_or_inches(text, tpi, series, bool(match["number"]), typed)
    if tpi is None:
        tpi = tpi_of(series).get(round(float(size), 4)) if series in ("UNC", "UNF", "UNEF") else None
        if tpi is None:
            raise typed.bad("does not say how many threads per inch.", "Write it as 1/4-20 UNC.")
    if series in ("UNC", "UNF", "UNEF"):
        known = tpi_of(series).get(round(float(size), 4))
        if known != tpi:
            has = (
                f"that size of {series} has {known:g} threads per inch"
                if known
                else f"{series} has no such size"
            )
            raise typed.bad(f"is not {series}: {has}.", "Write UNS for a special pitch.")
    elif not series:
        _ask_if_whitworth(float(size), tpi, text, typed)
    if typed.starts > 1:
        raise typed.bad("has several starts, which ASME B1.1 does not cover.", "Identify it by measurement.")
    found = series if series in ("UNC", "UNF", "UNEF") else unified_series(float(size), tpi)
    return _inch(typed, System.UNIFIED, found, label, size, tpi, match["cls"] or "")


def _number_or_inches(
    text: str, tpi: float | None, series: str, marked: bool, typed: _Typed
) -> tuple[Fraction, str]:
    """``10-32`` is screw number 10 (0.190 in); ``1-8`` is one inch."""
    number = mixed(text) if text.isdigit() else Fraction(99)
    if number <= 12:
        numbered = (60 + 13 * number) / 1000
        pair = (round(float(numbered), 4), tpi)
        is_number = tpi is not None and any(name.startswith("UN") for name in inch_series(*_pair(pair)))
        if marked or is_number:
            return numbered, f"No. {text}"
    if marked:
        raise typed.bad("has a screw number outside 0 to 12.")
    return mixed(text), text


def _pair(pair: tuple[float, float | None]) -> tuple[float, float]:
    return pair[0], pair[1] or 0.0


def _ask_if_whitworth(size: float, tpi: float, text: str, typed: _Typed) -> None:
    known = inch_series(size, tpi)
    british = [name for name in known if name in ("BSW", "BSF")]
    if british and not any(name in ("UNC", "UNF", "UNEF") for name in known):
        raise Ambiguous(
            f"is a standard pair of {british[0]} and only a special one of the Unified threads.",
            where=typed.field,
            value=typed.text,
            readings=(
                ("Whitworth form, 55°", f"{text}-{tpi:g} {british[0]}"),
                ("Unified, 60°", f"{text}-{tpi:g} {unified_series(size, tpi)}"),
            ),
        )


def _inch(
    typed: _Typed, system: System, series: str, size: str, inches: Fraction, tpi: float, cls: str
) -> ThreadDesignation:
    if inches <= 0 or tpi <= 0 or typed.starts < 1:
        raise typed.bad("has a size that is not more than zero.")
    return ThreadDesignation(
        typed.text,
        system,
        series,
        size,
        float(inches * Fraction(127, 5)),
        MM_PER_IN / tpi,
        tpi,
        typed.starts,
        typed.left,
        cls,
    )
