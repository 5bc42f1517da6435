"""Coil springs of round wire, compression and extension: rate, force, stress, and a replacement of other wire.

Rate k = G d⁴ / (8 D³ n), D the mean diameter; stress τ = K 8 F D / (π d³) with Wahl's K = (4C - 1)/(4C - 4) + 0.615/C,
C = D/d. A compression spring with closed ends has n = total - 2 active coils and is (total) d long when solid.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.amount import in_amount_unit
from rebuild.trade.sizes.own_unit import both, num, own_unit, said

RULE = Source("Torsion of a coiled wire", "k = G d⁴ / 8 D³ n", Status.COMPUTED)
WAHL = Source("Wahl's factor", "K = (4C - 1)/(4C - 4) + 0.615/C", Status.PUBLISHED)
ENDS = Source("Ends of a compression spring", "closed: two dead coils; open: none", Status.COMMON_PRACTICE)
COMPRESSION, EXTENSION = "compression", "extension"
DEAD = {"closed": 2.0, "open": 0.0}
LBF_PER_IN = 0.1751268352
MOST_INDEX, LEAST_INDEX = 30.0, 2.5


@dataclass(frozen=True, slots=True)
class Coil:
    """What a spring does: rate [N/mm], spring index, force [N] and stress [MPa] when worked, solid length [mm]."""

    rate_N_mm: float
    index: float
    active: float
    force_N: float
    stress_MPa: float
    solid_mm: float


def wires() -> tuple[str, ...]:
    """The wires whose modulus is held.

    >>> wires()[0]
    'carbon steel'
    """
    return tuple(row["wire"] for row in table("spring_wire").rows)


@door()
def coil_spring(
    kind: str, wire_mm: float, outside_mm: float, coils: float, moved_mm: float,
    *, wire: str = "carbon steel", ends: str = "closed", initial_N: float = 0.0, free_mm: float | None = None,
) -> Worked[Coil]:  # fmt: skip
    """A coil spring from its measured sizes.

    Args:
        kind: compression or extension.
        wire_mm: wire diameter.
        outside_mm: outside diameter of the coil.
        coils: all coils of a compression spring, the body's coils of an extension spring.
        moved_mm: how far it is pressed or pulled from free.
        wire: material.
        ends: of a compression spring, closed or open.
        initial_N: pull at which an extension spring's coils part.
        free_mm: free length of a compression spring, to see that it is not pressed solid.

    Raises:
        BadEntry: no such kind, wire or ends, or a size not above zero.
        OutOfRange: no active coil, an index outside 2.5 to 30, or pressed beyond solid.

    >>> round(coil_spring("compression", 2.0, 18.0, 10.0, 10.0).value.rate_N_mm, 3)
    4.84
    """
    _check(kind, ends, (("Wire", wire_mm), ("Outside", outside_mm), ("Coils", coils)))
    if moved_mm < 0 or initial_N < 0:
        raise BadEntry(
            "is below nought.",
            where="Pressed or pulled by" if moved_mm < 0 else "Initial pull",
            value=f"{moved_mm if moved_mm < 0 else initial_N:g}",
        )
    mean = outside_mm - wire_mm
    index = mean / wire_mm
    if not LEAST_INDEX <= index <= MOST_INDEX:
        raise OutOfRange(
            f"gives an index of {index:.3g}; no spring is wound outside {LEAST_INDEX:g} to {MOST_INDEX:g}.",
            where="Outside",
            value=f"{said(outside_mm, 4)} of {said(wire_mm, 4)} wire",
            way_out="Measure the wire with a micrometer and the coil outside.",
        )
    dead = DEAD[ends] if kind == COMPRESSION else 0.0
    active = coils - dead
    if active < 0.5:
        raise OutOfRange(
            f"leave {active:g} active ones.",
            where="Coils",
            value=f"{coils:g}",
            way_out="Count every turn of the wire.",
        )
    G, source = _modulus(wire)
    rate = G * wire_mm**4 / (8 * mean**3 * active)
    force = rate * moved_mm + (initial_N if kind == EXTENSION else 0.0)
    wahl = (4 * index - 1) / (4 * index - 4) + 0.615 / index
    stress = wahl * 8 * force * mean / (pi * wire_mm**3)
    solid = coils * wire_mm if ends == "closed" or kind == EXTENSION else (coils + 1) * wire_mm
    if kind == COMPRESSION and free_mm is not None and moved_mm > free_mm - solid:
        raise OutOfRange(
            f"presses it solid: {said(free_mm, 4)} free less {said(solid, 4)} solid leave {said(free_mm - solid, 4)}.",
            where="Pressed or pulled by",
            value=said(moved_mm, 4),
            way_out="Check the free length and the coils.",
        )
    sheet = Sheet(f"{kind.capitalize()} spring")
    sheet.read("sizes", f"wire {both(wire_mm)}, outside {both(outside_mm)}, {coils:g} coils")
    sheet.table("G", f"{wire}: {G / 1000:g} GPa", source)
    sheet.equation(
        "mean, index",
        f"{num(outside_mm):.5g} - {num(wire_mm):.5g} = {num(mean):.5g} {own_unit()}, C = {index:.3f}",
    )
    sheet.equation("active coils", f"{coils:g} - {dead:g} = {active:g}", ENDS)
    sheet.equation(
        "rate",
        f"{_number(G, 'pressure', 'MPa', 'psi')} × {num(wire_mm):.5g}⁴ / "
        f"(8 × {num(mean):.5g}³ × {active:g}) = "
        f"{_in_own(rate, 'spring rate', 'N/mm', 'lbf/in')}",
        RULE,
    )
    sheet.equation("force", f"{_in_own(force, 'force', 'N', 'lbf')} at {said(moved_mm)}")
    sheet.equation("stress", f"K = {wahl:.4f}: {_in_own(round(stress), 'pressure', 'MPa', 'psi')}", WAHL)
    sheet.note("What stress a wire bears depends on its grade and size: compare it with the old spring's.")
    if kind == COMPRESSION:
        sheet.result("solid", f"{both(solid)} long")
    attach(sheet, "stored-energy")
    return Worked(Coil(rate, index, active, force, stress, solid), sheet.close())


@door()
def coils_for_rate(
    rate_N_mm: float, wire_mm: float, outside_mm: float, *, wire: str = "carbon steel", dead: float = 2.0
) -> Worked[float]:
    """Coils (dead ones included) another wire needs for a rate: n = G d⁴ / (8 D³ k).

    Raises:
        BadEntry: a rate or size not above zero, or no such wire.
        OutOfRange: fewer than 2 active coils, or more than 200.

    >>> round(coils_for_rate(4.8401, 2.0, 18.0).value, 2)
    10.0
    """
    _check(COMPRESSION, "closed", (("Rate", rate_N_mm), ("Wire", wire_mm), ("Outside", outside_mm)))
    mean = outside_mm - wire_mm
    if not LEAST_INDEX <= mean / wire_mm <= MOST_INDEX:
        raise OutOfRange(
            f"gives an index outside {LEAST_INDEX:g} to {MOST_INDEX:g}.",
            where="Outside",
            value=f"{said(outside_mm, 4)} of {said(wire_mm, 4)} wire",
        )
    G, source = _modulus(wire)
    active = G * wire_mm**4 / (8 * mean**3 * rate_N_mm)
    if not 2 <= active <= 200:
        raise OutOfRange(
            f"needs {active:.3g} active coils of this wire.",
            where="Rate",
            value=f"{rate_N_mm:.4g} N/mm",
            way_out="Take thicker or thinner wire.",
        )
    sheet = Sheet("Coils for a rate")
    sheet.table("G", f"{wire}: {G / 1000:g} GPa", source)
    sheet.equation(
        "active",
        f"{_number(G, 'pressure', 'MPa', 'psi')} × {num(wire_mm):.5g}⁴ / "
        f"(8 × {num(mean):.5g}³ × {_number(rate_N_mm, 'spring rate', 'N/mm', 'lbf/in')}) = {active:.2f}",
        RULE,
    )
    sheet.result("coils", f"{active:.2f} + {dead:g} dead")
    return Worked(active + dead, sheet.close())


def _modulus(wire: str) -> tuple[float, Source]:
    found = table("spring_wire")
    for row in found.rows:
        if row["wire"] == wire:
            return float(row["G_GPa"]) * 1000.0, found.row_source(row)
    raise BadEntry("is no wire held.", where="Wire of", value=wire, way_out=f"Held: {', '.join(wires())}.")


def _check(kind: str, ends: str, sizes: tuple[tuple[str, float], ...]) -> None:
    if kind not in (COMPRESSION, EXTENSION):
        raise BadEntry(
            "is no kind of spring.", where="Spring", value=kind, way_out="Choose compression or extension."
        )
    if ends not in DEAD:
        raise BadEntry("is no kind of end.", where="Ends", value=ends, way_out="Choose closed or open.")
    for where, value in sizes:
        if not 1e-3 <= value <= 1e5:
            raise OutOfRange(
                "is outside 0.001 to 100 000.", where=where, value=f"{value:.4g}", way_out="Check the unit."
            )


def _number(value: float, quantity: str, unit: str, inch_unit: str) -> str:
    """A rate or pressure as a number of the asker's system, for an equation."""
    own = in_amount_unit(value, quantity, unit, inch_unit) if own_unit() == "in" else value
    return f"{own:.5g}" if own < 100_000 else f"{round(own, -3):.0f}"


def _in_own(value: float, quantity: str, unit: str, inch_unit: str) -> str:
    """A force, rate or stress in both systems, the asker's first."""
    texts = (f"{value:.4g} {unit}", f"{in_amount_unit(value, quantity, unit, inch_unit):.4g} {inch_unit}")
    first, other = texts[::-1] if own_unit() == "in" else texts
    return f"{first} ({other})"
