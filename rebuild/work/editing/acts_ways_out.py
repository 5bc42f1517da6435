"""Take a way out of a refusal: the act its button stands for."""

from __future__ import annotations

from collections.abc import Callable

from rebuild.store.store import Store
from rebuild.work.editing.acts import edit, remove
from rebuild.work.gates.acts_checks import lay_out_checks
from rebuild.work.joints.acts import say_class
from rebuild.work.lubrication import acts as lubrication
from rebuild.work.making.acts_fittings import finish_fitting
from rebuild.work.means import acts as means
from rebuild.work.records.ways_out import CALLERS, Way, WayKind
from rebuild.work.steps import acts as steps, acts_again
from rebuild.work.steps.acts_made import made_as_decided

#: How something a step lacks is come by; made, bought or borrowed it is not here yet.
_MEANS: dict[WayKind, Callable[[Store, int], object]] = {
    WayKind.HAVE_MEANS: means.have,
    WayKind.MAKE_MEANS: means.make,
    WayKind.BUY_MEANS: means.buy,
    WayKind.BORROW_MEANS: means.borrow,
    WayKind.BACK_MEANS: means.back,
}

#: Those that want no words.
_PLAIN: dict[WayKind, Callable[[Store, int], object]] = {
    WayKind.READ: steps.read_cautions,
    WayKind.NEW_JOINT: steps.joint_of_step,
    WayKind.SET_UP: lay_out_checks,
}


def take(store: Store, way: Way, note: str = "") -> bool:
    """Do what a way out says; True when the refused act should then be tried again.

    Raises:
        NotThere: what it is about was removed meanwhile.
        BadEntry: a step is opened again, and no reason is given; nothing is said of what came out.
    """
    if way.kind in CALLERS:
        return way.kind is not WayKind.GO_TO
    if way.kind is WayKind.TAKE_LINK_AWAY:
        remove(store, "link", [way.target])
    elif way.kind is WayKind.LEAVE_OUT:
        edit(store, "task", [way.target], {"state": "left out"})
    elif way.kind is WayKind.OPEN_AGAIN:
        acts_again.open_again(store, way.target, way.reason or note, all_the_same=True)
    elif way.kind is WayKind.PROVE:
        steps.prove(store, way.target, note)
    elif way.kind in _MEANS:
        _MEANS[way.kind](store, way.target)
        return way.kind in (WayKind.HAVE_MEANS, WayKind.BACK_MEANS)
    elif way.kind is WayKind.FLOW_SEEN:
        lubrication.prove_flow(store, [way.target], note=note)
    elif way.kind is WayKind.CAME_OUT:
        finish_fitting(store, way.target, way.reason or note)
    elif way.kind is WayKind.SAY_CLASS:
        say_class(store, way.target, way.reason or note)
    elif way.kind in _PLAIN:
        _PLAIN[way.kind](store, way.target)
    else:
        made_as_decided(store, way.target)
    return True
