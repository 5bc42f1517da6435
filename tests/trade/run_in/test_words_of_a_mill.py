"""A mill's lists suit one with its spindle lying down and one with it standing up (common practice, no source)."""

from __future__ import annotations

from rebuild.trade.machines.usual import USUAL
from rebuild.trade.run_in.checks import usual_looks
from rebuild.trade.run_in.controls import usual_controls
from rebuild.trade.run_in.kinds import usual_bearings
from rebuild.words.machines import MachineKind


# Seen: "quill up and locked", "lower spindle bearing" and "Head" on a horizontal mill.
def test_nothing_on_a_mills_lists_asks_for_a_quill_or_an_upright_spindle() -> None:
    mill = MachineKind.MILL
    words = [
        *(look.text for look in usual_looks(mill)),
        *(one.name for one in usual_controls(mill)),
        *usual_bearings(mill),
    ]
    said = " ".join(words).lower()
    assert not [word for word in ("quill", "lower", "upper", "chuck", "tailstock") if word in said]
    assert "arbor nut" in said
    assert "Head" not in [one.name for one in USUAL[mill]]
    assert "Overarm or head" in [one.name for one in USUAL[mill]]
