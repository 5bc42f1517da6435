"""What hangs on what among open work, whatever it is called and however long it lasts: ordered once, and counted once.

Graphs of which only words or durations differ share it, and with it all that follows from ties alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from rebuild.trade.schedule.cpm import Network
from rebuild.trade.schedule.in_order import in_order

Pair = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Laid:
    """Work and ties of a plan (rests and deliveries among them), and their network."""

    keys: tuple[int, ...]
    links: tuple[Pair, ...]
    network: Network[int]


@dataclass(slots=True)
class Frame:
    """Open work in an order that respects its ties, the loops named and cut; ``links`` are the ties not cut.

    ``after`` has what follows each key directly, ``waits`` how many are directly before it, the cut ones too.
    """

    loops: tuple[tuple[int, ...], ...]
    links: tuple[Pair, ...]
    order: tuple[int, ...]
    after: Mapping[int, list[int]]
    waits: Mapping[int, int]
    _below: Mapping[int, int] | None = field(default=None, repr=False)
    _places: Mapping[int, int] = field(default_factory=dict, repr=False)
    _ones: Mapping[int, Pair] | None = field(default=None, repr=False)
    #: Of several together: how much they free at once, and how much comes after them (``WorkGraph.counts``).
    counted: dict[tuple[int, ...], tuple[int, int]] = field(default_factory=dict, repr=False)
    _laid: Laid | None = field(default=None, repr=False)

    @classmethod
    def of(
        cls, opened: Iterable[int], pairs: Mapping[Pair, None], cut: Callable[[tuple[int, ...]], Pair]
    ) -> Frame:
        """Lay open keys in order by different pairs among them; ``cut`` names the pair of a loop to leave out."""
        laid = in_order(opened, pairs, cut)
        links = tuple([pair for pair in pairs if pair not in laid.cut]) if laid.cut else tuple(pairs)
        return cls(laid.loops, links, laid.order, laid.after, laid.waits)

    def behind(self, keys: tuple[int, ...]) -> int:
        """How many open keys come after any of ``keys``, directly or not, those themselves left out."""
        below = self._all_below()
        if len(keys) == 1:
            return below.get(keys[0], 0).bit_count()
        mask, own = 0, 0
        for key in keys:
            if (place := self._places.get(key)) is not None:
                mask |= below[key]
                own |= 1 << place
        return (mask & ~own).bit_count()

    def counts_of(self, key: int) -> Pair:
        """How many wait for nothing but this one, and how many come after it; nothing does after what is not open."""
        if self._ones is None:
            self._ones = self._count_each()
        return self._ones.get(key, (0, 0))

    def _count_each(self) -> dict[int, Pair]:
        """``counts_of`` every key at once: the ranking asks it of all."""
        waits, after = self.waits, self.after
        return {
            key: ([waits[then] for then in after[key]].count(1), mask.bit_count()) if mask else (0, 0)
            for key, mask in self._all_below().items()
        }

    def _all_below(self) -> Mapping[int, int]:
        """What lies behind each key as one bit a key; worked out once."""
        if self._below is None:
            self._places = {key: place for place, key in enumerate(self.order)}
            self._below = self._reach(self._places)
        return self._below

    def _reach(self, places: Mapping[int, int]) -> dict[int, int]:
        """A union of what follows each key, that itself with it."""
        below: dict[int, int] = {}
        reached: dict[int, int] = {}
        for key in reversed(self.order):
            mask = 0
            for after in self.after.get(key, ()):
                mask |= reached[after]
            below[key] = mask
            reached[key] = mask | 1 << places[key]
        return below

    def network(self, keys: tuple[int, ...], links: Callable[[], tuple[Pair, ...]]) -> Laid:
        """The network of a plan of this work; ``links`` follow from ``keys`` and are asked when those are others.

        Raises BrokenOrder when they loop (by the acts they cannot).
        """
        laid = self._laid
        if laid is None or laid.keys != keys:
            made = links()
            laid = self._laid = Laid(keys, made, Network(keys, made))
        return laid
