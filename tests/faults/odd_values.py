"""What a hurried, mistaken or playful hand may type into any entry of a figure."""

from __future__ import annotations

import re
from decimal import Decimal
from random import Random

from rebuild.trade.figures import all_figures
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.input import Input, InputKind

#: Typed into entries of every kind.
ANY = (
    "", " ", "\t", "-", "+", ".", ",", "/", "0", "-0", "00", "0.0", "-1", "−1", "+3", "1", "2", "7", "0.5",
    ".5", "5.", "1e400", "-1e400", "1e308", "1e-308", "1e-400", "1e15", "1e-12", "9" * 30, "9" * 400,
    "0." + "0" * 60 + "1", "nan", "NaN", "inf", "-inf", "Infinity", "None", "True", "null", "0x10", "1_000", "1e",
    "e5", "--5", "5-", "1 2 3", "1/0", "0/1", "0/0", "3/8-0", "1/2", "-1/2", "3/0-16", "1-1/4", "1 1/4", "11/4",
    "1/1000000", "1000000/1", "5/5/5", "1,5", "1,500", "1.500,25", "1,500.25", "1,2,3", "1.2.3", "1'000",
    "1 000", "1 000 000", "5 mm", "5 in", '5"', "5'", "5' 3\"", "5 thou", "5 µm", "5 C", "-300 C", "-273.15",
    "-273.15 C", "-459.67 F", "68 F", "5 N·m", "5 lb-ft", "5 kg", "5 lb", "5 min", "2 h", "5 cSt", "5 %", "50%",
    "5 deg", "45°", "5° 30'", "5 MPa", "5 psi", "٣", "５", "²", "½", "１２.５", "Ⅻ", "五", "3\u00a0mm", "5\u200b",
    "\u202e5", "é", "<b>5</b>", "'; --", "%s", "{0}", "\\", "\x00", "x" * 300, "1" * 79, "1-" * 60, "1/2 " * 40,
    "10 to 5", "5 to 10", "10-5", "5-10", "10..5", "5 10", "5;10", "5,10", "5|", "max", "min", "max 5",
    "min -5", "±0.1", "5 ±", "5 +0.1 -0.2", "10:1", "1:0", "0:1", "5@", "5=5", "a=b", "M", "#", "H", "-8",
)  # fmt: skip

#: Designations of threads, fits, tapers, bearings, materials: right in one place, wrong in the next, and cut short.
WORDS = (
    "M10", "M10x1.25", "M0", "M-5", "M10x0", "M10x-1", "M1e9", "M10x99", "Mx", "M 10 x 1", "M10x1.25-6g",
    "Tr 20x4", "Tr20x0", "Tr 0x4", "Tr20x40", "1/4-20", "1/4-0", "3/8-0", "0-80", "#10-24", "#10-0", "#0",
    "#99", "#-1", "1/4", "1-8 ACME", "1-0 ACME", "0-8 ACME", "1-8 ACME-2G", "1-8 STUB ACME", "1-8 NPT",
    "1/8 NPT", "NPT", "1/8-27 NPT", "1/2 BSPP", "G1/2", "G 0", "R 1/2", "BA 0", "0 BA", "25 BA", "-1 BA", "BA",
    "1/4 BSW", "1/4 BSF", "BSW", "UNC", "1/4 UNC", "1/4-20 UNC-2A", "1e400-20", "1/4-1e400", "99-99",
    "25 H7/g6", "25 H7", "H7/g6", "0 H7/g6", "-25 H7/g6", "25 H99/g6", "25 H7/", "25 /g6", "1e9 H7/g6",
    "25 X1/y2", "25 H7/H7", "3150 H7/g6", "3151 H7/g6", "25 js6/JS7", "8.8", "grade 5", "grade 0", "grade 99",
    "99.9", "0.0", "MT2", "MT 3", "MT0", "MT9", "MT-1", "B&S 7", "BS 99", "JT33", "6203", "6203-2RS", "0000",
    "999999", "6", "NU205", "LM11949", "steel", "cast iron", "bronze", "leather", "iron cast", "STEEL",
    "unobtainium", "VG 68", "VG68", "VG 0", "VG -5", "ISO VG 1e400", "SAE 30", "SAE 10W-30", "SAE", "SAE 0",
    "5,000 cSt", "300 SUS", "0 SUS", "68 @ 40", "B", "A", "yes", "no", "one", "two", "up", "running", "driving",
    "20-40-60", "20,40,60", "20 40 60", "20/40/60", "10-3000", "60-10", "0-0", "0,0,0", "20,,40", "20x40",
    "20 x2 40", "20-20",
)  # fmt: skip


