"""Figures of limits and fits: one class, a fit, an inch fit, the search, and fit to a measured mate."""

from __future__ import annotations

from rebuild.errors import BadEntry
from rebuild.trade.fits import b4_1
from rebuild.trade.fits.named import SYSTEMS, Match, find_fits, named_fit, preferred_fits
from rebuild.trade.fits.to_mate import Follower, class_to_mate, fit_to_mate
from rebuild.trade.limits import iso286
from rebuild.trade.limits.sizes import Fit, Role, SizeLimits
from rebuild.trade.limits.spec_of_class import refuse_bare_inches
from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine, Zone
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.results.working import Worked
from rebuild.trade.sizes.quantity import is_bare

GROUP = "Limits and fits"
PRESS = "Interference: work out pressure and stress before pressing; keep hands clear of a press or hot part."


def _size_and_class(entries: Entries, name: str, where: str) -> iso286.Typed:
    """What is typed in an entry; a bare size is asked about where sizes go by inches, as the spec of a feature is."""
    text = entries.text(name)
    typed = iso286.parse_typed(text, field=where)
    if typed.size is not None and is_bare(typed.size.text) and entries.typed(name):
        classes = "/".join(str(one) for one in (typed.hole, typed.shaft) if one is not None)
        refuse_bare_inches(typed.size.text, classes, entries.unit, where, text)
    return typed


def _limits(entries: Entries) -> Figured:
    typed = _size_and_class(entries, "size", "Size and class")
    named = typed.hole or typed.shaft
    if typed.size is None or named is None or (typed.hole and typed.shaft):
        raise BadEntry(
            "needs a size and one class.",
            where="Size and class",
            value=entries.text("size"),
            way_out="Type it as 25 H7 or 1-1/4 in g6; two classes are the figure “fit”.",
        )
    whole = entries.choice("js") == "rounded down"
    entries.echo("size", typed.size)
    worked = iso286.limits(typed.size.mm, named, whole_js=whole)
    size = worked.value
    answers = (
        Answer("low limit", size.low_mm, "mm", 4),
        Answer("high limit", size.high_mm, "mm", 4),
        Answer("lower deviation", round(size.lower_mm * 1000, 6), "µm", 1),
        Answer("upper deviation", round(size.upper_mm * 1000, 6), "µm", 1),
        Answer("tolerance", round(size.tolerance_mm * 1000, 6), "µm", 1),
    )
    return Figured(answers, worked.working, (_spec(size, "ISO 286-2:2010"),), (_zone(size),))


def _fit(entries: Entries) -> Figured:
    typed = _size_and_class(entries, "fit", "Size and fit")
    if typed.size is None or typed.hole is None or typed.shaft is None:
        raise BadEntry(
            "needs a size, a hole and a shaft.",
            where="Size and fit",
            value=entries.text("fit"),
            way_out="Type it as 25 H7/g6.",
        )
    whole = entries.choice("js") == "rounded down"
    entries.echo("fit", typed.size)
    worked = iso286.iso_fit(typed.size.mm, str(typed.hole), str(typed.shaft), whole_js=whole)
    use = {item.name: item.use for item in preferred_fits()}.get(worked.value.name, "")
    return _fit_figured(worked, "ISO 286-2:2010", f"preferred fit: {use}" if use else "")


def _inch_fit(entries: Entries) -> Figured:
    worked = b4_1.inch_fit(entries.mm("size"), entries.text("class"))
    return _fit_figured(worked, "ANSI B4.1-1967", b4_1.use_of(worked.value.name))


def _fit_figured(worked: Worked[Fit], standard: str, use: str) -> Figured:
    fit = worked.value
    answers = (
        Answer("kind of fit", fit.kind.value, note=use),
        Answer("hole low limit", fit.hole.low_mm, "mm", 4),
        Answer("hole high limit", fit.hole.high_mm, "mm", 4),
        Answer("shaft low limit", fit.shaft.low_mm, "mm", 4),
        Answer("shaft high limit", fit.shaft.high_mm, "mm", 4),
        Answer("smallest clearance", fit.min_clearance_mm, "mm", 4, "negative is interference"),
        Answer("largest clearance", fit.max_clearance_mm, "mm", 4),
    )
    specs = (_spec(fit.hole, standard), _spec(fit.shaft, standard))
    cautions = (PRESS,) if fit.min_clearance_mm < 0 else ()
    return Figured(answers, worked.working, specs, (_zone(fit.hole), _zone(fit.shaft)), cautions)


def _find(entries: Entries) -> Figured:
    nominal = entries.mm("size")
    chosen = entries.choice("system")
    systems = SYSTEMS if chosen == "all" else (chosen,)
    worked = find_fits(
        nominal, entries.mm("min"), entries.mm("max"), systems=systems, count=entries.whole("count")
    )
    answers = tuple(
        Answer(match.name, _range_text(match), note=f"{match.system}{', ' + match.use if match.use else ''}")
        for match in worked.value
    )
    best = named_fit(nominal, worked.value[0].name).value
    standard = "ANSI B4.1-1967" if worked.value[0].system == "inch" else "ISO 286-2:2010"
    specs = (_spec(best.hole, standard), _spec(best.shaft, standard))
    return Figured(answers, worked.working, specs, (_zone(best.hole), _zone(best.shaft)))


def _range_text(match: Match) -> str:
    place = "inside" if match.inside else f"{match.outside_mm:.4f} mm outside"
    return f"{match.min_clearance_mm:+.4f} to {match.max_clearance_mm:+.4f} mm, {place}"


