"""The uncertainty of one reading: a GUM budget from instrument, repeats and temperature.

Lengths and uncertainties are in mm; ``u`` is a standard and ``U`` an expanded uncertainty. The parts of a
budget are taken as independent. Nothing heavy is imported: the window judges every reading with this.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from rebuild.errors import BadEntry
from rebuild.trade.limits.component import GUM, Component, um_text
from rebuild.trade.limits.reach import Reach
from rebuild.trade.limits.t_factor import student_t
from rebuild.trade.limits.temperature import thermal_parts, to_20C
from rebuild.trade.results.working import Sheet, Source, Status, Worked, Working
from rebuild.trade.sizes.given import maybe_number_of, number_of, numbers_of, record_of, records_of

__all__ = ["Budget", "Component", "InstrumentLimit", "combine", "reading_budget", "student_t", "to_20C"]

TYPE_A = Source(GUM, "4.2.3: mean of n readings, s/√n")
RESOLUTION = Source(GUM, "F.2.2.1: resolution r, r/√12")
SUM = Source(GUM, "5.1.2: independent parts add as squares")
EFFECTIVE = Source(GUM, "G.4.1: Welch-Satterthwaite")
AS_ENTERED = Source("as entered", status=Status.JUDGEMENT)
COVERAGE = Source(GUM, "G.3.2: k = t for the effective degrees of freedom")


@dataclass(frozen=True, slots=True)
class Budget:
    """The parts and their sum: ``u_mm`` combined standard, ``U_mm`` = k·u expanded.

    ``complete`` is False when no error limit of an instrument is known, or it is ``unfit``; then ``u_mm`` is a
    lower bound.
    """

    components: tuple[Component, ...]
    u_mm: float
    dof: float
    k: float
    U_mm: float
    coverage: float = 0.95
    complete: bool = True
    #: Why the reading can hardly have been taken so (it lies outside the instrument's range); empty: nothing.
    unfit: str = ""


@dataclass(frozen=True, slots=True)
class InstrumentLimit:
    """What is known of an instrument [mm]: its step, and either its permissible error or a stated U at k."""

    name: str
    resolution_mm: float
    mpe_mm: float | None = None
    expanded_U_mm: float | None = None
    k: float = 2.0
    source: Source = AS_ENTERED
    reach: Reach | None = None


def reading_budget(
    instrument: InstrumentLimit | None,
    *,
    repeats_mm: Sequence[float] = (),
    temperature_C: float | None = None,
    part_alpha_per_K: float | None = None,
    length_mm: float,
    temperature_known_within_K: float = 1.0,
    alpha_relative_doubt: float = 0.1,
    scale_alpha_per_K: float = 11.5e-6,
    coverage: float = 0.95,
    k: float | None = None,
    corrected: bool = False,
) -> Worked[Budget]:
    """The uncertainty of one reading, or of the mean of repeats.

    Args:
        instrument: its resolution and error limit; None uses the repeats alone. Without an error limit the
            budget is flagged as not complete.
        repeats_mm: readings of the same thing [mm]; fewer than two say nothing.
        temperature_C: of part and instrument [degC]; None: not noted.
        part_alpha_per_K, scale_alpha_per_K: linear expansion [1/K]; None: material not known.
        length_mm: the size measured [mm].
        temperature_known_within_K: half-width of the thermometer and of part against instrument [K].
        alpha_relative_doubt: half-width of each expansion figure, as a share of it.
        coverage: share the expanded uncertainty covers; ignored where ``k`` is given (2 by convention).
        corrected: whether the reading has been corrected to 20 °C (``to_20C``).

    Raises:
        BadEntry: a negative limit, doubt or length.
        OutOfRange: a coverage outside 0 to 1.

    >>> mic = InstrumentLimit("micrometer", 0.001, mpe_mm=0.004)
    >>> worked = reading_budget(mic, length_mm=25, temperature_C=20, part_alpha_per_K=11.5e-6, k=2)
    >>> round(worked.value.U_mm, 4)
    0.0047
    """
    if instrument is not None:
        record_of("Instrument", instrument, InstrumentLimit)
    repeats_mm = numbers_of("Repeat", repeats_mm)
    maybe_number_of("Temperature", temperature_C), maybe_number_of("Expansion", part_alpha_per_K)
    _refuse_negative(length_mm, temperature_known_within_K, alpha_relative_doubt, scale_alpha_per_K)
    parts = [] if instrument is None else _instrument_parts(instrument)
    if len(repeats_mm) > 1:
        parts.append(_repeat_part(repeats_mm))
    if instrument is not None:
        parts += thermal_parts(
            length_mm,
            temperature_C,
            part_alpha_per_K,
            scale_alpha_per_K,
            temperature_known_within_K,
            alpha_relative_doubt,
            corrected,
        )
    return combine(parts, coverage=coverage, k=k, complete=_has_limit(instrument))


def combine(
    components: Sequence[Component], *, coverage: float = 0.95, k: float | None = None, complete: bool = True
) -> Worked[Budget]:
    """Sum independent parts: u = √Σu², effective degrees of freedom, k and U = k·u.

    >>> gum_h1 = [Component(n, u, d, "", SUM) for n, u, d in
    ...           [("l_s", 25e-6, 18), ("d", 9.682e-6, 25.45), ("a", 2.8868e-6, 50), ("t", 16.599e-6, 2)]]
    >>> budget = combine(gum_h1, coverage=0.99).value
    >>> round(budget.u_mm * 1e6, 1), round(budget.dof, 1)
    (31.7, 16.8)
    """
    components = records_of("Part of the uncertainty", components, Component)
    k = None if k is None else number_of("Coverage factor", k, above=0)
    u = math.sqrt(math.fsum(part.u_mm**2 for part in components))
    dof = _effective_dof(components, u)
    factor = k if k is not None else student_t(coverage, max(dof, 1.0))
    budget = Budget(tuple(components), u, dof, factor, factor * u, coverage, complete)
    return Worked(budget, partial(_budget_lines, budget, k is not None))


def _budget_lines(budget: Budget, conventional: bool) -> Working:
    """Each part as it was got, then their sum."""
    sheet = Sheet("Uncertainty of the reading")
    for part in budget.components:
        sheet.equation(part.name, f"{part.how} = {um_text(part.u_mm)}", part.source)
    _sum_lines(sheet, budget, conventional)
    return sheet.close()


def _has_limit(instrument: InstrumentLimit | None) -> bool:
    """Whether an error limit is known; a resolution alone says little of the true error."""
    return instrument is not None and (instrument.mpe_mm is not None or instrument.expanded_U_mm is not None)


def _instrument_parts(instrument: InstrumentLimit) -> list[Component]:
    r, name = instrument.resolution_mm, instrument.name
    _refuse_negative(r, instrument.mpe_mm or 0.0, instrument.expanded_U_mm or 0.0)
    if not instrument.k > 0:
        raise BadEntry("is no coverage factor.", where=name, value=f"{instrument.k:g}", way_out="Use 2.")
    parts = []
    if r:
        parts.append(Component("resolution", r / math.sqrt(12), math.inf, f"{um_text(r)}/√12", RESOLUTION))
    if instrument.expanded_U_mm is not None:
        stated = instrument.expanded_U_mm
        how = f"stated U {um_text(stated)} / k {instrument.k:g}"
        parts.append(Component(name, stated / instrument.k, math.inf, how, instrument.source))
    elif instrument.mpe_mm is not None:
        a = instrument.mpe_mm
        how = f"error limit ±{um_text(a)}, any value in it as likely: {um_text(a)}/√3"
        parts.append(Component(name, a / math.sqrt(3), math.inf, how, instrument.source))
    return parts


def _repeat_part(repeats_mm: Sequence[float]) -> Component:
    n = len(repeats_mm)
    mean = math.fsum(repeats_mm) / n
    s = math.sqrt(math.fsum((reading - mean) ** 2 for reading in repeats_mm) / (n - 1))
    how = f"s of {n} readings {um_text(s)} / √{n}, {n - 1} degrees of freedom"
    return Component("repeats", s / math.sqrt(n), n - 1, how, TYPE_A)


def _effective_dof(components: Sequence[Component], u: float) -> float:
    """Effective degrees of freedom, formed from ratios so that tiny parts do not vanish to 0/0."""
    if u == 0.0:
        return math.inf
    share = math.fsum((part.u_mm / u) ** 4 / part.dof for part in components if not math.isinf(part.dof))
    return 1.0 / share if share > 0.0 else math.inf


def _sum_lines(sheet: Sheet, budget: Budget, conventional: bool) -> None:
    if not budget.components and not budget.complete:
        sheet.note("No error limit of an instrument is known, and nothing was repeated.")
        sheet.result("U", "not known")
        return
    squares = " + ".join(f"{part.u_mm * 1000:.3g}²" for part in budget.components) or "0"
    sheet.equation("u", f"√({squares}) = {um_text(budget.u_mm)}", SUM)
    freedom = "infinite" if math.isinf(budget.dof) else f"{budget.dof:.1f}"
    sheet.equation("effective degrees of freedom", freedom, EFFECTIVE)
    if conventional:
        sheet.note(f"k = {budget.k:g} by convention.")
    else:
        sheet.equation(
            "k", f"t for {budget.coverage:.4g} and {freedom} degrees of freedom = {budget.k:.3f}", COVERAGE
        )
    sheet.result("U", f"{budget.k:.3f}·{um_text(budget.u_mm)} = {um_text(budget.U_mm)}")
    if not budget.complete:
        sheet.note(
            "No error limit of an instrument is known: only the parts above are counted; the true U is larger."
        )


def _refuse_negative(*values: float) -> None:
    for value in values:
        value = number_of("Uncertainty", value, finite=False)
        if not (value >= 0.0 and math.isfinite(value)):
            raise BadEntry(
                "is not a size or a limit of zero or more.",
                where="Uncertainty",
                value=f"{value:g}",
                way_out="Type limits without a sign.",
            )
