"""Machines drawn at random, as what is known of their work: the named generator of the readiness tests.

``machine(seed)`` gives the same machine every time. Everything the graph rests on turns up: links of both kinds,
decisions with and without typed steps, sheets, orders, questions, cures, proofs, openings, places, fits, hazards.
"""

from __future__ import annotations

import datetime as dt
import random

from rebuild.words.decisions import Decision
from rebuild.words.gates import Gate
from rebuild.words.making import MakingProgress
from rebuild.words.parts import Origin
from rebuild.words.places import PlaceKind
from rebuild.words.readings import Stage
from rebuild.words.steps import ConstraintKind, LinkKind, TaskKind, TaskState
from rebuild.words.treatments import Treatment
from rebuild.words.waiting import ClockKind, WaitingKind
from rebuild.work.fits.rows_sides import Wait
from rebuild.work.plan.facts import (
    ClockFact,
    Facts,
    FitFact,
    FittingFact,
    GateFact,
    JointFact,
    LackFact,
    LinkFact,
    NeedFact,
    OffFact,
    OilFact,
    OrderFact,
    PartFact,
    SheetFact,
    SideFact,
    StepFact,
    ToolFact,
)

NOW = dt.datetime(2026, 6, 15, 20, 0)
ABOUT = ("steel", "steel", "lining may hold asbestos", "old lead paint", "bronze, asbestos-free")


def machine(seed: int) -> Facts:
    """One machine of 4 to 12 parts and 6 to 30 steps."""
    chance = random.Random(seed)
    parts = _parts(chance)
    steps = _steps(chance, parts)
    needs, need_parts = _needs(chance, steps, parts)
    fits = _fits(chance, parts)
    keys = [step.id for step in steps]
    return Facts(
        steps,
        _links(chance, keys),
        parts,
        tuple((step.id, chance.choice(parts).id) for step in steps if step.kind is TaskKind.REFIT),
        needs,
        need_parts,
        tuple((n, key, f"question {n}?") for n, key in enumerate(chance.sample(keys, 2), 1)),
        _clocks(chance, keys),
        _orders(chance, steps, parts),
        *_sheets(chance, parts),
        tuple(OilFact(n, key, f"L{n}") for n, key in enumerate(chance.sample(keys, 1), 1)),
        tuple((part.id, chance.random() < 0.3) for part in parts if chance.random() < 0.5),
        fits,
        (1, 2, 3),
        tuple(
            LackFact(
                key,
                n,
                f"hoist {n}",
                f"needs hoist {n}: the shop has none",
                (),
                chance.choice((None, keys[0])),
            )
            for n, key in enumerate(chance.sample(keys[1:], 2), 1)
        ),
        tuple(
            GateFact(key, gate, n, "cap screws: apart", "joint", n)
            for n, (key, gate) in enumerate(
                zip(chance.sample(keys[1:], 2), (Gate.POWER, Gate.IRREVERSIBLE), strict=True), 1
            )
        ),
        tuple(
            FittingFact(
                n, chance.choice(parts).id, chance.choice((None, keys[0])), f"ream in place: bore {n}"
            )
            for n in range(1, 3)
        ),
        joints=tuple(
            JointFact(
                n, chance.choice((None, *keys)), chance.choice((None, parts[0].id)), 1, f"bolt {n}", "apart"
            )
            for n in range(1, chance.randint(1, 4))
        ),
        checks=tuple((n, f"check {n}") for n in range(1, chance.randint(1, 4))),
        off=_off(parts, random.Random(-seed - 1)),
    )


