"""Cleaning and painting that follows from what is noted of a part, in order, before the part is put on."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from rebuild.trade.schedule.graph import Ref
from rebuild.trade.schedule.usual import FETCH
from rebuild.trade.treatments.together import bath_for, metal_of, together_share, usual_work
from rebuild.trade.treatments.wanted import wanted
from rebuild.words.decisions import Decision
from rebuild.words.places import PlaceKind, place_words
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.treatments import COATED, Treatment
from rebuild.words.work_graph import Holding
from rebuild.work.plan.facts import PartFact, StepFact
from rebuild.work.plan.laying import Laying, Slot, key_of, slot_of

#: Room for the treatments of one part in the key of its work.
ROOM_OF_PART = 8
_REPLACED = (Decision.REMAKE, Decision.BUY)
_AWAY = (PlaceKind.BATH, PlaceKind.AT_A_SHOP, PlaceKind.LENT)
_ALL = tuple(Treatment)


def kind_of(treatment: Treatment) -> TaskKind:
    """The kind of step a treatment is."""
    return TaskKind.PAINT if treatment in COATED else TaskKind.CLEAN


def row_of(part_id: int, treatment: Treatment) -> int:
    """A number for one treatment of one part: what its derived work, and its line among the batches, goes by.

    >>> part_and_treatment(row_of(7, Treatment.DERUST))
    (7, <Treatment.DERUST: 'de-rust'>)
    """
    return part_id * ROOM_OF_PART + _ALL.index(treatment)


def part_and_treatment(row_id: int) -> tuple[int, Treatment]:
    """The part and treatment of such a number."""
    part_id, place = divmod(row_id, ROOM_OF_PART)
    return part_id, _ALL[place]


def lay_treatments(laying: Laying) -> None:
    """What each part off the machine still wants done to its surface."""
    for part in laying.facts.parts:
        if part.decision in _REPLACED or not (part.condition or part.finish):
            continue
        todo = wanted(part.condition, part.finish)
        if todo and not _is_on(laying, part.id):
            _lay(laying, part, todo)
    _count_together(laying)


def goes_with(treatment: Treatment, part: PartFact) -> str:
    """What it shares a bath or a coat with: its bath, or its paint."""
    if treatment is Treatment.PAINT:
        return part.finish.strip() or "the machine’s own colour"
    if treatment is Treatment.PRIME:
        return "primer"
    return bath_for(treatment, metal_of(part.material)).name


def _count_together(laying: Laying) -> None:
    """A bath is made ready once: what goes in together shares its time (``together_share``).

    What has still to come off, or lies elsewhere, goes in another time.
    """
    together: dict[tuple[Treatment, str], list[int]] = {}
    for part_id, keys in laying.treated.items():
        part = laying.parts[part_id]
        if part.place_kind in _AWAY or any(
            step.kind is TaskKind.REMOVE and laying.is_open(step.id)
            for step in laying.open_of_part.get(part_id, ())
        ):
            continue
        for key in keys:
            treatment = part_and_treatment(slot_of(key)[1])[1]
            together.setdefault((treatment, goes_with(treatment, part)), []).append(key)
    for keys_of_one in together.values():
        share = together_share([laying.nodes[key].points.likely for key in keys_of_one])
        for key in keys_of_one:
            node = laying.nodes[key]
            laying.nodes[key] = replace(node, points=node.points.times(share))


def _is_on(laying: Laying, part_id: int) -> bool:
    return any(step.state is TaskState.DONE for step in laying.put_on_by.get(part_id, ()))


def _lay(laying: Laying, part: PartFact, todo: tuple[Treatment, ...]) -> None:
    chain: list[int] = []
    last_done: StepFact | None = None
    for treatment in todo:
        done, typed = _typed(laying, part.id, treatment)
        if done is not None:
            last_done = done
        elif typed is not None:
            chain.append(typed)
        else:
            chain.append(_derived(laying, part, treatment))
    chain = list(dict.fromkeys(chain))
    if not chain:
        _clock_before(laying, last_done, [on.id for on in laying.put_on_by.get(part.id, ())])
        return
    for before, after in pairwise(chain):
        laying.tie(before, after, Holding.CHAIN, f"{laying.nodes[before].title} first")
    _clock_before(laying, last_done, chain[:1])
    _round_the_work(laying, part, chain)


def _typed(laying: Laying, part_id: int, treatment: Treatment) -> tuple[StepFact | None, int | None]:
    """The step that did it, or the open one that will: of that treatment, else one of its kind that names none."""
    kind = kind_of(treatment)
    for step in laying.done_of_part.get(part_id, ()):
        if step.treatment is treatment or (step.treatment is None and step.kind is kind):
            return step, None
    for step in laying.open_of_part.get(part_id, ()):
        if step.treatment is treatment or (step.treatment is None and step.kind is kind):
            return None, step.id
    return None, None


def _derived(laying: Laying, part: PartFact, treatment: Treatment) -> int:
    row = row_of(part.id, treatment)
    laying.treated[part.id].append(key_of(Slot.TREAT, row))
    what = f": {part.finish}" if treatment is Treatment.PAINT and part.finish else ""
    return laying.add(
        key_of(Slot.TREAT, row),
        kind_of(treatment),
        f"{treatment.value.capitalize()} {part.called}{what}",
        Ref("batch", row),
        usual_work(treatment, part.name),
        part=part,
    )


def _clock_before(laying: Laying, done: StepFact | None, after: list[int]) -> None:
    """A coat that dries, or whose window has closed, stands before the next coat and before the part goes on."""
    for clock in laying.facts.clocks if done is not None else ():
        key = key_of(Slot.CLOCK, clock.id)
        if clock.task_id == (done.id if done is not None else 0) and laying.is_open(key):
            for one in after:
                laying.tie(key, one, Holding.CURE, laying.nodes[key].title, clock.task_id)


def _round_the_work(laying: Laying, part: PartFact, chain: list[int]) -> None:
    """Off the machine first, back from where it is; cleaned before it is reworked, coated after; then put on."""
    for step in laying.open_of_part.get(part.id, ()):
        if step.kind is TaskKind.REMOVE and laying.is_open(step.id):
            laying.tie(step.id, chain[0], Holding.CHAIN, f"{part.called} has not come off yet", step.id)
    if part.place_kind in _AWAY and chain[0] < 0:
        key = laying.add(key_of(Slot.FETCH, part.id), TaskKind.OTHER, f"Fetch {part.called} from {part.place}",
                         Ref("part", part.id), FETCH, part=part)  # fmt: skip
        laying.tie(
            key,
            chain[0],
            Holding.AWAY,
            f"{part.called} lies in {place_words(part.place_kind, part.place or '')}",
            part.id,
        )
    own = [key for key in laying.making.get(part.id, ()) if laying.is_open(key)]
    cleaning = [key for key in chain if laying.nodes[key].kind is TaskKind.CLEAN]
    coats = [key for key in chain if laying.nodes[key].kind is TaskKind.PAINT]
    shaping = [key for key in own if laying.nodes[key].kind in (TaskKind.REWORK, TaskKind.SEND_OUT)]
    for shaped in shaping:
        if cleaning:
            laying.tie(cleaning[-1], shaped, Holding.TREATED, f"{part.called} is not clean yet", part.id)
        if coats:
            laying.tie(shaped, coats[0], Holding.MAKING, f"{part.called} is not reworked yet", part.id)
    for on in laying.put_on_by.get(part.id, ()):
        word = "painted" if coats else "clean"
        laying.tie(chain[-1], on.id, Holding.TREATED, f"{part.called} is not {word} yet", part.id)
