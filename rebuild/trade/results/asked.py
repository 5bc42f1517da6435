"""What is asked of the user in one entry, and how its text becomes a number or a word; the same on every floor."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from rebuild.errors import BadEntry
from rebuild.trade.sizes.number import read_number, read_whole


@dataclass(frozen=True, slots=True)
class Asked:
    """One entry: ``name`` is the program's word for it, ``label`` the user's, ``help`` a hint."""

    name: str
    label: str
    help: str = field(default="", kw_only=True)
    required: bool = field(default=False, kw_only=True)

    def number(self, text: str, *, unit: str = "", decimal_comma: bool | None = None) -> float:
        """A plain number; ``unit`` may stand behind it. Raises BadEntry or Ambiguous as ``read_number``.

        >>> Asked("hours", "Hours").number("1,5")
        1.5
        """
        return read_number(text, self.label, unit, decimal_comma=decimal_comma)

    def whole(self, text: str, *, decimal_comma: bool | None = None) -> int:
        """A whole number. Raises BadEntry or Ambiguous as ``read_whole``.

        >>> Asked("teeth", "Teeth").whole("22")
        22
        """
        return read_whole(text, self.label, decimal_comma=decimal_comma)

    def one_of(self, text: str, words: Sequence[str]) -> str:
        """The word meant, in large or small letters or as several (``lbs``); a beginning is enough for one alone.

        Raises:
            BadEntry: no word, or several, are meant.

        >>> Asked("thread", "Thread").one_of("LU", ("dry", "lubricated"))
        'lubricated'
        """
        plain = text.lower()
        found = [word for word in words if word.lower() == plain]
        found = found or [word for word in words if word.lower() == plain.rstrip(".").removesuffix("s")]
        found = found or [word for word in words if word.lower().startswith(plain)]
        if len(found) != 1:
            raise BadEntry(
                "is not one of the words.",
                where=self.label,
                value=text,
                way_out=f"Choose {', '.join(words)}.",
            )
        return found[0]
