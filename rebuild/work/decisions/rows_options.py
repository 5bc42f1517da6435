"""The options of a part, and two of them compared: fits, cost, days, and what they unblock."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.errors import BadEntry, NotThere, OutOfRange
from rebuild.model.tables.decisions import DecisionOptions
from rebuild.model.tables.parts import Parts
from rebuild.trade.limits.inward import limit_numbers
from rebuild.trade.limits.judgement import Rule, Verdict
from rebuild.trade.schedule.graph import WorkGraph
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.words.decisions import Decision
from rebuild.work.fits import rows as fits
from rebuild.work.fits.rows import FitRow
from rebuild.work.fits.rows_follower import limits_in
from rebuild.work.fits.rows_sides import SideRow
from rebuild.work.plan import rows_graph
from rebuild.work.plan.laying import MAKE_STEPS
from rebuild.work.plan.rows_graph import work_graph

#: The tables the lookups here ask.
READS = rows_graph.READS | {"decision_option"}

MAKING = (Decision.REMAKE, Decision.REWORK, Decision.BUY)


@dataclass(frozen=True, slots=True)
class OptionRow:
    """One way a part could go."""

    id: int
    part_id: int
    decision: Decision
    method: str
    cost: float | None
    work_min: float | None
    wait_days: float | None
    reversible: bool
    note: str

    @property
    def title(self) -> str:
        """``remake: new bush``."""
        return f"{self.decision.value}: {self.method}" if self.method else self.decision.value


@dataclass(frozen=True, slots=True)
class CompareRow:
    """One line of a comparison; ``better`` is ``a``, ``b`` or empty."""

    label: str
    a: str
    b: str
    better: str = ""


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two options side by side."""

    a: OptionRow
    b: OptionRow
    rows: tuple[CompareRow, ...]


_COLUMNS = (
    DecisionOptions.id, DecisionOptions.part_id, DecisionOptions.decision, DecisionOptions.method, DecisionOptions.cost,
    DecisionOptions.work_min, DecisionOptions.wait_days, DecisionOptions.reversible, DecisionOptions.note,
)  # fmt: skip


def options(connection: Connection, part_id: int) -> list[OptionRow]:
    """The options of a part, in order."""
    query = select(*_COLUMNS).where(DecisionOptions.part_id == part_id)
    ordered = query.order_by(DecisionOptions.position, DecisionOptions.id)
    return [OptionRow(*row) for row in connection.execute(ordered)]


def option(connection: Connection, option_id: int) -> OptionRow:
    """One option. Raises NotThere."""
    row = connection.execute(select(*_COLUMNS).where(DecisionOptions.id == option_id)).first()
    if row is None:
        raise NotThere("This option is no longer there.", way_out="It may have been removed.")
    return OptionRow(*row)


def compare(connection: Connection, a_id: int, b_id: int, rule: Rule = Rule.CONFORMANCE_95) -> Comparison:
    """What two options of one part would do to its fits, to purse and calendar, and what they free.

    Raises:
        BadEntry: options of two parts, or the same one twice.
        NotThere: an option was removed.
    """
    a, b = option(connection, a_id), option(connection, b_id)
    if a.part_id != b.part_id or a.id == b.id:
        raise BadEntry(
            "cannot be compared.", where="Options", way_out="Choose two different options of one part."
        )
    in_fits = fits.rows(connection, fits.of_parts(connection, [a.part_id]), rule)
    rows = [CompareRow(row.title, _effect(row, a), _effect(row, b)) for row in in_fits]
    rows.append(_counted("Fits in order", _in_order(in_fits, a), _in_order(in_fits, b), len(in_fits)))
    rows += [
        _less("Cost", a.cost, b.cost, lambda cost: f"{cost:.2f}"),
        _less("Work", a.work_min, b.work_min, show_minutes),
        _less("Waiting", a.wait_days, b.wait_days, lambda days: f"{days:g} days"),
        CompareRow(
            "Can be taken back", _yes(a.reversible), _yes(b.reversible), _either(a.reversible, b.reversible)
        ),
    ]
    freed = _freed(connection, a.part_id)
    rows.append(CompareRow("Unblocks now", _frees(a, freed), _frees(b, freed), ""))
    return Comparison(a, b, tuple(rows))


