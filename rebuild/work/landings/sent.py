"""The values sent this session, in order, and which of them stand: what undo takes and redo brings back."""

from __future__ import annotations

from dataclasses import dataclass, replace

from rebuild.store.changed import Changed
from rebuild.work.landings.stored import Stored

#: So many are remembered; a few more than are shown, so that undo brings older ones back into sight.
REMEMBERED = 40


@dataclass(frozen=True, slots=True)
class Sent:
    """Values in the order they were stored; ``off`` are those not on their row now."""

    values: tuple[Stored, ...] = ()
    off: tuple[Stored, ...] = ()

    @property
    def standing(self) -> tuple[Stored, ...]:
        """Those on their rows, the newest last."""
        return tuple(one for one in self.values if one not in self.off)

    def and_then(self, stored: Stored) -> Sent:
        """One more value; what its record held before is no longer there."""
        others = tuple(one for one in self.values if one.record != stored.record or one.id != stored.id)
        return Sent((*others, stored)[-REMEMBERED:], tuple(one for one in self.off if one in others))

    def after(self, changed: Changed) -> Sent:
        """As a change leaves them: taken off, or (undo of taking back, redo) on their rows again."""
        gone = tuple(one for one in self.standing if _gone(one, changed))
        back = tuple(one for one in self.off if one.id in changed.rows(one.record).added)
        if not gone and not back:
            return self
        return replace(self, off=(*(one for one in self.off if one not in back), *gone))


def _gone(stored: Stored, changed: Changed) -> bool:
    """Whether a change took a value off its row. A measured part's reading is never written over."""
    rows = changed.rows(stored.record)
    return stored.id in rows.removed or (stored.record != "reading" and stored.id in rows.updated)
