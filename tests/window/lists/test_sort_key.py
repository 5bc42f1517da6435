"""The order of a table's rows: numbers by size, words by letters, and signs that only look like numbers."""

from __future__ import annotations

from rebuild.window.lists.plain_table import sort_key


def test_numbers_go_by_size_and_a_raised_two_is_no_number() -> None:
    assert sorted(["10 qt", "9 qt", "cup", "² in", "9.5 qt"], key=sort_key) == [
        "9 qt",
        "9.5 qt",
        "10 qt",
        "cup",
        "² in",
    ]
