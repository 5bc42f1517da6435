"""What else stands before a step: questions, cures, deliveries, proofs, openings, parts elsewhere, hazards."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict

from rebuild.trade.schedule.graph import Hold, Ref
from rebuild.trade.schedule.hazards import suspected, tests_for
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.usual import ANSWER, DAY, FETCH, LEAD, LOOK, TEST
from rebuild.trade.waiting.clock import Standing, read_clock
from rebuild.words.gates import Gate
from rebuild.words.parts import Origin
from rebuild.words.places import PlaceKind
from rebuild.words.steps import ConstraintKind, TaskKind, TaskState
from rebuild.words.waiting import ClockKind, WaitingKind
from rebuild.words.work_graph import Holding
from rebuild.work.plan.facts import NeedFact, OrderFact, PartFact, StepFact
from rebuild.work.plan.laying import Laying, Slot, key_of
from rebuild.work.plan.making_of_parts import ORDERS, TO_MAKE
from rebuild.work.records.field import show_day
from rebuild.work.waiting.rows import days_from

_AWAY = (PlaceKind.BATH, PlaceKind.AT_A_SHOP, PlaceKind.LENT)
_GONE = (PlaceKind.AT_A_SHOP, PlaceKind.LENT)
_GATES = tuple(Gate)
#: Work that wants the part in hand.
_IN_HAND = (
    TaskKind.MEASURE,
    TaskKind.INSPECT,
    TaskKind.CLEAN,
    TaskKind.PAINT,
    TaskKind.STONE,
    TaskKind.TRIAL_FIT,
)
#: Work that would stir up what a part is suspected to hold.
_WORKED = (TaskKind.CLEAN, TaskKind.REWORK, TaskKind.MAKE, TaskKind.PAINT, TaskKind.LUBRICATE)


def lay_questions(laying: Laying) -> None:
    """An open question holds the step it is asked of."""
    for question_id, step_id, text in laying.facts.questions:
        if laying.is_open(step_id):
            step = laying.steps[step_id]
            key = laying.add(
                key_of(Slot.QUESTION, question_id),
                TaskKind.DECIDE,
                f"Answer: {text}",
                Ref("question", question_id),
                ANSWER,
                subassembly_id=step.subassembly_id,
            )
            laying.tie(key, step_id, Holding.ANSWER, f"an answer: {text}", question_id)


def lay_clocks(laying: Laying, now: dt.datetime) -> list[dt.datetime]:
    """What cures holds what follows it; returns when that changes by itself."""
    turns: list[dt.datetime] = []
    for clock in laying.facts.clocks:
        step = laying.steps.get(clock.task_id)
        bath = clock.kind is ClockKind.BATH
        if step is None or (bath and not laying.is_open(step.id)):
            continue
        reading = read_clock(clock.kind.value, clock.started_at, clock.low_min, clock.high_min, now)
        turns += [moment for moment in (reading.due, reading.latest) if moment is not None and moment >= now]
        runs = reading.standing is Standing.RUNNING
        if not runs and not (clock.kind is ClockKind.RECOAT and reading.standing is Standing.OVER):
            continue
        left = (reading.due - now).total_seconds() / 60 if runs and reading.due is not None else 0.0
        key = laying.add(
            key_of(Slot.CLOCK, clock.id),
            TaskKind.OTHER,
            f"“{step.title}” {reading.words}",
            Ref("clock", clock.id),
            ThreePoint(left, left, left) if runs else LOOK,
            subassembly_id=step.subassembly_id,
            elapsed=runs,
            assumed=False,
            under_way=runs,
        )
        for after in (step.id,) if bath else laying.after.get(step.id, ()):
            laying.tie(key, after, Holding.CURE, f"“{step.title}” {reading.words}", step.id)
    return turns


def lay_deliveries(laying: Laying, now: dt.datetime) -> None:
    """What is ordered or sent out and not there holds what follows its step, or what puts its part on."""
    for order in laying.facts.orders:
        if order.ordered_at is None or order.arrived_at is not None:
            continue
        part = laying.parts.get(order.part_id or 0)
        word = "back" if order.kind is WaitingKind.SENT_OUT else "there"
        kind = TaskKind.SEND_OUT if order.kind is WaitingKind.SENT_OUT else TaskKind.BUY
        points = lead_of(order, now)
        key = laying.add(
            key_of(Slot.DELIVERY, ORDERS + order.id),
            kind,
            f"delivery: {order.what}",
            Ref("waiting", order.id),
            points or LEAD[kind],
            part=part,
            elapsed=True,
            assumed=points is None,
            under_way=True,
        )
        behind = laying.after.get(order.task_id or 0, ()) or [
            step.id for step in laying.put_on_by.get(order.part_id or 0, ())
        ]
        promised = f", promised {show_day(order.promised_at)}" if order.promised_at else ""
        for after in behind:
            laying.tie(key, after, Holding.DELIVERY, f"{order.what} is not {word} yet{promised}", order.id)


def lead_of(order: OrderFact, now: dt.datetime) -> ThreePoint | None:
    """How long an order is still to take [minutes elapsed], when anything was said of it."""
    lead = (order.low_days, order.likely_days, order.high_days)
    days = days_from(order.ordered_at, order.promised_at, lead, now)
    if days is None:
        return None
    low, likely, high = sorted(days)
    return ThreePoint(max(0.0, low) * DAY, max(0.0, likely) * DAY, max(0.0, high) * DAY)


def lay_parts_elsewhere(laying: Laying) -> None:
    """A missing part is found, one in a bath, at a shop or lent is fetched, before it is put on."""
    for part in laying.facts.parts:
        if part.id in laying.unmade:
            continue
        if part.origin is Origin.MISSING and part.decision not in TO_MAKE:
            _stand_before(
                laying, part, Slot.FIND, f"Find {part.called}", Holding.MISSING, f"{part.called} is missing"
            )
        elif part.place_kind in _AWAY:
            gone = part.place_kind in _GONE
            where = "at the shop" if part.place_kind is PlaceKind.AT_A_SHOP else f"in {part.place_kind.value}"
            words = f"{part.called} lies {where} {part.place}"
            _stand_before(
                laying, part, Slot.FETCH, f"Fetch {part.called} from {part.place}", Holding.AWAY, words, gone
            )


def _stand_before(
    laying: Laying, part: PartFact, slot: Slot, title: str, kind: Holding, words: str, in_hand: bool = False
) -> None:
    held = [step.id for step in laying.put_on_by.get(part.id, ()) if laying.is_open(step.id)]
    if in_hand:
        held += [s.id for s in laying.open_of_part.get(part.id, ()) if s.kind in _IN_HAND]
    closed = [s.id for s in laying.put_on_by.get(part.id, ()) if not laying.is_open(s.id)]
    if not held and not closed:
        return
    key = laying.add(key_of(slot, part.id), TaskKind.OTHER, title, Ref("part", part.id), FETCH, part=part)
    for step_id in (*held, *closed):
        laying.tie(key, step_id, kind, words, part.id)


def lay_needs(laying: Laying) -> None:
    """Proofs, openings and positions: what a step asks of the order besides its links."""
    named: dict[int, list[int]] = defaultdict(list)
    for need_id, part_id in laying.facts.need_parts:
        named[need_id].append(part_id)
    for need in laying.facts.needs:
        step = laying.steps.get(need.task_id)
        parts = named.get(need.id, [])
        if step is None:
            continue
        if (
            need.kind is ConstraintKind.PROVE_FIRST
            and not need.proved
            and step.state is not TaskState.LEFT_OUT
        ):
            _prove(laying, need, step, parts)
        elif need.kind is ConstraintKind.THROUGH_OPENING and laying.is_open(step.id):
            _opening(laying, need, step, parts)
        elif need.kind is ConstraintKind.AT_POSITION:
            _position(laying, step, parts)


def _prove(laying: Laying, need: NeedFact, step: StepFact, parts: list[int]) -> None:
    what = need.detail or "must be proved before closing"
    if not parts:
        laying.finishing[step.id].append(
            Hold(0, Holding.PROOF, step.title, what, Ref("task_constraint", need.id), need.id)
        )
        return
    closes = {on.id for part_id in parts for on in laying.put_on_by.get(part_id, ())}
    if not closes:
        return
    key = laying.add(
        key_of(Slot.PROVE, need.id),
        TaskKind.INSPECT,
        f"Prove before it is closed: {what} (“{step.title}”)",
        Ref("task", step.id),
        LOOK,
        subassembly_id=step.subassembly_id,
    )
    for after in sorted(closes):
        laying.tie(key, after, Holding.PROOF, what, need.id)
    if laying.is_open(step.id) and step.id not in closes:
        laying.tie(step.id, key, Holding.CHAIN, f"“{step.title}” first")


def _opening(laying: Laying, need: NeedFact, step: StepFact, parts: list[int]) -> None:
    for part_id in parts:
        part = laying.parts.get(part_id)
        for on in laying.put_on_by.get(part_id, ()):
            if part is not None and on.id != step.id:
                through = f" ({need.detail})" if need.detail else ""
                laying.tie(
                    step.id,
                    on.id,
                    Holding.OPENING,
                    f"{part.called} closes the opening that “{step.title}” is done through{through}, "
                    "and that is still open",
                    need.id,
                )


def _position(laying: Laying, step: StepFact, parts: list[int]) -> None:
    for part_id in parts:
        part = laying.parts.get(part_id)
        for on in laying.put_on_by.get(part_id, ()):
            if part is not None and on.id != step.id:
                laying.tie(
                    on.id, step.id, Holding.POSITION, f"{part.called} must stand at its position first"
                )


def lay_while_off(laying: Laying) -> None:
    """What is done only while something is off waits for it to come off, and to come off again if it is on."""
    links = laying.linked.while_off
    if not links:
        return
    off = {
        step.part_id: step
        for step in reversed(laying.facts.steps)
        if step.kind is TaskKind.REMOVE and step.part_id is not None and laying.is_open(step.id)
    }
    for link in links:
        before, refit = laying.steps.get(link.before), laying.steps.get(link.after)
        if before is None or refit is None:
            continue
        if refit.state is TaskState.DONE:
            since = f" since {show_day(refit.done_at)}" if refit.done_at else ""
            key = (
                laying.add(
                    key_of(Slot.OFF_AGAIN, refit.id),
                    TaskKind.REMOVE,
                    f"Take off again what “{refit.title}” put on",
                    Ref("task", refit.id),
                    LOOK,
                    part=laying.parts.get(refit.part_id or 0),
                    subassembly_id=refit.subassembly_id,
                )
                if laying.is_open(before.id)
                else None
            )
            if key is not None:
                laying.tie(
                    key, before.id, Holding.ON_AGAIN,
                    f"“{before.title}” can only be done while it is still off, but it is on again{since}", refit.id,
                )  # fmt: skip
        elif (still := off.get(refit.part_id or 0)) is not None:
            laying.tie(
                still.id, before.id, Holding.STILL_ON,
                f"“{before.title}” can only be done while it is off, and it has not come off yet", refit.id,
            )  # fmt: skip


def lay_hazards(laying: Laying) -> None:
    """A part suspected to hold asbestos, lead, mercury or an unknown fluid is tested before it is worked."""
    for part in laying.facts.parts:
        for place, hazard in enumerate(suspected(part.about)) if part.about else ():
            every = (*laying.done_of_part.get(part.id, ()), *laying.open_of_part.get(part.id, ()))
            tests = [step for step in every if tests_for(step.title, hazard)]
            if any(step.state is TaskState.DONE for step in tests):
                continue
            typed = [step.id for step in tests if laying.is_open(step.id)]
            worked = [
                step.id
                for step in laying.open_of_part.get(part.id, ())
                if step.kind in _WORKED and step.id not in typed
            ]
            worked += [
                key for key in laying.making.get(part.id, ()) if key < 0 and laying.nodes[key].kind in _WORKED
            ]
            worked += laying.treated.get(part.id, ())
            keys = typed or [
                laying.add(
                    key_of(Slot.HAZARD, part.id * 8 + place),
                    TaskKind.INSPECT,
                    f"{hazard.test}: {part.called}",
                    Ref("part", part.id),
                    TEST,
                    part=part,
                )
            ]
            for key in keys:
                for step_id in worked:
                    laying.tie(
                        key, step_id, Holding.HAZARD,
                        f"{part.called} may hold {hazard.word}: tested before it is worked, by the rules of your place",
                        part.id,
                    )  # fmt: skip


def lay_means(laying: Laying) -> None:
    """What a step names and the shop has not got is made, bought, borrowed or fetched back first."""
    for lack in laying.facts.lacking:
        made = lack.made_by is not None and laying.is_open(lack.made_by)
        key = lack.made_by if made and lack.made_by is not None else key_of(Slot.MEANS, lack.means_id)
        if key < 0:
            ref = Ref("means", lack.means_id)
            laying.add(key, TaskKind.OTHER, f"Get {lack.name}: buy, borrow or make", ref, FETCH)
        laying.tie(key, lack.step_id, Holding.MEANS, lack.sentence, lack.means_id)


def lay_gates(laying: Laying) -> None:
    """Power, and what cannot be undone, wait for their gate."""
    for place, held in enumerate((*laying.facts.gates, *laying.facts.closing)):
        if not laying.is_open(held.task_id):
            continue
        more = f" and {held.things - 1} more" if held.things > 1 else ""
        key = laying.add(
            key_of(Slot.GATE, held.task_id * len(_GATES) + _GATES.index(held.gate)),
            TaskKind.OTHER,
            f"Clear before {held.gate.value}: {held.first}{more}",
            Ref(held.table, held.target),
            ANSWER,
            subassembly_id=laying.steps[held.task_id].subassembly_id,
        )
        laying.tie(key, held.task_id, Holding.GATE, f"{held.gate.value}: {held.first}{more}", place)


def lay_oil(laying: Laying) -> None:
    """A step that hides an oil point where no oil was seen may be begun, but not ended."""
    for point in laying.facts.oil:
        words = f"{point.called}{' (blocked)' if point.blocked else ''}"
        laying.finishing[point.task_id].append(
            Hold(
                0,
                Holding.OIL,
                words,
                f"no oil was seen to arrive at {words}",
                Ref("oil_point", point.id),
                point.id,
            )
        )


def lay_fittings(laying: Laying) -> None:
    """What is fitted at assembly holds the end of its step, or of those that put its part on, until it came out."""
    for fitting in laying.facts.fittings:
        own = () if fitting.task_id is None else (fitting.task_id,)
        for step_id in own or [step.id for step in laying.put_on_by.get(fitting.part_id, ())]:
            laying.finishing[step_id].append(
                Hold(
                    0,
                    Holding.FITTED,
                    fitting.asked,
                    f"nothing is entered yet of what came out: {fitting.asked}",
                    Ref("part", fitting.part_id),
                    fitting.id,
                )
            )
