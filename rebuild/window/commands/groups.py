"""The pages by the order of the job: a word, a key, and the pages it holds.

Each group has one key; pressed again it turns to the next page of the group, so keys reach every page.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Group:
    """A stage of the job and the keys of its pages, the one it opens on first."""

    key: str
    name: str
    help: str
    keys: str
    pages: tuple[str, ...]


GROUPS: tuple[Group, ...] = (
    Group("now", "Now", "Coming back, what to do next, what is waited for, where things lie", "Ctrl+1",
          ("where", "plan", "waiting", "places")),
    Group("at_bench", "Bench", "Parts, readings and steps", "Ctrl+2", ("bench",)),
    Group("down", "Down", "Taking it apart: what came off, its photos, what is not known", "Ctrl+3",
          ("teardown", "photos", "manuals", "boxes", "questions")),
    Group("make", "Make", "What to do with worn parts, what fits what, what is made", "Ctrl+4",
          ("decide", "fits", "making", "means")),
    Group("up", "Up", "Putting it together: joints and oil", "Ctrl+5", ("joints", "lubrication")),
    Group("prove", "Prove", "Ways and geometry, controls, before power, running in", "Ctrl+6",
          ("survey", "chart", "controls", "run-in")),
    Group("keep", "Keep", "What stays: the book, the log, every act", "Ctrl+7", ("book", "log", "history")),
    Group("handbook", "Handbook", "Work out a size, thread, gear or joint", "Ctrl+8", ("figures",)),
)  # fmt: skip


def group_of(page: str) -> Group:
    """The group that holds a page. Raises StopIteration for a page no group holds (a programming error)."""
    return next(group for group in GROUPS if page in group.pages)
