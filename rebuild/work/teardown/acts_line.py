"""One line of the log, said at the bench: read against what is there, and stored."""

from __future__ import annotations

from dataclasses import replace
from difflib import get_close_matches

from rebuild.errors import BadEntry
from rebuild.store.store import Store
from rebuild.trade.teardown.at_odds import is_lost, wrong_end
from rebuild.trade.teardown.meant import (
    Named,
    NotAmong,
    begins_name,
    looks_like_a_code,
    meant,
    named_outright,
)
from rebuild.trade.teardown.removal_words import SaidRemoval, parse_removal
from rebuild.words.teardown import RemovalWay
from rebuild.work.records.ways_out import Refused, Way, WayKind
from rebuild.work.teardown.acts import log_removal
from rebuild.work.teardown.off import Again, EnterOnceMore, NewPlace, NotYetThere, Off, TakenFor, place_said
from rebuild.work.teardown.rows_candidates import Candidates, bench_places, candidates, machine_unit

#: Said before a name, it makes a new part although others could be meant.
NEW = "new "


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
    if again is None:
        _refuse_unsure(off)
    if not make:
        _refuse_odd(off)
        _refuse_new(off)
    try:
        return log_removal(store, machine_id, subassembly_id, off, again=again, why=why)
    except Refused as trouble:
        trouble.ways += tuple(_new_part(one) for one in off.taken_for[:1])
        raise


def retold(
    store: Store, machine_id: int, subassembly_id: int | None, line: str, kind: WayKind, part_id: int
) -> str:
    """A line whose words were taken for a part, with that part named outright or as a new one. Raises BadEntry."""
    for one in read_line(store, machine_id, subassembly_id, line).taken_for:
        if one.part_id == part_id:
            at = line.casefold().index(one.words.casefold())
            instead = one.title if kind is WayKind.THAT_PART else f"{NEW}{one.words}"
            return line[:at] + instead + line[at + len(one.words) :]
    return line


def _refuse_unsure(off: Off) -> None:
    for one in off.taken_for:
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
            "is said of a part that is lost or not there.",
            where="Stored in",
            value=off.new_place.words if off.new_place is not None else "",
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


def read_line(
    store: Store, machine_id: int, subassembly_id: int | None, line: str, *, next_part: int | None = None
) -> Off:
    """What a line of the log would store; used to read it back before Enter. Raises BadEntry."""
    with store.read() as connection:
        among = candidates(connection, machine_id, subassembly_id)
        places = bench_places(connection)
        unit = machine_unit(connection, machine_id)
    every = [Named(one.part_id, one.code, one.name) for one in among.every]
    near = [Named(one.part_id, one.code, one.name) for one in among.near]
    known = tuple(words for one in every for words in (one.code, one.name, one.title))
    said = parse_removal(line, unit, known)
    found = [(words, _part_said(words, near, every)) for words in said.parts]
    part_ids = tuple(one.key for _words, one in found if not isinstance(one, str))
    new_parts = tuple(one for _words, one in found if isinstance(one, str))
    taken_for = tuple(
        TakenFor(words, one.key, one.title, begins_name(words, one))
        for words, one in found
        if not isinstance(one, str) and not named_outright(words, one)
    )
    if not said.parts:
        part_ids = (_next(among, next_part),)
    try:
        place, new_place = (meant(said.place, places, where="Stored in").key if said.place else None), None
    except NotAmong:
        place, new_place = None, place_said(said.place)
    return replace(_off(said, part_ids, place, new_parts, new_place), taken_for=taken_for)


def _next(among: Candidates, next_part: int | None) -> int:
    if next_part is not None:
        return next_part
    if among.still_on:
        return among.still_on[0].part_id
    raise BadEntry(
        "is not named, and nothing is left in the tree here.", where="Part", way_out="Type its code."
    )


def _part_said(words: str, near: list[Named[int]], every: list[Named[int]]) -> Named[int] | str:
    """The part a few words mean (one of this subassembly before one of elsewhere), or the name of a new one.

    Raises:
        BadEntry: several could be meant, or a code that nothing has.
    """
    try:
        return meant(words, near, every)
    except NotAmong:
        name = (words[len(NEW) :] if words.lower().startswith(NEW) else words).strip(" ,;")
        if looks_like_a_code(words):
            raise
        return name
    except BadEntry as several:
        raise BadEntry(
            several.what,
            where=several.where,
            value=several.value,
            way_out="Type more of it; “new” before it makes a part of that name.",
        ) from several


def likely_meant(store: Store, machine_id: int, off: Off) -> str:
    """A part there already whose name is nearly that of a new one; empty when there is none."""
    if not off.new_parts:
        return ""
    with store.read() as connection:
        every = candidates(connection, machine_id, None).every
    titles = {one.name.casefold(): f"{one.code} {one.name}".strip() for one in every}
    close = get_close_matches(off.new_parts[0].casefold(), list(titles), 1, 0.75)
    return titles[close[0]] if close else ""


def _off(
    said: SaidRemoval,
    part_ids: tuple[int, ...],
    place_id: int | None,
    new_parts: tuple[str, ...],
    new_place: NewPlace | None,
) -> Off:
    return Off(
        part_ids,
        RemovalWay(said.how),
        said.from_end,
        "",
        said.fasteners,
        said.shims,
        place_id,
        None,
        dict(said.typed),
        new_parts,
        new_place,
    )