def _off(parts: tuple[PartFact, ...], chance: random.Random) -> tuple[OffFact, ...]:
    """Some parts off, by removals of one or two of them in two attempts; drawn apart, so that all else stays."""
    gone = chance.sample(parts, chance.randint(0, len(parts) // 2))
    return tuple(
        OffFact(part.id, 1 + place // 2, 1 + place // 4, place // 2) for place, part in enumerate(gone)
    )


def _parts(chance: random.Random) -> tuple[PartFact, ...]:
    made = []
    for key in range(1, chance.randint(4, 12) + 1):
        kind = chance.choice(
            (None, None, PlaceKind.BENCH, PlaceKind.BATH, PlaceKind.AT_A_SHOP, PlaceKind.LENT)
        )
        made.append(
            PartFact(
                key,
                chance.choice((1, 2, 3, None)),
                f"P-{key:02d}",
                f"part {key}",
                chance.choice((Origin.ORIGINAL,) * 6 + (Origin.MISSING, Origin.REMADE)),
                chance.choice(tuple(Decision)),
                about=chance.choice(ABOUT),
                place_kind=kind,
                place="the place" if kind is not None else None,
                condition=chance.choice(("", "", "greasy, light rust", "old paint flaking")),
                finish=chance.choice(("", "", "grey enamel", "bare")),
            )
        )
    return tuple(made)


def _steps(chance: random.Random, parts: tuple[PartFact, ...]) -> tuple[StepFact, ...]:
    states = (TaskState.OPEN,) * 5 + (TaskState.UNDER_WAY, TaskState.DONE, TaskState.DONE, TaskState.LEFT_OUT)
    return tuple(
        StepFact(
            key,
            chance.choice((1, 2, 3, None)),
            chance.choice((None, *(part.id for part in parts))),
            f"step {key}",
            chance.choice(tuple(TaskKind)),
            chance.choice(states),
            likely_min=chance.choice((None, 20.0, 90.0, 4000.0)),
            irreversible=chance.random() < 0.2,
            treatment=chance.choice((None, None, *Treatment)),
        )
        for key in range(1, chance.randint(6, 30) + 1)
    )


def _links(chance: random.Random, keys: list[int]) -> tuple[LinkFact, ...]:
    """Links that all run forward, as the acts refuse a loop."""
    pairs = {tuple(sorted(chance.sample(keys, 2))) for _ in range(chance.randint(0, 2 * len(keys)))}
    kinds = (LinkKind.BEFORE, LinkKind.BEFORE, LinkKind.BEFORE, LinkKind.WHILE_OFF)
    return tuple(LinkFact(n, a, b, chance.choice(kinds)) for n, (a, b) in enumerate(sorted(pairs), 1))


def _needs(
    chance: random.Random, steps: tuple[StepFact, ...], parts: tuple[PartFact, ...]
) -> tuple[tuple[NeedFact, ...], tuple[tuple[int, int], ...]]:
    needs = tuple(
        NeedFact(
            key,
            chance.choice(steps).id,
            chance.choice(tuple(ConstraintKind)),
            "",
            None,
            chance.random() < 0.3,
        )
        for key in range(1, chance.randint(0, 6) + 1)
    )
    return needs, tuple((need.id, chance.choice(parts).id) for need in needs if chance.random() < 0.7)


def _clocks(chance: random.Random, keys: list[int]) -> tuple[ClockFact, ...]:
    return tuple(
        ClockFact(
            n,
            key,
            chance.choice((ClockKind.BATH, ClockKind.CURE, ClockKind.RECOAT)),
            NOW - dt.timedelta(hours=chance.randint(1, 72)),
            24 * 60.0,
            chance.choice((None, 48 * 60.0)),
        )
        for n, key in enumerate(chance.sample(keys, 2), 1)
    )


def _orders(
    chance: random.Random, steps: tuple[StepFact, ...], parts: tuple[PartFact, ...]
) -> tuple[OrderFact, ...]:
    made = []
    for key in range(1, chance.randint(0, 4) + 1):
        ordered = NOW - dt.timedelta(days=9) if chance.random() < 0.7 else None
        made.append(
            OrderFact(
                key,
                f"order {key}",
                chance.choice((WaitingKind.ORDER, WaitingKind.SENT_OUT, WaitingKind.QUOTE)),
                chance.choice((None, chance.choice(parts).id)),
                chance.choice((None, chance.choice(steps).id)),
                ordered,
                NOW + dt.timedelta(days=5) if chance.random() < 0.5 else None,
                NOW if ordered is not None and chance.random() < 0.3 else None,
            )
        )
    return tuple(made)


def _sheets(
    chance: random.Random, parts: tuple[PartFact, ...]
) -> tuple[tuple[SheetFact, ...], tuple[ToolFact, ...]]:
    sheets = tuple(
        SheetFact(n, part.id, chance.choice(tuple(MakingProgress)), chance.choice(("", "rack")))
        for n, part in enumerate(chance.sample(parts, 2), 1)
    )
    return sheets, tuple(ToolFact(n, sheet.id, "a {bore} reamer") for n, sheet in enumerate(sheets, 1))


def _fits(chance: random.Random, parts: tuple[PartFact, ...]) -> tuple[FitFact, ...]:
    made = []
    for key in range(1, chance.randint(0, 6) + 1):
        sides = tuple(_side(chance, part, key) for part in chance.sample(parts, 2))
        made.append(
            FitFact(
                key,
                f"fit {key}",
                (sides[0], sides[1]),
                chance.choice((None, 0, 1)),
                chance.choice(("", "measured again")),
                chance.choice(("", "", "0.05 mm clear, wanted 0.02")),
            )
        )
    return tuple(made)


def _side(chance: random.Random, part: PartFact, key: int) -> SideFact:
    stage = chance.choice((None, Stage.CLEANED, Stage.AS_MADE))
    wait = Wait(part.id, key, f"{part.called}, bore", stage, f"{part.called}, bore is not known yet")
    return SideFact(part.id, part.called, "bore", part.decision, chance.choice((None, wait)))
