"""Photos of two machines in one file: the same picture may belong to both, and goes only where it belongs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from rebuild.words.photos import MarkKind
from rebuild.work.machines import acts as identify
from rebuild.work.photos.about import About
from rebuild.work.photos.acts import mark_photo, sort_photos
from rebuild.work.photos.acts_take import take_in
from rebuild.work.photos.rows import photos
from rebuild.work.steps import acts as tasks
from tests.support import refuses

if TYPE_CHECKING:
    from tests.conftest import Shop


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    path = tmp_path / "bench.png"
    Image.new("L", (64, 48), 40).save(path)
    return path


def test_the_picture_of_one_machine_is_taken_in_for_another_too(shop: Shop, picture: Path) -> None:
    other = identify.add_machine(shop.store, "Shaper")
    first = take_in(shop.store, shop.machine, [picture])
    second = take_in(shop.store, other, [picture])
    assert (len(second.added), second.already) == (1, ())
    assert second.added != first.added
    again = take_in(shop.store, other, [picture])
    assert (again.added, again.already) == ((), second.added)
    with shop.store.read() as connection:
        assert [row.id for row in photos(connection, other)] == list(second.added)
        assert [row.id for row in photos(connection, shop.machine)] == list(first.added)


@pytest.mark.parametrize("what", ["part", "step", "subassembly"])
def test_a_photo_is_not_sorted_to_another_machine(shop: Shop, picture: Path, what: str) -> None:
    other = identify.add_machine(shop.store, "Shaper")
    group = identify.add_subassembly(shop.store, other, "Ram", "RA")
    about = {
        "part": lambda: About(part_id=identify.add_part(shop.store, other, group, "gib")),
        "step": lambda: About(task_id=tasks.add_task(shop.store, other, group, "Lift the ram off")),
        "subassembly": lambda: About(subassembly_id=group),
    }[what]()
    done = take_in(shop.store, shop.machine, [picture])
    with refuses(shop.store, "Photo of: “.*” belongs to another machine. Choose that machine first."):
        sort_photos(shop.store, done.added, about)


@pytest.mark.parametrize("at", [(0.0, 0.0), (1.0, 1.0)])
def test_the_edge_of_a_picture_is_on_it_and_beyond_is_not(
    shop: Shop, picture: Path, at: tuple[float, float]
) -> None:
    (key,) = take_in(shop.store, shop.machine, [picture]).added
    assert mark_photo(shop.store, key, MarkKind.ARROW, at, (0.5, 0.5))
    beyond = (at[0] - 0.001, at[1]) if at[0] == 0.0 else (at[0], at[1] + 0.001)
    with refuses(shop.store, "Mark: lies off the picture. Draw it on the picture."):
        mark_photo(shop.store, key, MarkKind.ARROW, (0.5, 0.5), beyond)


@pytest.mark.parametrize("kind", [MarkKind.LABEL, MarkKind.MATCH_MARK])
def test_a_mark_that_says_something_needs_words(shop: Shop, picture: Path, kind: MarkKind) -> None:
    (key,) = take_in(shop.store, shop.machine, [picture]).added
    with refuses(shop.store, "Words: is empty. Type what the mark says"):
        mark_photo(shop.store, key, kind, (0.1, 0.1), (0.2, 0.2), "  ")
