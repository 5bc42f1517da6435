"""Stored values as they can be quoted in a sentence, whatever they are."""

from __future__ import annotations

#: A stored value is quoted up to this many signs.
_SHOWN = 60


def shown(value: object) -> str:
    """A stored value as a person can look at it, whatever bytes it has; long ones are cut."""
    text = value.decode(errors="replace") if isinstance(value, bytes) else str(value)
    clean = "".join(
        sign if sign.isprintable() else "\N{REPLACEMENT CHARACTER}" for sign in text[: _SHOWN + 1]
    )
    return clean if len(clean) <= _SHOWN else f"{clean[:_SHOWN]}…"
