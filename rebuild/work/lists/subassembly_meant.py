"""Which subassembly of a machine a list means: by code or by name, in whichever of its columns it stands."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from rebuild.errors import BadEntry


class Called(NamedTuple):
    """A subassembly that is there, as it is called."""

    id: int
    code: str
    name: str

    @property
    def title(self) -> str:
        """Code and name."""
        return f"{self.code} {self.name}".strip()


def the_one_meant(there: Sequence[Called], code: str, name: str) -> int | None:
    """The id of the one a row means; None when there is none such yet.

    Where a row says both, the code tells; where it says one thing, that may be the code, the name or both in one,
    in either column: people type the code under "Subassembly" and the name under "Code". Letters and spaces do not
    tell two apart.

    >>> shop = [Called(1, "TK", "Tool head"), Called(2, "AP", "Apron")]
    >>> the_one_meant(shop, "", "tk"), the_one_meant(shop, "tool  head", ""), the_one_meant(shop, "", "AP Apron")
    (1, 1, 2)
    >>> the_one_meant(shop, "", "Gearbox") is None
    True

    Raises:
        BadEntry: what is said is the code of one and the name of another.
    """
    if code and name:
        by_code = [one for one in there if _folded(one.code) == _folded(code)]
        both = [one for one in by_code if _folded(one.name) == _folded(name)]
        return next((one.id for one in (*both, *by_code)), None)
    said = _folded(code or name)
    found = [one for one in there if said in (_folded(one.code), _folded(one.name), _folded(one.title))]
    if len(found) > 1:
        raise BadEntry(
            f"fits {' and '.join(f'“{one.title}”' for one in found)}.",
            where="Subassembly",
            value=code or name,
            way_out="Give code and name both, or give one of the two another code first.",
        )
    return found[0].id if found else None


def _folded(text: str) -> str:
    return " ".join(text.split()).casefold()
