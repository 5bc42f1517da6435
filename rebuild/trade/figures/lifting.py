"""Figures of lifting: slings, the centre of mass by weighing and of several pieces; ``GROUP`` is the shop's."""

from __future__ import annotations

from rebuild.errors import Ambiguous, BadEntry, OutOfRange, RebuildError
from rebuild.trade.figures.inputs import MASS, amount, figured, length, maybe_length, number, text, whole
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured
from rebuild.trade.shop.balance_point import MOST_KG, MOST_PIECES, Piece, balance_point
from rebuild.trade.shop.lifting import (
    LB_PER_KG,
    MIDDLE,
    angle_from_spread,
    centre_of_mass_mm,
    kg_and_lb,
    sling,
)
from rebuild.trade.sizes.amount import Amount, read_amount
from rebuild.trade.sizes.own_unit import both, own_unit
from rebuild.trade.sizes.quantity import parse_length
from rebuild.trade.sizes.typed_text import short

GROUP = "Shop arithmetic"
#: Two angles of a sling leg are the same within this: no finer than one is measured (common practice, no source).
SAME_ANGLE_DEG = 0.5
_WAYS = "Type mass @ place of each with ; between, as 300 kg @ 0; 400 lb @ 10 in."


def _sling(entries: Entries) -> Figured:
    angle = _sling_angle(entries) if entries.given("leg") else entries.number("angle")
    rated = entries.amount("rated") if entries.given("rated") else None
    if entries.given("spread") and not entries.given("off"):
        entries.together("leg", "spread")
    off, spread = (entries.mm(name) if entries.given(name) else None for name in ("off", "spread"))
    legs = entries.whole("legs")
    worked = sling(
        entries.amount("load"), legs, angle, leg_rated_kg=rated, off_mm=off or 0.0, spread_mm=spread
    )
    found = worked.value
    answers = [
        Answer("angle from the horizontal", angle, "°", 1),
        *_in_kg_and_lb(
            "the nearer leg carries" if found.share > 0.5 and legs > 1 else "each leg carries", found.leg_kg
        ),
        Answer("factor", found.factor, "", 4),
        Answer("capacity left", found.capacity_part * 100, "%", 1),
    ]
    if found.counted < legs:
        answers.append(Answer("legs counted", f"{found.counted} of {legs}", note="a stiff load hangs on two"))
    if found.counted > 1:
        told = f"{found.share * 100:.1f} % on the nearer leg" if off else "midway between the hooks"
        answers.append(Answer("centre of mass", told, note="" if off else f"taken so. {MIDDLE}"))
    if found.enough is not None:
        answers.append(Answer("leg", "within its rating" if found.enough else "over its rating: do not lift"))
    return figured(worked, tuple(answers))


def _in_kg_and_lb(label: str, kg: float) -> tuple[Answer, ...]:
    """A mass in both units, the one of who asks first."""
    pair = (Answer(label, kg, "kg", 1), Answer(label, kg * LB_PER_KG, "lb", 1))
    return pair[::-1] if own_unit() == "in" else pair


def _sling_angle(entries: Entries) -> float:
    """The angle of a leg's length and the hooks' distance; one typed beside them must be the same."""
    if not entries.given("spread"):
        entries.together("leg", "spread")
    angle = angle_from_spread(entries.mm("leg"), entries.mm("spread"))
    if entries.typed("angle") and abs(entries.number("angle") - angle) > SAME_ANGLE_DEG:
        raise BadEntry(
            f"is not the {angle:.1f}° that the leg and the distance of the hooks give.",
            where="Angle from the horizontal",
            value=entries.text("angle"),
            way_out="Empty the angle, or the leg and the distance.",
        )
    return angle


def _centre(entries: Entries) -> Figured:
    first, second = entries.amount("first"), entries.amount("second")
    worked = centre_of_mass_mm(first, second, entries.mm("between"))
    return figured(
        worked,
        (
            Answer("centre of mass from the first", worked.value, "mm", 1),
            *_in_kg_and_lb("together", first + second),
        ),
    )


def _balance(entries: Entries) -> Figured:
    worked = balance_point(_pieces(entries))
    found = worked.value
    answers = (
        Answer("centre of mass", found.x_mm, "mm", 1, "from the datum"),
        *_in_kg_and_lb("mass", found.mass_kg),
    )
    return figured(worked, answers)