#: What a number typed right is multiplied by.
_SCALES = (
    0,
    -1,
    1e-12,
    1e-6,
    1e-3,
    0.01,
    0.1,
    0.5,
    0.9,
    0.99,
    1.01,
    1.1,
    2,
    3,
    10,
    25.4,
    100,
    1e3,
    1e4,
    1e6,
    1e9,
    1e12,
)
_ONE_NUMBER = re.compile(r"\d+(?:\.\d+)?|\.\d+")


def odd_value(item: Input, right: str, chance: Random) -> str:
    """One odd text for an entry, often near to ``right``, what would be typed there."""
    pick = chance.random()
    if pick < 0.2:
        return chance.choice(ANY)
    if pick < 0.3:
        return chance.choice(WORDS)
    if pick < 0.35:
        return chance.choice(_words_of_lists())
    if pick < 0.55:
        return _number(chance) + chance.choice(("", "", "", " mm", " in", " thou", " C", " F", "%", "°"))
    right = right or chance.choice((item.default, *item.choices, *_examples(item))) or "5"
    return _scaled(right, chance) if pick < 0.8 else _bent(right, chance)


def _scaled(text: str, chance: Random) -> str:
    """A right text with one of its numbers, or all, made larger, smaller or negative."""
    found = list(_ONE_NUMBER.finditer(text))
    if not found:
        return _bent(text, chance)
    one = chance.choice(found)
    scale = chance.choice(_SCALES)

    def grown(match: re.Match[str]) -> str:
        return f"{Decimal(repr(float(match[0]) * scale)):f}".removesuffix(".0")

    if chance.random() < 0.2:
        return _ONE_NUMBER.sub(grown, text)
    return text[: one.start()] + grown(one) + text[one.end() :]


def _number(chance: Random) -> str:
    size = chance.choice(
        (
            0,
            0,
            1,
            2,
            3,
            5,
            10,
            45,
            60,
            89,
            90,
            91,
            100,
            180,
            359,
            360,
            500,
            1000,
            3150,
            1e4,
            1e5,
            1e6,
            1e7,
            1e9,
        )
    )
    size = size * chance.choice((1, 1, 1, -1, 0.1, 0.001, 1e-6, 1.0001, 0.9999))
    return f"{size:.10g}" if chance.random() < 0.9 else f"{size:e}"


def _bent(text: str, chance: Random) -> str:
    """A right text with one thing done to it."""
    at = chance.randrange(len(text) + 1)
    bends = (
        lambda: text[:at] + chance.choice("0-,./x e#°'\"%") + text[at:],
        lambda: text[: at - 1] + text[at:] if at else text[1:],
        lambda: text[:at],
        lambda: text[at:],
        lambda: "-" + text,
        lambda: text + text,
        lambda: text.upper(),
        lambda: "".join("0" if mark.isdigit() else mark for mark in text),
        lambda: text.replace(".", ",") if "." in text else text.replace(" ", ""),
        lambda: "".join(chance.choice("0123456789") if mark.isdigit() else mark for mark in text),
        lambda: "-".join(reversed(text.split("-"))) if "-" in text else " ".join(reversed(text.split())),
    )  # fmt: skip
    return chance.choice(bends)()


def _examples(item: Input) -> tuple[str, ...]:
    return tuple(
        figure.example[item.name] for figure in all_figures().values() if figure.example.get(item.name)
    )


def _words_of_lists() -> tuple[str, ...]:
    return tuple(word for figure in all_figures().values() for item in figure.inputs for word in item.choices)


def typed_oddly(figure: Figure, item: Input, chance: Random) -> dict[str, str]:
    """The figure's example with one entry odd.

    In half of them nothing else differs; in the rest other words are chosen, and some have more entries odd or missing.
    """
    typed = dict(figure.example)
    mess = chance.random()
    for other in figure.inputs if mess > 0.5 else ():
        if other.kind is InputKind.CHOICE:
            typed[other.name] = chance.choice(other.choices)
        elif mess > 0.8 and chance.random() < 0.2:
            typed[other.name] = odd_value(other, typed.get(other.name, ""), chance)
        elif mess > 0.8 and chance.random() < 0.05:
            typed.pop(other.name, None)
    return typed | {item.name: odd_value(item, typed.get(item.name, ""), chance)}