def _to_mate(entries: Entries) -> Figured:
    mate = Role(entries.choice("mate"))
    actual, doubt = entries.mm("actual"), entries.mm("uncertainty")
    entries.together("min", "max")
    if entries.given("fit"):
        if not entries.given("nominal"):
            raise BadEntry(
                "is needed with a standard fit.",
                where="Nominal size",
                way_out="Type the size the fit is looked up at, as 25.",
            )
        worked = class_to_mate(
            mate, actual, entries.text("fit"), nominal_mm=entries.mm("nominal"), mate_U_mm=doubt
        )
    elif entries.together("min", "max"):
        worked = fit_to_mate(mate, actual, entries.mm("min"), entries.mm("max"), mate_U_mm=doubt)
    else:
        raise BadEntry(
            "is not filled in.", where="Fit", way_out="Type a fit such as H7/g6, or a clearance range."
        )
    return _mate_figured(worked, mate, actual)


def _mate_figured(worked: Worked[Follower], mate: Role, actual_mm: float) -> Figured:
    made = worked.value
    answers = (
        Answer(f"{made.role.value} low limit", made.low_mm, "mm", 4),
        Answer(f"{made.role.value} high limit", made.high_mm, "mm", 4),
        Answer("aim at", made.aim_mm, "mm", 4),
        Answer("smallest clearance", made.min_clearance_mm, "mm", 4, "negative is interference"),
        Answer("largest clearance", made.max_clearance_mm, "mm", 4),
    )
    label = f"{made.role.value} to a measured {mate.value} of {actual_mm:.4f} mm"
    spec = SpecLine(label, made.aim_mm, made.low_mm, made.high_mm, "mate")
    zones = (
        Zone(
            made.role.value,
            round(made.low_mm - actual_mm, 9),
            round(made.high_mm - actual_mm, 9),
            made.role.value,
        ),
        Zone(f"measured {mate.value}", 0.0, 0.0, "reading"),
    )
    cautions = (PRESS,) if made.min_clearance_mm < 0 else ()
    return Figured(answers, worked.working, (spec,), zones, cautions)


def _spec(size: SizeLimits, standard: str) -> SpecLine:
    label = f"{size.role.value} {size.nominal_mm:.6g} mm {size.label}"
    return SpecLine(label, size.nominal_mm, size.low_mm, size.high_mm, f"{standard} {size.label}")


def _zone(size: SizeLimits) -> Zone:
    return Zone(size.label, size.lower_mm, size.upper_mm, size.role.value)


_JS = Input("js", "js and JS", InputKind.CHOICE, "exact", choices=("exact", "rounded down"),
            help="±IT/2 of js7 to js11 may be rounded down to whole µm.")  # fmt: skip
_SIZE = Input("size", "Nominal size", InputKind.LENGTH, unit="mm", help="As 25 or 1 in.")
_MIN = Input(
    "min", "Smallest clearance", InputKind.LENGTH, unit="mm", help="Negative for interference.", signed=True
)
_MAX = Input(
    "max", "Largest clearance", InputKind.LENGTH, unit="mm", help="Negative for interference.", signed=True
)

FIGURES: tuple[Figure, ...] = (
    Figure(
        "fit", "Fit of a hole and a shaft (ISO 286)", GROUP,
        (Input("fit", "Size and fit", InputKind.TEXT, unit="mm",
               help="As 25 H7/g6 or 1 in H7/g6; a bare size is mm, and asked about on an inch machine."), _JS),
        _fit, {"fit": "25 H7/g6"}, "Limits of both parts, clearance or interference, kind of fit.",
    ),
    Figure(
        "limits", "Limits of one part (ISO 286)", GROUP,
        (Input("size", "Size and class", InputKind.TEXT, unit="mm",
               help="As 25 H7 or 1-1/4 in g6; a bare size is mm, and asked about on an inch machine."), _JS),
        _limits, {"size": "25 H7"}, "Limits of a hole (capitals) or a shaft (small letters) to 500 mm.",
    ),
    Figure(
        "inch-fit", "Inch fit (ANSI B4.1)", GROUP,
        (Input("size", "Nominal size", InputKind.LENGTH, unit="in", help="As 1 or 25.4 mm."),
         Input("class", "Class", InputKind.TEXT, help="RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5.")),
        _inch_fit, {"size": "1", "class": "RC4"}, "Running, locational and force fits on the hole basis.",
    ),
    Figure(
        "find-fit", "Standard fits near a wanted clearance", GROUP,
        (_SIZE, _MIN, _MAX,
         Input("system", "System", InputKind.CHOICE, "all", choices=("all", *SYSTEMS)),
         Input("count", "How many", InputKind.WHOLE, "8")),
        _find, {"size": "25", "min": "0.02", "max": "0.06"}, "The reverse: a clearance range in, fits out.",
    ),
    Figure(
        "fit-to-mate", "Fit to a measured mate", GROUP,
        (Input("mate", "Measured part", InputKind.CHOICE, "hole", choices=("hole", "shaft")),
         Input("actual", "Its size as measured", InputKind.LENGTH, unit="mm"),
         Input("fit", "Wanted fit", InputKind.TEXT, required=False, help="As H7/g6 or RC4; or a range below."),
         Input("nominal", "Nominal size", InputKind.LENGTH, unit="mm", required=False,
               help="Where the wanted fit is looked up."),
         Input("min", "Smallest clearance", InputKind.LENGTH, unit="mm", required=False,
               help="Negative for interference.", signed=True),
         Input("max", "Largest clearance", InputKind.LENGTH, unit="mm", required=False, signed=True),
         Input("uncertainty", "Mate known to ±", InputKind.LENGTH, "0", unit="mm",
               help="The limits are shrunk by this at both ends.")),
        _to_mate, {"mate": "hole", "actual": "25.013", "fit": "H7/g6", "nominal": "25", "uncertainty": "0.004"},
        "Limits of the part to be made, from the part that stays.",
    ),
)  # fmt: skip
