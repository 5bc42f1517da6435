"""Who hears what was stored: each observer once, after the commit."""

from __future__ import annotations

from collections.abc import Callable

from rebuild.store.changed import Changed

Observer = Callable[[Changed], None]


class Observers:
    """The observers of one open file, in the order they came."""

    def __init__(self) -> None:
        self._observers: list[Observer] = []

    def observe(self, observer: Observer) -> Callable[[], None]:
        """Call ``observer`` after each commit; returns what stops it."""
        self._observers.append(observer)
        return lambda: self._observers.remove(observer)

    def tell(self, changed: Changed) -> None:
        """Tell every observer what changed; nothing when nothing did."""
        if changed:
            for observer in list(self._observers):
                observer(changed)
