"""One-key ways out of a refusal: what the user can do instead, named on the spot."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from rebuild.errors import BrokenOrder


class WayKind(Enum):
    """What a way out does; those of ``CALLERS`` are the caller's to follow, ``acts_ways_out.take`` does the others."""

    GO_TO = "go to the step"
    ALL_THE_SAME = "all the same"
    NEW_ATTEMPT = "begin a new attempt"
    ALIKE = "another one alike"
    THAT_PART = "it is that part"
    NEW_PART = "a new part"
    TAKE_LINK_AWAY = "take the link away"
    LEAVE_OUT = "leave the step out"
    OPEN_AGAIN = "open the step again"
    PROVE = "it was proved"
    MADE = "it is made"
    FLOW_SEEN = "oil was seen"
    CAME_OUT = "it came out so"
    SAY_CLASS = "its class is so"
    CONFIRM = "looked once more"
    READ = "cautions were read"
    NEW_JOINT = "make its joint"
    SET_UP = "set the list up"
    HAVE_MEANS = "the shop has it"
    MAKE_MEANS = "make it"
    BUY_MEANS = "buy it"
    BORROW_MEANS = "borrow it"
    BACK_MEANS = "it came"


#: The key of each way; no two the same, so that a refusal can be answered with one.
KEYS = {
    WayKind.GO_TO: "G", WayKind.ALL_THE_SAME: "A", WayKind.NEW_ATTEMPT: "N", WayKind.ALIKE: "K",
    WayKind.TAKE_LINK_AWAY: "T", WayKind.LEAVE_OUT: "L", WayKind.OPEN_AGAIN: "O", WayKind.PROVE: "P",
    WayKind.MADE: "M", WayKind.FLOW_SEEN: "F", WayKind.CONFIRM: "Y", WayKind.READ: "R", WayKind.NEW_JOINT: "J",
    WayKind.SET_UP: "S",
    WayKind.HAVE_MEANS: "H", WayKind.MAKE_MEANS: "E", WayKind.BUY_MEANS: "U", WayKind.BORROW_MEANS: "B",
    WayKind.BACK_MEANS: "C", WayKind.CAME_OUT: "W", WayKind.THAT_PART: "I", WayKind.NEW_PART: "D",
    WayKind.SAY_CLASS: "V",
}  # fmt: skip
#: Followed by whoever was refused; ``editing.acts_ways_out.take`` does the others.
CALLERS = (
    WayKind.GO_TO, WayKind.ALL_THE_SAME, WayKind.NEW_ATTEMPT, WayKind.ALIKE, WayKind.CONFIRM, WayKind.THAT_PART,
    WayKind.NEW_PART,
)  # fmt: skip
#: Taken only with a reason, which is kept and printed.
WANT_A_REASON = (WayKind.ALL_THE_SAME, WayKind.NEW_ATTEMPT, WayKind.OPEN_AGAIN, WayKind.CAME_OUT)


@dataclass(frozen=True, slots=True)
class Way:
    """One way out: the words on its button, and the id of the step, link, constraint or part it is about.

    ``reason`` is filled in by whoever takes one that wants it; of ``SAY_CLASS`` it is the class.
    """

    kind: WayKind
    words: str
    target: int = 0
    reason: str = ""

    @property
    def wants_reason(self) -> bool:
        """Whether it is taken only with a reason."""
        return self.kind in WANT_A_REASON

    @property
    def key(self) -> str:
        """The key that takes it."""
        return KEYS[self.kind]


@dataclass(frozen=True, slots=True)
class RowLead:
    """A row that stands against an act: in words, with the table it is in and its id.

    ``page`` is another page than the one that usually shows such rows.
    """

    words: str
    table: str
    id: int
    page: str = ""


class Refused(BrokenOrder):
    """An act that would break the order of work; ``ways`` lists what can be done instead.

    ``rows`` are what stands against it, to go to.
    """

    def __init__(
        self,
        what: str,
        *,
        chain: tuple[str, ...] = (),
        where: str = "",
        way_out: str = "",
        ways: Sequence[Way] = (),
        rows: Sequence[RowLead] = (),
    ) -> None:
        super().__init__(what, chain=chain, where=where, way_out=way_out)
        self.ways = tuple(ways)
        self.rows = tuple(rows)
