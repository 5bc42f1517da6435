"""A central oiler as a tree: what a blocked branch starves, and whether the pump gives what the meters ask.

Points hang on the piece that feeds them: pump, line, junction, metering unit, and at the ends the points themselves.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Working
from rebuild.words.lubrication import OilPointKind

#: Kinds that pass oil on; everything else is an end.
PASSES_ON: frozenset[str] = frozenset(
    {
        OilPointKind.PUMP,
        OilPointKind.LINE,
        OilPointKind.JUNCTION,
        OilPointKind.METER,
        OilPointKind.RESERVOIR,
    }
)
PUMP, METER = OilPointKind.PUMP, OilPointKind.METER


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of the tree. Doses and deliveries are mL at each stroke of the pump."""

    id: int
    called: str
    kind: str
    fed_by: int | None = None
    blocked: bool = False
    proved: bool = False
    dose_ml: float | None = None
    delivery_ml: float | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """Something the tree says about one piece, as a sentence."""

    id: int
    text: str


@dataclass(frozen=True, slots=True)
class OilTree:
    """The tree in order with depths; ``starved`` names, for each piece that gets no oil, the piece that blocks it."""

    order: tuple[tuple[int, int], ...]
    starved: Mapping[int, int]
    findings: tuple[Finding, ...]
    working: Working


@door()
def examine(pieces: Sequence[Piece]) -> OilTree:
    """Look through the whole tree.

    >>> line = [Piece(1, "pump", PUMP), Piece(2, "line to the saddle", "line", 1, blocked=True),
    ...         Piece(3, "point 14", "ball oiler", 2)]
    >>> found = examine(line)
    >>> found.starved, found.findings[0].text
    ({3: 2}, 'line to the saddle is blocked: point 14 starves.')
    """
    by_id = {piece.id: piece for piece in pieces}
    fed: dict[int, list[int]] = {piece.id: [] for piece in pieces}
    roots: list[int] = []
    for piece in pieces:
        if piece.fed_by in by_id and piece.fed_by is not None:
            fed[piece.fed_by].append(piece.id)
        else:
            roots.append(piece.id)
    order = _walk(roots, fed)
    ringed = [piece.id for piece in pieces if piece.id not in {key for key, _ in order}]
    starved = _starved(order, by_id)
    sheet = Sheet("The oil lines")
    findings = [
        *_rings(ringed, by_id),
        *_blocked(pieces, starved, by_id),
        *_odd(pieces, by_id, starved),
        *_doses(pieces, fed, by_id, sheet),
    ]
    for found in findings:
        sheet.note(found.text)
    return OilTree((*order, *((key, 0) for key in ringed)), starved, tuple(findings), sheet.close())


def _walk(roots: Iterable[int], fed: Mapping[int, list[int]]) -> list[tuple[int, int]]:
    found: list[tuple[int, int]] = []
    waiting = [(root, 0) for root in reversed(list(roots))]
    while waiting:
        key, depth = waiting.pop()
        found.append((key, depth))
        waiting += [(child, depth + 1) for child in reversed(fed[key])]
    return found


def _starved(order: Sequence[tuple[int, int]], by_id: Mapping[int, Piece]) -> dict[int, int]:
    """Each piece behind a blocked one, with the blocked piece nearest to the pump."""
    found: dict[int, int] = {}
    for key, _depth in order:
        above = by_id[key].fed_by
        if above is None or above not in by_id:
            continue
        if above in found:
            found[key] = found[above]
        elif by_id[above].blocked:
            found[key] = above
    return found


def _blocked(
    pieces: Sequence[Piece], starved: Mapping[int, int], by_id: Mapping[int, Piece]
) -> list[Finding]:
    found = []
    for piece in pieces:
        if not piece.blocked or piece.id in starved:
            continue
        behind = [
            by_id[key].called
            for key, blocker in starved.items()
            if blocker == piece.id and by_id[key].kind not in PASSES_ON - {OilPointKind.RESERVOIR}
        ]
        if behind:
            verb = "starve" if len(behind) > 1 else "starves"
            found.append(Finding(piece.id, f"{piece.called} is blocked: {_listed(behind)} {verb}."))
        else:
            found.append(Finding(piece.id, f"{piece.called} is blocked."))
    return found


def _rings(ringed: Sequence[int], by_id: Mapping[int, Piece]) -> list[Finding]:
    if not ringed:
        return []
    names = _listed([by_id[key].called for key in ringed])
    return [
        Finding(ringed[0], f"{names} feed each other in a ring: one of them must be fed by something else.")
    ]


def _odd(pieces: Sequence[Piece], by_id: Mapping[int, Piece], starved: Mapping[int, int]) -> list[Finding]:
    found = []
    for piece in pieces:
        above = by_id.get(piece.fed_by) if piece.fed_by is not None else None
        if above is not None and above.kind not in PASSES_ON:
            found.append(
                Finding(
                    piece.id,
                    f"{piece.called} is fed by {above.called}, a {above.kind}, which passes nothing on.",
                )
            )
        if piece.proved and piece.id in starved:
            blocker = by_id[starved[piece.id]].called
            found.append(
                Finding(
                    piece.id,
                    f"{piece.called} is marked as proved, but {blocker} before it is blocked: look again.",
                )
            )
    return found


def _doses(
    pieces: Sequence[Piece], fed: Mapping[int, list[int]], by_id: Mapping[int, Piece], sheet: Sheet
) -> list[Finding]:
    found = []
    for pump in pieces:
        if pump.kind != PUMP:
            continue
        meters = [by_id[key] for key in _below(pump.id, fed) if by_id[key].kind == METER]
        if not meters:
            continue
        unknown = [meter.called for meter in meters if meter.dose_ml is None]
        if unknown:
            found.append(
                Finding(pump.id, f"The dose of {_listed(unknown)} is not known: the sum cannot be checked.")
            )
            continue
        asked = sum(meter.dose_ml or 0.0 for meter in meters)
        sheet.equation(
            f"doses behind {pump.called}", f"{' + '.join(f'{m.dose_ml:g}' for m in meters)} = {asked:g} mL"
        )
        if pump.delivery_ml is None:
            found.append(
                Finding(
                    pump.id,
                    f"{len(meters)} meters ask {asked:g} mL a stroke; what {pump.called} delivers is not known.",
                )
            )
        elif pump.delivery_ml < asked:
            short = asked - pump.delivery_ml
            given = f"{pump.called} delivers {pump.delivery_ml:g} mL a stroke, its meters ask {asked:g} mL"
            found.append(Finding(pump.id, f"{given}: {short:g} mL short, the last ones starve."))
        else:
            sheet.note(
                f"{pump.called} delivers {pump.delivery_ml:g} mL a stroke, its meters ask {asked:g} mL."
            )
    return found


def _below(start: int, fed: Mapping[int, list[int]]) -> list[int]:
    found: list[int] = []
    waiting = list(fed[start])
    while waiting:
        key = waiting.pop(0)
        if key not in found:
            found.append(key)
            waiting += fed[key]
    return found


def _listed(names: Sequence[str]) -> str:
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"