def _effect(row: FitRow, chosen: OptionRow) -> str:
    """What becomes of a fit when its part goes this way."""
    side = row.side_on(chosen.part_id)
    assert side is not None
    mate = row.inner if side is row.outer else row.outer
    follows = row.follower_side is not None and row.follower_side.part_id == chosen.part_id
    if chosen.decision not in MAKING:
        if row.master is not None and not follows and _still_to_make(mate):
            return _made_to_suit(row)
        return f"stays: {row.sentence}"
    if row.master is None:
        return "not known before the master is chosen"
    if follows:
        return _made_to_suit(row)
    if _still_to_make(mate):
        return f"{mate.title} is still to be made: it follows the new one"
    return f"{mate.title} must be looked at again: it was decided “{mate.decision.value}” for the old one"


def _still_to_make(side: SideRow) -> bool:
    return side.decision in MAKING and side.wait is not None


def _fits_a_size(row: FitRow) -> bool:
    """Whether a follower can be made to the master as it is."""
    try:
        limits_in(row)
    except (BadEntry, OutOfRange):
        return False
    return True


def _made_to_suit(row: FitRow) -> str:
    try:
        limits = limits_in(row).value
    except (BadEntry, OutOfRange) as trouble:
        return str(trouble)
    ends = [end or "open" for end in limit_numbers(limits.low_mm, limits.high_mm, row.unit)]
    text = f"{limits.feature} made {ends[0]} to {ends[1]} {row.unit} to suit {limits.master}"
    return text if limits.final else f"{text}; not final: {limits.waits[0].sentence}"


def _in_order(in_fits: list[FitRow], chosen: OptionRow) -> int:
    """How many fits are within their range if the part goes this way, and what is still to be made is made to suit."""
    return sum(_comes_right(row, chosen) for row in in_fits)


def _comes_right(row: FitRow, chosen: OptionRow) -> bool:
    follower = row.follower_side
    follows = follower is not None and follower.part_id == chosen.part_id
    if chosen.decision in MAKING:
        return follower is not None and (_fits_a_size(row) if follows else _still_to_make(follower))
    if follower is not None and not follows and _still_to_make(follower):
        return _fits_a_size(row)
    return row.now is not None and row.now.verdict is Verdict.CONFORMS


def _freed(connection: Connection, part_id: int) -> tuple[str, ...]:
    """What could be begun at once when the making of the part is behind."""
    machine_id = connection.execute(select(Parts.machine_id).where(Parts.id == part_id)).scalar_one()
    graph = work_graph(connection, machine_id).graph
    making = graph.of_part(part_id)
    own = [node.key for node in making.own] if making is not None else _typed_making(graph, part_id)
    return tuple(node.title for node in graph.freed_by(own))


def _typed_making(graph: WorkGraph, part_id: int) -> list[int]:
    """The open making steps of a part nobody has decided on yet."""
    return [
        node.key
        for node in graph.nodes
        if node.part_id == part_id and node.open and not node.derived and node.kind in MAKE_STEPS
    ]


def _frees(chosen: OptionRow, freed: tuple[str, ...]) -> str:
    if not freed:
        return "nothing waits for it"
    listed = "; ".join(freed[:3]) + (f" and {len(freed) - 3} more" if len(freed) > 3 else "")
    if chosen.decision not in MAKING:
        return f"at once: {listed}" if chosen.decision is not Decision.DEFER else f"not yet: {listed}"
    when = [
        f"{chosen.wait_days:g} days" if chosen.wait_days else "",
        show_minutes(chosen.work_min) if chosen.work_min else "",
    ]
    after = " and ".join(part for part in when if part)
    return f"after {after}: {listed}" if after else f"when made: {listed}"


def _counted(label: str, a: int, b: int, of: int) -> CompareRow:
    return CompareRow(label, f"{a} of {of}", f"{b} of {of}", "a" if a > b else "b" if b > a else "")


def _less(label: str, a: float | None, b: float | None, show: object) -> CompareRow:
    assert callable(show)
    texts = ["not said" if value is None else str(show(value)) for value in (a, b)]
    better = "" if a is None or b is None or a == b else "a" if a < b else "b"
    return CompareRow(label, texts[0], texts[1], better)


def _yes(answer: bool) -> str:
    return "yes" if answer else "no"


def _either(a: bool, b: bool) -> str:
    return "" if a == b else "a" if a else "b"
