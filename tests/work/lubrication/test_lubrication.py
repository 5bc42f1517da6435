"""The oil card through its acts: points, lines, proofs, and the step that may not be closed."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry
from rebuild.words.lubrication import FlowProof, OilPointKind
from rebuild.work.checks.check import check
from rebuild.work.editing import acts_ways_out as ways
from rebuild.work.editing.acts import edit, remove
from rebuild.work.lubrication import acts as lubricate
from rebuild.work.lubrication.rows import OilCard, oil_card, point_working
from rebuild.work.records.ways_out import Refused, WayKind
from rebuild.work.steps import acts as tasks
from tests.conftest import Shop


def card(shop: Shop) -> OilCard:
    with shop.store.read() as connection:
        return oil_card(connection, shop.machine)


def oiler(shop: Shop) -> dict[str, int]:
    pump = lubricate.add_point(
        shop.store, shop.machine, "one-shot pump", OilPointKind.PUMP, {"delivery_ml": "1"}
    )
    pipe = lubricate.add_point(shop.store, shop.machine, "line", OilPointKind.LINE, {"fed_by_id": str(pump)})
    nut = lubricate.add_point(
        shop.store, shop.machine, "cross nut", OilPointKind.BALL_OILER,
        {"fed_by_id": str(pipe), "old_oil": "300 SUS machine oil", "duty": "central"}, at=(0.25, 0.5),
    )  # fmt: skip
    hand = lubricate.add_point(shop.store, shop.machine, "bed ways", OilPointKind.BY_HAND)
    return {"pump": pump, "pipe": pipe, "nut": nut, "hand": hand}


def test_points_get_numbers_and_todays_oil(shop: Shop) -> None:
    keys = oiler(shop)
    rows = {row.id: row for row in card(shop).rows}
    assert [row.number for row in rows.values()] == ["1", "2", "3", "4"]
    nut = rows[keys["nut"]]
    assert (nut.oil, nut.depth, nut.fed_by) == ("ISO VG 68, L-AN", 2, "2 line")
    assert "falls between VG 46" in nut.today.doubt
    assert rows[keys["hand"]].proof is FlowProof.NOT_NEEDED
    assert "300 SUS" in point_working(nut, card(shop)).text()
    edit(shop.store, "oil_point", [keys["nut"]], {"oil": "ISO VG 46, tried"})
    assert {row.id: row for row in card(shop).rows}[keys["nut"]].oil == "ISO VG 46, tried"


def test_a_blocked_line_starves_and_nothing_behind_it_can_be_proved(shop: Shop) -> None:
    keys = oiler(shop)
    lubricate.prove_flow(shop.store, [keys["pipe"]], FlowProof.BLOCKED, "paint")
    rows = {row.id: row for row in card(shop).rows}
    assert rows[keys["nut"]].flow == "starves: 2 line is blocked"
    assert card(shop).findings[0].text == "2 line is blocked: 3 cross nut starves."
    with pytest.raises(BadEntry, match="2 line before it is blocked"):
        lubricate.prove_flow(shop.store, [keys["nut"]])
    lubricate.prove_flow(shop.store, [keys["pipe"]], note="cleared with wire")
    lubricate.prove_flow(shop.store, [keys["nut"]])
    nut = {row.id: row for row in card(shop).rows}[keys["nut"]]
    assert nut.proof is FlowProof.PROVED
    assert nut.proved_at is not None
    assert [row.number for row in card(shop).not_proved] == []


def test_a_step_that_hides_an_unproved_point_may_not_be_closed(shop: Shop) -> None:
    keys = oiler(shop)
    edit(shop.store, "oil_point", [keys["nut"]], {"task_id": str(shop.strip)})
    with pytest.raises(
        Refused, match="hides an oil point where no oil was seen to arrive: 3 cross nut"
    ) as caught:
        tasks.tick(shop.store, shop.strip)
    kinds = [way.kind for way in caught.value.ways]
    assert WayKind.FLOW_SEEN in kinds
    seen = next(way for way in caught.value.ways if way.kind is WayKind.FLOW_SEEN)
    assert ways.take(shop.store, seen, "dripped") is True
    tasks.tick(shop.store, shop.strip)
    assert {row.id: row for row in card(shop).rows}[keys["nut"]].proved_note == "dripped"


def test_sure_closes_it_all_the_same(shop: Shop) -> None:
    keys = oiler(shop)
    edit(shop.store, "oil_point", [keys["nut"]], {"task_id": str(shop.strip)})
    tasks.tick(shop.store, shop.strip, reason="seen at the bench")
    assert next(row for row in card(shop).rows if row.id == keys["nut"]).task_open is False


def test_what_cannot_be_is_said(shop: Shop) -> None:
    keys = oiler(shop)
    with pytest.raises(BadEntry, match="fed through this one"):
        edit(shop.store, "oil_point", [keys["pump"]], {"fed_by_id": str(keys["nut"])})
    with pytest.raises(BadEntry, match="fed through this one"):
        edit(shop.store, "oil_point", [keys["pump"]], {"fed_by_id": str(keys["pump"])})
    with pytest.raises(BadEntry, match="is already the number of “cross nut”"):
        lubricate.add_point(shop.store, shop.machine, "other", typed={"number": "3"})
    with pytest.raises(BadEntry, match="is not a duty"):
        lubricate.add_point(shop.store, shop.machine, "other", typed={"duty": "frying"})
    with pytest.raises(BadEntry, match="beside the map"):
        lubricate.put_on_map(shop.store, keys["nut"], (1.2, 0.5))
    with pytest.raises(BadEntry, match="Feeds"):
        lubricate.add_point(shop.store, shop.machine, "")


def test_moving_on_the_map_and_first_fill_are_undone_exactly(shop: Shop) -> None:
    keys = oiler(shop)
    lubricate.put_on_map(shop.store, keys["nut"], (0.75, 0.25))
    lubricate.fill_first(shop.store, [keys["nut"], keys["hand"]])
    nut = next(row for row in card(shop).rows if row.id == keys["nut"])
    assert (nut.x, nut.y) == (0.75, 0.25)
    assert nut.first_fill_at is not None
    shop.store.undo()
    shop.store.undo()
    nut = next(row for row in card(shop).rows if row.id == keys["nut"])
    assert ((nut.x, nut.y), nut.first_fill_at) == ((0.25, 0.5), None)


def test_a_removed_line_leaves_its_points(shop: Shop) -> None:
    keys = oiler(shop)
    remove(shop.store, "oil_point", [keys["pipe"]])
    nut = next(row for row in card(shop).rows if row.id == keys["nut"])
    assert (nut.fed_by_id, nut.depth) == (None, 0)
    assert check(shop.path) == []


def test_a_line_has_flow_to_prove_and_oil_seen_behind_it_proves_it(shop: Shop) -> None:
    keys = oiler(shop)
    rows = {row.id: row for row in card(shop).rows}
    assert [rows[keys[one]].proof for one in ("pump", "pipe", "nut")] == [FlowProof.NOT_PROVED] * 3
    lubricate.prove_flow(shop.store, [keys["nut"]])
    rows = {row.id: row for row in card(shop).rows}
    assert [rows[keys[one]].proof for one in ("pump", "pipe", "nut")] == [FlowProof.PROVED] * 3
    assert rows[keys["pipe"]].proved_note == "oil seen at 3 cross nut"
    shop.store.undo()
    assert {row.proof for row in card(shop).rows} == {FlowProof.NOT_PROVED, FlowProof.NOT_NEEDED}
