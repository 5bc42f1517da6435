"""The clock every act goes by."""

from __future__ import annotations

import datetime as dt


def now() -> dt.datetime:
    """The wall clock of the shop, to the second."""
    return dt.datetime.now().replace(microsecond=0)  # noqa: DTZ005 - one shop, one wall clock
