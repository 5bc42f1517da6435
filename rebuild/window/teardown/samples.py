"""What the lines of the log show greyed: how a thing is said, in the machine's own unit, of no real part."""

from __future__ import annotations

_FASTENERS = {"mm": "4 x M10 x 45 socket, finger", "in": "4 x 3/8-16 x 1-3/4 socket, finger"}
_SHIM, _MORE = {"mm": "0.20", "in": "0.009"}, {"mm": "2 x 0.05", "in": "2 x 0.003"}


def line_sample(unit: str) -> str:
    """A whole line.

    >>> line_sample("mm")
    'NAME u, 4 x M10 x 45 socket, finger, shims left 0.20, mark two dots, > bag 3'
    """
    return f"NAME u, {_FASTENERS[unit]}, shims left {_SHIM[unit]}, mark two dots, > bag 3"


def fastener_sample(unit: str) -> str:
    """What sat in a hole."""
    return f"Add a fastener: {_FASTENERS[unit]}"


def shims_sample(unit: str) -> str:
    """A pack of shims."""
    return f"Add shims: left {_SHIM[unit]} + {_MORE[unit]}"
