"""The letters of everything printed: one family from ``assets/fonts``, with every sign the trade writes."""

from __future__ import annotations

import unicodedata
from functools import cache

from rebuild.trade.results.tables import assets_folder

NORMAL, BOLD, SLANTED = "Sheet", "Sheet-Bold", "Sheet-Slanted"
_FILES = {
    NORMAL: "DejaVuSansCondensed", BOLD: "DejaVuSansCondensed-Bold", SLANTED: "DejaVuSansCondensed-Oblique",
}  # fmt: skip


@cache
def register() -> None:
    """Make the letters known to the PDF library; cheap after the first time."""
    from reportlab import rl_config
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    rl_config.useA85 = (
        0  # pages are kept as they are packed: written as letters they take a quarter more, and time
    )
    for name, file in _FILES.items():
        pdfmetrics.registerFont(TTFont(name, str(assets_folder() / "fonts" / f"{file}.ttf")))
    pdfmetrics.registerFontFamily(NORMAL, normal=NORMAL, bold=BOLD, italic=SLANTED, boldItalic=BOLD)


@cache
def _known() -> frozenset[int]:
    from reportlab.pdfbase import pdfmetrics

    register()
    return frozenset(pdfmetrics.getFont(NORMAL).face.charToGlyph)


@cache
def _stand_in(letter: str) -> str:
    plain = "".join(part for part in unicodedata.normalize("NFKD", letter) if not unicodedata.combining(part))
    return plain if plain and all(ord(part) in _known() for part in plain) else "\N{REPLACEMENT CHARACTER}"


def printable(text: str) -> str:
    """The text with every sign the letters lack replaced by its plain form, or by a visible stand-in.

    >>> printable("Ø 24.98 µm → bore")
    'Ø 24.98 µm → bore'
    >>> printable("a\\u0001b")
    'ab'
    """
    if text.isascii() and text.isprintable():
        return text
    known = _known()
    if known.issuperset(map(ord, text)):
        return text
    return "".join(_fitting(letter, known) for letter in text)


def _fitting(letter: str, known: frozenset[int]) -> str:
    if ord(letter) in known or letter == "\n":
        return letter
    if unicodedata.category(letter) in ("Cc", "Cf"):
        return " " if letter in "\t\r" else ""
    return _stand_in(letter)