def _pieces(entries: Entries) -> tuple[Piece, ...]:
    typed = [word for word in entries.text("pieces").split(";") if word.strip()]
    if len(typed) > MOST_PIECES:
        raise OutOfRange(
            f"are more than {MOST_PIECES}.", where="Pieces", value=str(len(typed)), way_out=_WAYS
        )
    made, heard, bare = [], [], "lb" if entries.unit == "in" else "kg"
    units = [
        one.unit
        for one in (_mass_of(word, entries.comma) for word in typed)
        if one is not None and not one.bare
    ]
    for word in typed:
        mass, at, place = word.partition("@")
        if not at:
            raise BadEntry("is not mass @ place.", where="Pieces", value=short(word), way_out=_WAYS)
        found = read_amount(mass, "mass", "kg", "Pieces", bare=bare, decimal_comma=entries.comma)
        named = next((unit for unit in units if unit != bare), "")
        if found.bare and named:
            raise _mixed(entries.text("pieces"), word, mass.strip(), named, bare)
        if not 0 < found.value <= MOST_KG:
            raise OutOfRange(
                f"is not above 0 and up to {kg_and_lb(MOST_KG)}.",
                where="Pieces",
                value=found.text,
                way_out=_WAYS,
            )
        where = parse_length(
            place.strip(), unit=entries.unit or "mm", field="Pieces", decimal_comma=entries.comma
        )
        made.append(Piece(found.value, where.mm))
        heard.append(f"{found.text}{f' {bare}' if found.bare else ''} @ {both(where.mm, 1)}")
    entries.hear("pieces", "; ".join(heard))
    return tuple(made)


def _mass_of(word: str, comma: bool | None) -> Amount | None:
    """The mass of one piece, or None where it cannot be read: told when it is its turn."""
    try:
        return read_amount(word.partition("@")[0], "mass", "kg", "Pieces", decimal_comma=comma)
    except RebuildError:
        return None


def _mixed(whole_text: str, word: str, mass: str, named: str, bare: str) -> Ambiguous:
    """The question of one mass without a unit beside one in ``named``."""
    place = word.partition("@")[2].strip()

    def with_unit(unit: str) -> str:
        return whole_text.replace(word.strip(), f"{mass} {unit} @ {place}", 1)

    return Ambiguous(
        f"has no unit, and one beside it is in {named}.",
        where="Pieces",
        value=short(word.strip()),
        readings=tuple((f"{mass} {unit}", with_unit(unit)) for unit in (named, bare)),
    )


FIGURES: tuple[Figure, ...] = (
    Figure(
        "sling",
        "Load in a sling",
        GROUP,
        (
            amount("load", "Load", MASS, above=0, most=1_000_000),
            whole("legs", "Legs", "2"),
            number("angle", "Angle from the horizontal", "60", unit="°"),
            maybe_length(
                "leg", "Length of a leg", note="With the distance of the hooks, in place of the angle."
            ),
            maybe_length("spread", "Distance of the hooks"),
            maybe_length(
                "off", "Centre off the middle", note="From midway between the hooks; see centre-of-mass."
            ),
            amount(
                "rated",
                "One leg is rated",
                MASS,
                required=False,
                above=0,
                most=1_000_000,
                note="Straight up.",
            ),
        ),
        _sling,
        {"load": "410 lb", "angle": "45"},
        "What the worst leg carries; refused below 30°.",
        inch_example={"load": "410", "angle": "45"},
    ),
    Figure(
        "centre-of-mass",
        "Centre of mass",
        GROUP,
        (
            amount("first", "Weighed at the first end", MASS, least=0, most=1_000_000),
            amount("second", "At the second", MASS, least=0, most=1_000_000),
            length("between", "Between the supports"),
        ),
        _centre,
        {"first": "300", "second": "100", "between": "1200"},
        "From two weighings, before the sling goes on.",
        inch_example={"first": "660", "second": "220", "between": "48"},
    ),
    Figure(
        "pieces-centre",
        "Centre of mass of several pieces",
        GROUP,
        (text("pieces", "Pieces", note="Mass @ place along the machine, as 300 kg @ 0; 400 lb @ 10 in."),),
        _balance,
        {"pieces": "185 @ 250; 60 @ 700; 95 @ 1150; 12 @ -80"},
        "Where it hangs level; never a rating.",
        inch_example={"pieces": "400 lb @ 10; 130 lb @ 28; 210 lb @ 45"},
    ),
)
