"""Centre of mass of several pieces by their masses and places: moments over the sum, before a sling goes on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both
from rebuild.trade.sizes.show import show_both

RULE = Source("Statics", "Σ m x / Σ m", Status.COMPUTED)
MOST_PIECES, MOST_KG, MOST_MM = 50, 1e6, 1e6


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece: its mass [kg] and where its own centre lies [mm from the datum]."""

    mass_kg: float
    x_mm: float


@dataclass(frozen=True, slots=True)
class Balance:
    """All pieces together: mass [kg] and place of the centre [mm]."""

    mass_kg: float
    x_mm: float


@door()
def balance_point(pieces: Sequence[Piece]) -> Worked[Balance]:
    """Where several pieces hung as one balance, along one direction.

    Raises:
        BadEntry: no piece, or a mass not above zero.
        OutOfRange: more than 50 pieces, 1000 t or 1 km.

    >>> balance_point((Piece(300.0, 0.0), Piece(100.0, 1200.0))).value.x_mm
    300.0
    """
    if not pieces:
        raise BadEntry(
            "are not given.", where="Pieces", way_out="Type mass @ place of each, as 300 @ 0; 100 @ 1200."
        )
    if len(pieces) > MOST_PIECES:
        raise OutOfRange(f"are more than {MOST_PIECES}.", where="Pieces", value=str(len(pieces)))
    for piece in pieces:
        if not piece.mass_kg > 0:
            raise BadEntry(
                "is not above zero.", where="Pieces", value=f"{piece.mass_kg:g} kg", way_out="Leave it out."
            )
        if piece.mass_kg > MOST_KG or abs(piece.x_mm) > MOST_MM:
            raise OutOfRange(
                "is beyond any machine.", where="Pieces", value=f"{piece.mass_kg:g} @ {piece.x_mm:g}"
            )
    mass = sum(piece.mass_kg for piece in pieces)
    x = sum(piece.mass_kg * piece.x_mm for piece in pieces) / mass
    sheet = Sheet("Centre of mass of several pieces")
    for piece in pieces:
        sheet.read("piece", f"{piece.mass_kg:g} kg at {both(piece.x_mm, 1)}")
    sheet.equation("centre", f"Σ m x / Σ m = {show_both(x, 'mm', 1)} from the datum", RULE)
    sheet.result("mass", f"{mass:.5g} kg")
    sheet.note(
        "No rating is worked out here: a hook, eye or sling is loaded by its tag and its angle (see sling)."
    )
    attach(sheet, "slings", "lifting")
    return Worked(Balance(mass, x), sheet.close())
