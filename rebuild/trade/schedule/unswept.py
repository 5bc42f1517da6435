"""Thousands of values made at once: the collector does not sweep through them, and all else, while they are made."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def unswept() -> Iterator[None]:
    """No sweep within; what was given up meanwhile is found by the next one.

    Half of laying a large graph was sweeps that found nothing: its values hold each other in no circle.

    >>> with unswept():
    ...     gc.isenabled()
    False
    >>> gc.isenabled()
    True
    """
    swept = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if swept:
            gc.enable()
