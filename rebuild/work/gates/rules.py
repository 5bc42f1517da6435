"""A gate is passed all the same only with a reason, and only where something stands."""

from __future__ import annotations

from rebuild.errors import BadEntry


def need_reason(reason: str, where: str = "Reason") -> str:
    """The reason, or a refusal. Raises BadEntry."""
    if not reason.strip():
        raise BadEntry("is empty.", where=where, way_out="Say why in a few words; it is kept and printed.")
    return reason.strip()


def refuse_idle_reason(reason: str, asked: bool) -> None:
    """Raise BadEntry for a reason to go on all the same where nothing stands against it."""
    if reason.strip() and not asked:
        raise BadEntry(
            "is not asked for: nothing stands against it any more.",
            where="Reason",
            value=reason.strip(),
            way_out="Do it without one.",
        )
