"""One line of the log, said at the bench: read against what is there, and stored."""

from __future__ import annotations

from rebuild.store.store import Store
from rebuild.trade.teardown.at_odds import is_lost, wrong_end
from rebuild.work.records.ways_out import Refused, Way, WayKind
from rebuild.work.teardown.acts import log_removal
from rebuild.work.teardown.line_read import NEW, likely_meant as likely_meant, read_line as read_line
from rebuild.work.teardown.off import Again, EnterOnceMore, NotYetThere, Off, TakenFor
from rebuild.work.teardown.rows_candidates import Candidates
from rebuild.work.teardown.rows_whose import Whose, whose


def say_removal(
    store: Store,
    machine_id: int,
    subassembly_id: int | None,
    line: str,
    *,
    again: Again | None = None,
    why: str = "",
    next_part: int | None = None,
    make: bool = False,
) -> int:
    """Log one line as said at the bench (``hs2 u, 4x 3/8-16, > bag 3``).

    A line that names no part means ``next_part``, or the next in the tree. With ``make`` a part or place it
    names for the first time is made in the same act, and what it says against itself is taken as it stands.

    Raises:
        BadEntry: the line does not say how, or a part or place in it could be several things; or, of a new
            attempt, ``why`` is empty.
        NotYetThere: it names what is not there yet, and ``make`` was not said.
        EnterOnceMore: it says something against itself, and ``make`` was not said.
        Refused: as ``log_removal``; or words that begin the name of a part may name another one, which
            ``retold`` settles.
    """
    off = read_line(store, machine_id, subassembly_id, line, next_part=next_part)
    into = whose_log(store, machine_id, subassembly_id, off)
    if again is None:
        _refuse_unsure(off, sure=make or bool(into.off_already))
    if not make:
        _refuse_odd(off)
        _refuse_new(off)
    alike = off.said_of if off.said_of is not None else subassembly_id
    of = alike if again is Again.ALIKE else into.subassembly_id
    try:
        return log_removal(store, machine_id, of, off, again=again, why=why)
    except Refused as trouble:
        trouble.ways += tuple(_new_part(one) for one in off.taken_for if not one.outright)[:1]
        raise


def whose_log(
    store: Store, machine_id: int, subassembly_id: int | None, off: Off, among: Candidates | None = None
) -> Whose:
    """Whose log a line goes into that is said while a subassembly is in hand, and which of its parts are off.

    ``among`` as for ``read_line``: what could come off of the subassembly in hand.
    """
    with store.read() as connection:
        return whose(
            connection,
            machine_id,
            subassembly_id,
            off.part_ids,
            said_of=off.said_of,
            makes=bool(off.new_parts),
            among=among if off.said_of in (None, subassembly_id) else None,
        )


def retold(
    store: Store, machine_id: int, subassembly_id: int | None, line: str, kind: WayKind, part_id: int
) -> str:
    """A line whose words were taken for a part, with that part named outright or as a new one. Raises BadEntry."""
    for one in read_line(store, machine_id, subassembly_id, line).taken_for:
        if one.part_id == part_id:
            at = line.casefold().index(one.words.casefold())
            that = one.words if one.outright else one.title
            instead = that if kind is WayKind.THAT_PART else f"{NEW}{one.words}"
            return line[:at] + instead + line[at + len(one.words) :]
    return line


def _refuse_unsure(off: Off, *, sure: bool) -> None:
    """Ask about words that begin a name and, unless that was answered, about a part of another subassembly."""
    for one in off.taken_for:
        if one.elsewhere and not sure:
            raise Refused(
                f"{one.title} is a part of {one.elsewhere}, which is not the one in hand.",
                way_out="Say which; “in” and a subassembly’s name in the line says it beforehand.",
                ways=(
                    Way(WayKind.THAT_PART, f"It is that one: into the log of {one.elsewhere}", one.part_id),
                    _new_part(one),
                ),
            )
        if one.begins:
            raise Refused(
                f"“{one.words}” begins the name of {one.title}, and may be a part of its own.",
                way_out="Say which.",
                ways=(Way(WayKind.THAT_PART, f"It is {one.title}", one.part_id), _new_part(one)),
            )


def _new_part(one: TakenFor) -> Way:
    return Way(WayKind.NEW_PART, f"A different one: make the part “{one.words}”", one.part_id)


def _refuse_odd(off: Off) -> None:
    odd = wrong_end(off.how, off.from_end, off.typed.get("orientation", ""))
    if odd:
        raise EnterOnceMore(
            f"is {odd}; a taper pin comes out towards its wide end, struck at the narrow one.",
            where="From which end",
            value=off.from_end,
            way_out="Say the end it was struck at, or Enter once more if it was so.",
        )
    if is_lost(off.how, off.typed.get("broke", "")) and (
        off.place_id is not None or off.new_place is not None
    ):
        raise EnterOnceMore(
            "A part that is lost or not there lies in no place, and the line puts it in one.",
            way_out="Leave the place out, or Enter once more if it lies there after all.",
        )


def _refuse_new(off: Off) -> None:
    new = [f"the part “{name}”" for name in off.new_parts]
    new += [off.new_place.words] if off.new_place is not None else []
    if new:
        them = "them" if len(new) > 1 else "it"
        raise NotYetThere(
            f"{' and '.join(new)} {'are' if len(new) > 1 else 'is'} not there yet.",
            where="Removal",
            way_out=f"Enter once more makes {them}.",
        )
