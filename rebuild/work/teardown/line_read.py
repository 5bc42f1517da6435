"""One line of the log, read against the parts, places and subassemblies that are there; nothing is written."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches

from rebuild.errors import BadEntry
from rebuild.store.store import Store
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
from rebuild.work.teardown.off import NewPlace, Off, TakenFor, place_said
from rebuild.work.teardown.rows_candidates import (
    Candidate,
    Candidates,
    bench_places,
    candidates,
    machine_unit,
)

#: Said before a name, it makes a new part although others could be meant.
NEW = "new "


def read_line(
    store: Store,
    machine_id: int,
    subassembly_id: int | None,
    line: str,
    *,
    next_part: int | None = None,
    among: Candidates | None = None,
) -> Off:
    """What a line of the log would store; used to read it back before Enter. Raises BadEntry.

    ``among`` is what could come off, where the caller has read it and nothing was written since: a line is read
    back at every key.
    """
    with store.read() as connection:
        places = bench_places(connection)
        unit = machine_unit(connection, machine_id)
        among = among or candidates(connection, machine_id, subassembly_id)
    lying = {place.name.casefold() for place in places}
    called = {
        words: row.id
        for row in among.groups
        for words in (row.code, row.name, f"{row.code} {row.name}".strip())
        if words and words.casefold() not in lying
    }
    known = tuple(words for one in among.every for words in (one.code, one.name, f"{one.code} {one.name}"))
    said = parse_removal(line, unit, known, tuple(called))
    said_of = called[said.group] if said.group else None
    if said_of is not None and said_of != subassembly_id:
        next_part = None
        with store.read() as connection:
            among = candidates(connection, machine_id, said_of)
    found = _found(said.parts, among, anywhere=said_of is None)
    part_ids = tuple(one.key for _words, one in found if not isinstance(one, str))
    new_parts = tuple(one for _words, one in found if isinstance(one, str))
    if not said.parts:
        part_ids = (_next(among, next_part),)
    try:
        place, new_place = (meant(said.place, places, where="Stored in").key if said.place else None), None
    except NotAmong:
        place, new_place = None, place_said(said.place)
    titles = {row.id: f"{row.code} {row.name}".strip() for row in among.groups}
    return replace(
        _off(said, part_ids, place, new_parts, new_place),
        taken_for=_taken_for(found, among, titles),
        said_of=said_of,
    )


def _found(parts: Sequence[str], among: Candidates, *, anywhere: bool) -> list[tuple[str, Named[int] | str]]:
    """What each part's words mean; of a subassembly that the line says, only its own parts are meant."""
    here = {one.part_id for one in among.near}
    on = {one.part_id for one in among.every if one.part_id not in here | among.off}
    on |= {one.part_id for one in among.still_on}
    near = _next_of_like(among.near, on)
    every = _next_of_like(among.every, on) if anywhere else []
    return [(words, _part_said(words, near, every)) for words in parts]


def _next_of_like(among: Sequence[Candidate], on: Collection[int]) -> list[Named[int]]:
    """The parts that can be meant: of those of one subassembly that no word tells apart, the next that is still on."""
    first: dict[tuple[int | None, str], int] = {}
    for one in among:
        if one.beside and one.part_id in on:
            first.setdefault((one.subassembly_id, one.name.casefold()), one.part_id)
    return [
        Named(one.part_id, one.code, one.name, one.beside)
        for one in among
        if not one.beside or first.get((one.subassembly_id, one.name.casefold()), one.part_id) == one.part_id
    ]


def _taken_for(
    found: Sequence[tuple[str, Named[int] | str]], among: Candidates, titles: Mapping[int, str]
) -> tuple[TakenFor, ...]:
    """What may be meant otherwise: parts not named outright, and those of another subassembly named without a code."""
    near = {one.part_id for one in among.near}
    of = {one.part_id: titles.get(one.subassembly_id or 0, "") for one in among.every}
    taken = []
    for words, one in found:
        if isinstance(one, str):
            continue
        outright = named_outright(words, one)
        by_code = outright and words.casefold() != one.name.casefold()
        elsewhere = "" if one.key in near or by_code else of.get(one.key, "")
        if elsewhere or not outright:
            begins = not outright and begins_name(words, one)
            taken.append(TakenFor(words, one.key, one.title, begins, elsewhere, outright))
    return tuple(taken)


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
