"""Take a way out of a refusal: the act its button stands for."""

from __future__ import annotations

from collections.abc import Callable

from rebuild.store.store import Store
from rebuild.work.editing.acts import edit, remove
from rebuild.work.lubrication import acts as lubrication
from rebuild.work.means import acts as means
from rebuild.work.records.ways_out import CALLERS, Way, WayKind
from rebuild.work.steps import acts as steps

#: How something a step lacks is come by; made, bought or borrowed it is not here yet.
_MEANS: dict[WayKind, Callable[[Store, int], object]] = {
    WayKind.HAVE_MEANS: means.have,
    WayKind.MAKE_MEANS: means.make,
    WayKind.BUY_MEANS: means.buy,
    WayKind.BORROW_MEANS: means.borrow,
    WayKind.BACK_MEANS: means.back,
}


def take(store: Store, way: Way, note: str = "") -> bool:
    """Do what a way out says; True when the refused act should then be tried again.

    Raises:
        NotThere: what it is about was removed meanwhile.
    """
    if way.kind in CALLERS:
        return way.kind is not WayKind.GO_TO
    if way.kind is WayKind.TAKE_LINK_AWAY:
        remove(store, "link", [way.target])
    elif way.kind is WayKind.LEAVE_OUT:
        edit(store, "task", [way.target], {"state": "left out"})
    elif way.kind is WayKind.OPEN_AGAIN:
        steps.untick(store, way.target, sure=True)
    elif way.kind is WayKind.PROVE:
        steps.prove(store, way.target, note)
    elif way.kind in _MEANS:
        _MEANS[way.kind](store, way.target)
        return way.kind in (WayKind.HAVE_MEANS, WayKind.BACK_MEANS)
    elif way.kind is WayKind.FLOW_SEEN:
        lubrication.prove_flow(store, [way.target], note=note)
    else:
        edit(store, "part", [way.target], {"origin": "remade"})
    return True
