"""A second teardown against the order of the first refit."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import given, strategies as st

from rebuild.trade.teardown.second_teardown import compare


def implied(missed: Sequence[tuple[int, int]], agreed: Sequence[tuple[int, int]]) -> set[tuple[int, int]]:
    """Every pair that follows from both together."""
    following: dict[int, set[int]] = {}
    for first, then in (*missed, *agreed):
        following.setdefault(first, set()).add(then)
    found: set[tuple[int, int]] = set()
    for start in following:
        queue, seen = [start], set[int]()
        while queue:
            for there in following.get(queue.pop(), ()):
                if there not in seen:
                    seen.add(there)
                    queue.append(there)
                    found.add((start, there))
    return found


@given(st.permutations(range(7)), st.permutations(range(7)))
def test_missed_constraints_with_the_agreed_ones_imply_the_whole_new_order(
    refitted: list[int], taken_off: list[int]
) -> None:
    """Property: nothing a second teardown taught is lost by naming neighbours only."""
    found = compare(refitted, taken_off)
    backwards = taken_off[::-1]
    at = {key: place for place, key in enumerate(refitted)}
    pairs = [(a, b) for place, a in enumerate(backwards) for b in backwards[place + 1 :]]
    agreed = [(a, b) for a, b in pairs if at[a] < at[b]]
    inverted = {(a, b) for a, b in pairs if at[a] > at[b]}
    assert set(found.missed) <= inverted
    assert inverted <= implied(found.missed, agreed)
    assert bool(found.missed) == bool(inverted)


def test_a_second_teardown_in_the_right_order_proposes_nothing() -> None:
    found = compare(["bed", "saddle", "apron"], ["apron", "saddle", "bed"])
    assert found.missed == ()
    assert compare(["a", "b"], ["c", "a"]).missing == ("b",)
    assert compare(["a", "b"], ["c", "a"]).new == ("c",)
