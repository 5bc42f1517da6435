"""How deep the searching tests look: the printed test command looks a little way, the whole check further."""

from __future__ import annotations

import os

#: Set by the whole check: how many times as many examples.
DEPTH = int(os.environ.get("REBUILD_DEPTH", "1"))


def examples(few: int) -> int:
    """How many examples a searching test tries: ``few``, times the depth asked for."""
    return few * DEPTH
