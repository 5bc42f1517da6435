"""Old class names (``ASLE S-315``, ``medium way oil``) as the ISO grade they stand for; all of it from memory."""

from __future__ import annotations

import re

from rebuild.errors import OutOfRange
from rebuild.trade.lubrication.grades import Band, iso_band
from rebuild.trade.results.tables import table
from rebuild.trade.sizes.number import read_whole

_NUMBERED = re.compile(
    r"(?:asle|astm)\s*(?:no\.?\s*)?(?P<letter>[a-z])?[\s-]*(?P<number>\d+)|s-(?P<bare>\d+)", re.I
)
_NAMED = re.compile(
    r"(?P<weight>light|medium|heavy)[\s-]+(?P<kind>way|slideway|hydraulic|circulating|turbine|spindle)"
    r"(?:[\s-]*(?:oil|lubricant|lube))?",
    re.I,
)
_KIND = {"slideway": "way"}


def old_name(plain: str) -> tuple[Band, tuple[str, ...]] | None:
    """The ISO band an old class name stands for and what is to be said with it; None where it is no such name.

    Raises:
        OutOfRange: a class number or weight that is not in the table.

    >>> band, said = old_name("ASLE S-315")
    >>> band.iso_vg, said[0]
    (68, 'the number is Saybolt seconds at 100 °F')
    >>> old_name("medium way oil")[0].iso_vg, old_name("68 cSt") is None
    (68, True)
    """
    numbered = _NUMBERED.fullmatch(plain)
    if numbered:
        number = str(read_whole(numbered["number"] or numbered["bare"], "Class"))
        said = ["the number is Saybolt seconds at 100 °F"]
        if (numbered["letter"] or "s").lower() != "s":
            said.append(f"the letter {numbered['letter'].upper()} names its kind of oil, not its viscosity")
        return _band("number", number, plain), tuple(said)
    named = _NAMED.fullmatch(plain)
    if named:
        kind, weight = named["kind"].lower(), named["weight"].lower()
        word = _KIND.get(kind, kind)
        said = [f"“{weight}” is the usual {weight} {word} oil; makers differed, look at the manual's figure"]
        return _band(word, weight, plain), tuple(said)
    return None


def _band(kind: str, name: str, plain: str) -> Band:
    rows = [row for row in table("old_oil_names").rows if row["kind"] == kind]
    for row in rows:
        if row["name"] == name:
            return iso_band(int(row["iso_vg"]))
    known = ", ".join(row["name"] for row in rows)
    raise OutOfRange(
        "is not among the old classes known here.", where="Old oil", value=plain, way_out=f"Known: {known}."
    )
