"""The words of each section, from what was read."""

from __future__ import annotations

from rebuild.trade.schedule.graph import Ref
from rebuild.trade.waiting.clock import show_when
from rebuild.window.desk.leads import PAGE_OF
from rebuild.window.lists.section import Lead, Line
from rebuild.words.counted import counted
from rebuild.work.gates.rows import GoneOnRow
from rebuild.work.records.field import show_day
from rebuild.work.where_was_i.rows import NextAction, ReEntry
from rebuild.work.where_was_i.rows_away import lies_there

_MOST = 8
#: So many things that stood against an act are named here.
_FEW = 4


def _step(action: NextAction) -> Lead:
    if action.draws_up:
        return Lead("making", part_id=action.part_id)
    if action.orders:
        return Lead("waiting", part_id=action.part_id, ref=action.ref)
    return _row(action.ref.table, action.ref.id, action.part_id, action.subassembly_id)


def _row(table: str, row_id: int, part_id: int | None = None, subassembly_id: int | None = None) -> Lead:
    """A line that leads to the very row it speaks of."""
    return Lead(PAGE_OF.get(table, "bench"), None, part_id, subassembly_id, Ref(table, row_id))


def _part(part_id: int) -> Lead:
    return _row("part", part_id)


def sessions(found: ReEntry) -> list[Line]:
    """The last sessions: what was done, found, left, and meant to come next."""
    lines: list[Line] = []
    for row in found.sessions:
        said = (
            ("Found", row.found),
            ("Left", row.left_on_bench),
            ("Next", row.next_step),
            ("Blocked", row.blocked_by),
        )
        words = [row.did, *(f"{name}: {text}" for name, text in said if text)]
        hours = f", {row.hours:g} h" if row.hours else ""
        lines.append(
            (f"{show_day(row.at)}{hours}", "· " + " · ".join(filter(None, words)), _row("log_entry", row.id))
        )
    return lines


def actions(found: ReEntry) -> list[Line]:
    """The next three actions with place, tools, and what they want."""
    lines: list[Line] = [(found.own_next, "", None)] if found.own_next else []
    if not found.next_actions and found.offered:
        lines.append(
            (
                f"Nothing fits tonight of {counted(found.offered, 'piece')} of work that can be begun",
                "· give it more time",
                Lead("plan"),
            )
        )
    elif not found.next_actions and found.to_decide:
        parts = f"{counted(found.to_decide, 'part')} {'is' if found.to_decide == 1 else 'are'} to be decided"
        lines.append((f"Decide first: {parts}", "· nothing else can be done now", Lead("decide")))
    return lines + [(action.title, _about(action), _step(action)) for action in found.next_actions]


def drives(found: ReEntry) -> list[Line]:
    """When it is finished by the mean durations, and what drives that, as the dates of the plan say it."""
    lines: list[Line] = []
    open_parts = (
        f" without what {counted(found.to_decide, 'part')} not decided will want," if found.to_decide else ""
    )
    if found.finish is not None:
        day = f"{found.finish.day} {found.finish:%B %Y}"
        lines.append(
            (f"Finish: {day}", f"· by the mean durations,{open_parts} more under Plan, Dates", Lead("plan"))
        )
    return lines + [(words, f"· {lasts}", _row(ref.table, ref.id)) for ref, words, lasts in found.drives]


def _about(action: NextAction) -> str:
    words = [
        action.why,
        f"at {action.place}" if action.place else "",
        f"with {action.tools}" if action.tools else "",
        f"part {action.lies_in}" if action.lies_in else "",
        *action.wants,
        *action.note.splitlines(),
    ]
    said = [word for word in words if word]
    return "· " + " · ".join(said) if said else ""


def bench(found: ReEntry) -> list[Line]:
    """What lies out, in what state, subassemblies half put back, and what is off."""
    lines: list[Line] = [(f"“{found.left_on_bench}”", "as last written", None)] if found.left_on_bench else []
    for row in found.bench:
        words = [
            row.place,
            f"since {row.since}" if row.since else "",
            f"decision {row.decision.value}",
            row.condition,
            f"next: {row.next_step}" if row.next_step else "",
        ]
        lines.append((row.part, "· " + " · ".join(filter(None, words)), _part(row.part_id)))
    for attempt in found.half_done:
        words_of = f"· {attempt.removals} off, {attempt.refitted} on again"
        lines.append(
            (
                f"{attempt.of}, attempt {attempt.number}",
                words_of,
                Lead("teardown", subassembly_id=attempt.subassembly_id),
            )
        )
    return lines + _taken_off(found)


