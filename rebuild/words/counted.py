"""How many there are, in words that agree."""

from __future__ import annotations


def counted(count: int, one: str, more: str = "") -> str:
    """A count and its noun.

    >>> counted(1, "joint"), counted(0, "joint"), counted(2, "subassembly", "subassemblies")
    ('1 joint', '0 joints', '2 subassemblies')
    """
    return f"{count} {one if count == 1 else more or one + 's'}"
