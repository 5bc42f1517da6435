"""Oil lines and the map: numbers of one machine, rings, blocked lines at any depth, the edges of the sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from rebuild.words.lubrication import FlowProof, OilPointKind
from rebuild.work.editing.acts import edit
from rebuild.work.lubrication import acts as lubricate
from rebuild.work.machines import acts as identify
from rebuild.work.records.ways_out import Refused
from rebuild.work.steps import acts as tasks
from tests.support import refuses
from tests.work.lubrication.test_lubrication import card, oiler

if TYPE_CHECKING:
    from tests.conftest import Shop


@pytest.mark.parametrize("before", ["pump", "pipe"])
def test_nothing_is_proved_behind_a_blocked_line_however_far_before(shop: Shop, before: str) -> None:
    keys = oiler(shop)
    lubricate.prove_flow(shop.store, [keys[before]], FlowProof.BLOCKED)
    with refuses(shop.store, "Flow: “3 cross nut” cannot get oil: .* before it is blocked"):
        lubricate.prove_flow(shop.store, [keys["nut"]])
    lubricate.prove_flow(shop.store, [keys[before]], FlowProof.NOT_PROVED)
    lubricate.prove_flow(shop.store, [keys["nut"]])


@pytest.mark.parametrize("at", [(0.0, 0.0), (1.0, 1.0), (0.0, 1.0)])
def test_the_edges_of_the_map_are_on_it(shop: Shop, at: tuple[float, float]) -> None:
    key = oiler(shop)["nut"]
    lubricate.put_on_map(shop.store, key, at)
    row = next(row for row in card(shop).rows if row.id == key)
    assert (row.x, row.y) == at


@pytest.mark.parametrize("at", [(-0.001, 0.5), (1.001, 0.5), (0.5, -0.001), (0.5, 1.001)])
def test_beyond_the_edges_is_beside_the_map(shop: Shop, at: tuple[float, float]) -> None:
    key = oiler(shop)["nut"]
    with refuses(shop.store, "Place on the map: “.*” lies beside the map"):
        lubricate.put_on_map(shop.store, key, at)


def test_a_number_names_one_point_of_one_machine(shop: Shop) -> None:
    keys = oiler(shop)
    with refuses(shop.store, "No.: “1” is already the number of “one-shot pump”"):
        edit(shop.store, "oil_point", [keys["nut"]], {"number": "1"})
    other = identify.add_machine(shop.store, "Shaper")
    ram = lubricate.add_point(shop.store, other, "ram ways", typed={"number": "1"})
    with refuses(shop.store, "Fed through: “1” is of another machine"):
        edit(shop.store, "oil_point", [ram], {"fed_by_id": str(keys["pump"])})
    with refuses(shop.store, "Fed through: “3 cross nut” is itself fed through this one"):
        edit(shop.store, "oil_point", [keys["pump"]], {"fed_by_id": str(keys["nut"])})


@pytest.mark.parametrize(
    ("proof", "holds"),
    [
        (FlowProof.NOT_PROVED, True),
        (FlowProof.BLOCKED, True),
        (FlowProof.PROVED, False),
        (FlowProof.NOT_NEEDED, False),
    ],
)
def test_a_step_hides_a_point_only_once_oil_was_seen_there(shop: Shop, proof: FlowProof, holds: bool) -> None:
    key = lubricate.add_point(
        shop.store, shop.machine, "nut", OilPointKind.BALL_OILER, {"task_id": str(shop.strip)}
    )
    lubricate.prove_flow(shop.store, [key], proof)
    if holds:
        with refuses(shop.store, "hides an oil point where no oil was seen to arrive: 1 nut", Refused):
            tasks.tick(shop.store, shop.strip)
    else:
        tasks.tick(shop.store, shop.strip)
