"""Forces, stresses, torques and masses in the unit of the one who asks, the other system behind on an inch machine.

A length's unit decides: who measures in inches pushes in pounds force. Every number is worked in N, MPa, N·m and kg.
"""

from __future__ import annotations

from rebuild.trade.sizes.amounts import LB_KG, LBF_FT_NM, LBF_N
from rebuild.trade.sizes.own_unit import own_unit

#: A pound force on a square inch [MPa].
PSI_MPA = LBF_N / 25.4**2


def stress_said(MPa: float, decimals: int = 1) -> str:
    """A pressure or stress; ``decimals`` are those of MPa, pounds per square inch go to the nearest ten.

    >>> from rebuild.trade.sizes.own_unit import sizes_in
    >>> stress_said(51.1875)
    '51.2 MPa'
    >>> with sizes_in("in"):
    ...     stress_said(51.1875)
    '7,420 psi (51.2 MPa)'
    """
    metric = f"{MPa:.{decimals}f} MPa"
    return metric if own_unit() == "mm" else f"{round(MPa / PSI_MPA, -1):,.0f} psi ({metric})"


def force_said(N: float, decimals: int = 1) -> str:
    """A force; ``decimals`` are those of N.

    >>> from rebuild.trade.sizes.own_unit import sizes_in
    >>> force_said(4448.22)
    '4448.2 N'
    >>> with sizes_in("in"):
    ...     force_said(4448.22)
    '1,000 lbf (4448.2 N)'
    """
    metric = f"{N:.{decimals}f} N"
    return metric if own_unit() == "mm" else f"{N / LBF_N:,.0f} lbf ({metric})"


def force_range_said(low_N: float, high_N: float) -> str:
    """A range of force, as wide as friction makes it: three digits are more than is known.

    >>> from rebuild.trade.sizes.own_unit import sizes_in
    >>> force_range_said(5000.0, 20000.0)
    '5 to 20 kN'
    >>> with sizes_in("in"):
    ...     force_range_said(5000.0, 20000.0)
    '1,120 to 4,500 lbf (5 to 20 kN)'
    """
    metric = f"{low_N / 1000:.3g} to {high_N / 1000:.3g} kN"
    if own_unit() == "mm":
        return metric
    low, high = (round(force / LBF_N, -1) for force in (low_N, high_N))
    return f"{low:,.0f} to {high:,.0f} lbf ({metric})"


def torque_said(Nm: float, decimals: int = 2) -> str:
    """A torque; ``decimals`` are those of N·m.

    >>> from rebuild.trade.sizes.own_unit import sizes_in
    >>> with sizes_in("in"):
    ...     torque_said(135.58)
    '100.0 lbf·ft (135.58 N·m)'
    """
    metric = f"{Nm:.{decimals}f} N·m"
    return metric if own_unit() == "mm" else f"{Nm / LBF_FT_NM:.1f} lbf·ft ({metric})"


def mass_said(kg: float, unit: str) -> str:
    """A weight on a machine of this unit, three digits: a blank is a guess by its sizes.

    >>> mass_said(0.361, "mm"), mass_said(0.361, "in")
    ('0.361 kg', '0.796 lb (0.361 kg)')
    """
    metric = f"{kg:.3g} kg"
    return metric if unit != "in" else f"{kg / LB_KG:.3g} lb ({metric})"


def small_said(mm: float) -> str:
    """An interference or a roughness: micrometres, or thousandths first.

    >>> from rebuild.trade.sizes.own_unit import sizes_in
    >>> small_said(0.0254)
    '25.40 µm'
    >>> with sizes_in("in"):
    ...     small_said(0.0254)
    '0.00100 in (25.40 µm)'
    """
    metric = f"{mm * 1000:.2f} µm"
    return metric if own_unit() == "mm" else f"{mm / 25.4:.5f} in ({metric})"
