"""What is asked of the user in one entry, and how its text becomes a number or a word; the same on every floor."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import isfinite

from rebuild.errors import BadEntry


@dataclass(frozen=True, slots=True)
class Asked:
    """One entry: ``name`` is the program's word for it, ``label`` the user's, ``help`` a hint."""

    name: str
    label: str
    help: str = field(default="", kw_only=True)
    required: bool = field(default=False, kw_only=True)

    def number(self, text: str) -> float:
        """A plain number, with a decimal point or comma. Raises BadEntry.

        >>> Asked("hours", "Hours").number("1,5")
        1.5
        """
        try:
            number = float(text.replace(",", ".").replace("−", "-"))
        except ValueError:
            number = float("nan")
        if not isfinite(number):
            raise BadEntry("is not a number.", where=self.label, value=text, way_out="Type it as 1.5.")
        return number

    def whole(self, text: str) -> int:
        """A whole number. Raises BadEntry.

        >>> Asked("teeth", "Teeth").whole("22")
        22
        """
        try:
            return int(text)
        except ValueError:
            raise BadEntry(
                "is not a whole number.", where=self.label, value=text, way_out="Type it as 2."
            ) from None

    def one_of(self, text: str, words: Sequence[str]) -> str:
        """The word meant, in large or small letters; its beginning is enough where only one begins so.

        Raises:
            BadEntry: no word, or several, are meant.

        >>> Asked("thread", "Thread").one_of("LU", ("dry", "lubricated"))
        'lubricated'
        """
        plain = text.lower()
        found = [word for word in words if word.lower() == plain]
        found = found or [word for word in words if word.lower().startswith(plain)]
        if len(found) != 1:
            raise BadEntry(
                "is not one of the words.",
                where=self.label,
                value=text,
                way_out=f"Choose {', '.join(words)}.",
            )
        return found[0]
