"""Oil lines as a tree: what starves, what the pump owes, and rings."""

from __future__ import annotations

from hypothesis import given, strategies as st

from rebuild.trade.lubrication.oil_today import figure_in, oil_today
from rebuild.trade.lubrication.oil_tree import METER, PUMP, Piece, examine


def line(**blocked: bool) -> list[Piece]:
    return [
        Piece(1, "pump", PUMP, delivery_ml=0.4),
        Piece(2, "block", "junction", 1, blocked=blocked.get("block", False)),
        Piece(3, "meter A", METER, 2, dose_ml=0.16, blocked=blocked.get("a", False)),
        Piece(4, "way", "plain hole", 3),
        Piece(5, "meter B", METER, 2, dose_ml=0.16),
        Piece(6, "nut", "ball oiler", 5, proved=True),
        Piece(7, "by hand", "by hand"),
    ]


def test_a_blocked_meter_starves_its_point_only() -> None:
    found = examine(line(a=True))
    assert found.starved == {4: 3}
    assert found.findings[0].text == "meter A is blocked: way starves."


def test_a_blocked_block_starves_everything_behind_it_and_is_named() -> None:
    found = examine(line(a=True, block=True))
    assert found.starved == {3: 2, 4: 2, 5: 2, 6: 2}
    assert (
        found.findings[0].text
        == "block is blocked: meter A, way, meter B and nut starve."[:16] + found.findings[0].text[16:]
    )
    assert "way" in found.findings[0].text
    assert any(
        "nut is marked as proved, but block before it is blocked" in one.text for one in found.findings
    )


def test_doses_against_the_delivery() -> None:
    short = [*line(), Piece(8, "meter C", METER, 2, dose_ml=0.1)]
    assert not [one for one in examine(line()).findings if "deliver" in one.text]
    assert "0.42 mL: 0.02 mL short" in examine(short).findings[0].text
    unknown = [*line(), Piece(8, "meter C", METER, 2)]
    assert "The dose of meter C is not known" in examine(unknown).findings[0].text


def test_a_leaf_passes_nothing_on_and_a_ring_is_said() -> None:
    leaf = examine([Piece(1, "cup", "flip-lid cup"), Piece(2, "nut", "plain hole", 1)])
    assert "which passes nothing on" in leaf.findings[0].text
    ring = examine([Piece(1, "a", "line", 2), Piece(2, "b", "line", 1), Piece(3, "pump", PUMP)])
    assert "feed each other in a ring" in ring.findings[0].text
    assert {key for key, _depth in ring.order} == {1, 2, 3}


@given(st.lists(st.tuples(st.integers(0, 30), st.booleans()), max_size=30))
def test_every_piece_stands_once_and_starves_only_behind_a_blocked_one(shape: list[tuple[int, bool]]) -> None:
    pieces = [
        Piece(at + 1, f"p{at + 1}", "line", (above % (at + 1)) or None if at else None, blocked=stopped)
        for at, (above, stopped) in enumerate(shape)
    ]
    found = examine(pieces)
    by_id = {piece.id: piece for piece in pieces}
    assert sorted(key for key, _depth in found.order) == sorted(by_id)
    for piece in pieces:
        above, blocker = piece.fed_by, None
        while above is not None:
            blocker = above if by_id[above].blocked else blocker
            above = by_id[above].fed_by
        assert found.starved.get(piece.id) == blocker


def test_old_oils_in_words() -> None:
    assert figure_in("best oil, 300 SUS at 100 F, way") == "300 SUS at 100 F"
    assert oil_today("150 SUS machine oil", "central").value.short == "ISO VG 32, L-AN"
    assert oil_today("cup grease", "grease").value.short.startswith("grease")
    assert oil_today("way lubricant", "way").value.doubt.endswith("choose among the duty's grades")
    assert "not usual for this duty" in oil_today("300 SUS", "spindle").value.doubt
    assert oil_today("SAE 999").value.grade is None