def _taken_off(found: ReEntry) -> list[Line]:
    """The parts that are off and lie neither out nor away, the first few by name."""
    lines: list[Line] = [
        (
            row.part,
            f"· off{f', {row.place}' if row.place else ''} · decision {row.decision.value}",
            _part(row.part_id),
        )
        for row in found.off[:_MOST]
    ]
    if len(found.off) > _MOST:
        lines.append((f"and {len(found.off) - _MOST} more off the machine", "", Lead("teardown")))
    return lines


def not_final(found: ReEntry) -> list[Line]:
    """Joints that are not final: those begun first, then those that lie apart."""
    every = (*found.not_final, *found.apart)
    lines: list[Line] = [
        (row.name, f"· {row.lacks or row.state} · {row.location or row.of}", _row("joint", row.id))
        for row in every[:_MOST]
    ]
    if len(every) > _MOST:
        apart = f", {counted(len(found.apart), 'joint')} still apart in all" if found.apart else ""
        lines.append((f"and {len(every) - _MOST} more{apart}", "", Lead("joints")))
    return lines


def clocks(found: ReEntry) -> list[Line]:
    """What lies in baths, and every open clock as it stands."""
    on_a_clock = {row.part_id for row in found.clocks if row.part_id is not None}
    lines: list[Line] = [
        (row.part, f"· {row.words}", _part(row.part_id))
        for row in found.baths
        if row.part_id not in on_a_clock
    ]
    lines += [(row.what or row.about, f"· {row.words}", _row("clock", row.id)) for row in found.clocks]
    return lines


def away(found: ReEntry) -> list[Line]:
    """What lies at a shop or is lent: where, since when, promised when; each to its line in Waiting, or its part."""
    return [
        (
            row.what,
            f"· {row.words}",
            _row("waiting", row.waiting_id) if row.waiting_id is not None else _part(row.part_id or 0),
        )
        for row in found.away
    ]


def orders(found: ReEntry) -> list[Line]:
    """Orders and what else is expected, late first; one that is late says what of mine lies there."""
    gone = {row.waiting_id for row in found.away}
    lines: list[Line] = []
    for row in found.orders:
        if row.id in gone:
            continue
        said = (row.words, row.who, lies_there(row, found.away))
        lines.append((row.what, "· " + " · ".join(filter(None, said)), _row("waiting", row.id)))
    return lines


def questions(found: ReEntry) -> list[Line]:
    """Open questions; those that hold up a step come first."""
    return [(text, "", _row("question", key)) for key, text in found.questions[:_MOST]]


def values(found: ReEntry) -> list[Line]:
    """Values a gauge sent while no row was in hand; the bench puts them on one."""
    return [
        (row.typed, f"· sent {show_when(row.sent_at, found.now)}, seen on {row.seen_on}", Lead("bench"))
        for row in found.values[:_MOST]
    ]


def undecided(found: ReEntry) -> list[Line]:
    """Parts that were measured and not decided, and how many more are not."""
    lines: list[Line] = [
        (name, "· measured, not decided", _part(key)) for key, name in found.undecided[:_MOST]
    ]
    if (more := found.to_decide - len(lines)) > 0:
        lines.append(
            (
                f"{counted(more, 'more part') if lines else counted(more, 'part')} to decide",
                "",
                Lead("decide"),
            )
        )
    return lines


def cautions(found: ReEntry) -> list[Line]:
    """What to read before touching it: what may be turning and what was gone on with, each to its row, come first."""
    lines: list[Line] = [
        (f"Running: {rung.name}", "· begun and not ended", _row("run_step", rung.id))
        for rung in found.running
    ]
    lines += [
        (
            f"Gone on all the same ({gone.gate.value}): {gone.words}",
            f"· {_against(gone)}",
            _row("override", gone.id),
        )
        for gone in found.gone_on
    ]
    return lines + [(words, "", None) for words in found.cautions]


def _against(gone: GoneOnRow) -> str:
    """What stood against it, as far as that is short; a long list is read where the line leads."""
    many = len(gone.covers)
    return (
        gone.against if many <= _FEW else f"{counted(many, 'thing')} stood against it, in full before power"
    )
